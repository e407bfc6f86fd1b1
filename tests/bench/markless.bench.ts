import { marklessDistance } from '../../src/cost/layers/markless.ts';
import type { Feature } from '../../src/features/feature.ts';
import { recognisableCells } from '../../src/seeing/recognisable.ts';
import { type Bench, timed } from './bench.ts';
import { hills, total } from './hills.ts';

const SIDE = 2000;
const FEATURES = 100;

/** Cairns on a lattice, made out at 400 m. */
function cairns(cell: number): Feature[] {
  const perRow = Math.sqrt(FEATURES);
  return Array.from({ length: FEATURES }, (_, i): Feature => {
    const place = (k: number) => ((k + 0.5) / perRow) * SIDE * cell;
    return {
      id: `cairn-${i}`,
      kind: 'cairn',
      geometry: { type: 'point', at: [place(i % perRow), -place(Math.floor(i / perRow))] },
      given: {},
      doubt: {
        exists: 0.95,
        positionMetres: 5,
        rangeMetres: 400,
        contrast: 0.8,
        visibility: 'medium',
        alike: 0,
        extraPerGap: 0,
      },
      origin: 'mapped',
    };
  });
}

export const bench: Bench = {
  name: `markless distance of ${FEATURES} features, ${SIDE} × ${SIDE}`,
  must: { most: 1, unit: 's' },
  rounds: 5,
  agree: 0,
  async prepare() {
    const surface = hills(SIDE);
    const elevation = { ...surface, data: surface.elevation };
    const cover = { ...surface, data: new Uint8Array(SIDE * SIDE) };
    const closed = Uint8Array.from(surface.factor, (f) => (f < Infinity ? 0 : 1));
    const features = cairns(surface.cell);
    return {
      data: 'cairns made out at 400 m, hills, seed 1, 2 % closed; line of sight and distance',
      ours: () =>
        timed(() => {
          const seen = recognisableCells(elevation, cover, features, {
            visibility: { below: 5000, above: 5000, cloudBase: null },
            ground: 'normal',
            light: 'day',
            wind: { metresPerSecond: 0, fromDegrees: 0 },
            date: null,
          });
          return marklessDistance(elevation, seen.data, closed);
        }, total),
    };
  },
};
