import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import type { Ground } from '../map/ground.ts';
import type { GroundFacts } from './messages.ts';

/** The middle of the ground. */
export function middleOf({ west, north, cell, columns, rows }: Ground): Point {
  return [west + (columns * cell) / 2, north - (rows * cell) / 2];
}

/** As much of a report as the map needs. */
export function bareReport(facts: GroundFacts, ground: Ground, start: Point, target: Point): Report {
  const { grid } = facts;
  return {
    task: {
      name: '',
      terrain: facts.name,
      start: { name: 'S', at: start },
      target: { name: 'T', at: target },
    },
    candidates: [],
    unbeaten: [],
    norths: null,
    ground: { origin: [ground.west, ground.north], cell: grid.cell, columns: grid.columns, rows: grid.rows },
    features: facts.features
      .filter((f) => f.origin !== 'derived')
      .map((f) => ({
        id: f.id,
        kind: f.kind,
        name: f.name ?? null,
        exists: Math.round(f.doubt.exists * 1000) / 1000,
        positionMetres: f.doubt.positionMetres,
        geometry: f.geometry,
      })),
  } as unknown as Report;
}
