import type { MappedGround } from '../cost/mapped-ground.ts';
import { boxOf } from '../features/index-near.ts';
import type { Raster } from '../grid/raster.ts';
import type { Point } from '../math/plane.ts';
import { simplified } from '../route/line-steps.ts';
import type { RouteWords } from '../route/words.ts';
import { packLayer } from './packed-layer.ts';
import type { Candidate, Report, ReportFeature } from './report.ts';

/** Room left round the routes, and the most cells that the report carries. */
const MARGIN = 400;
const MOST_CELLS = 160_000;

interface Box {
  west: number;
  south: number;
  east: number;
  north: number;
}

/** The part of the terrain that the report shows: round every route, coarsened until it is light enough to send. */
export function reportGround(
  ground: MappedGround,
  candidates: readonly Candidate[],
  ends: readonly Point[],
  lacking: Report['ground']['lacking'],
): { shown: Report['ground']; box: Box } {
  const { terrain } = ground;
  const box = boxAround([...ends, ...candidates.flatMap((c) => c.line)], terrain.elevation);
  const { raster, origin } = cut(terrain.elevation, box);
  return {
    box,
    shown: {
      crs: terrain.crs,
      origin,
      cell: raster.cell,
      columns: raster.columns,
      rows: raster.rows,
      layers: [packLayer('elevation', raster.data, 0.1)],
      source: terrain.attribution,
      terrainCell: terrain.elevation.cell,
      lacking,
    },
  };
}

/** Features that touch the box, with their doubt; lines thinned to what the eye can see. */
export function reportFeatures(ground: MappedGround, box: Box, words: RouteWords): ReportFeature[] {
  return ground.features
    .filter((f) => f.origin !== 'derived')
    .filter((f) => {
      const [west, south, east, north] = boxOf(f.geometry);
      return east >= box.west && west <= box.east && north >= box.south && south <= box.north;
    })
    .map((f): ReportFeature => {
      const { exists, positionMetres } = f.doubt;
      return {
        id: f.id,
        kind: f.kind,
        name: words.ownName(f),
        exists: Math.round(exists * 1000) / 1000,
        positionMetres: Math.round(positionMetres * 10) / 10,
        geometry: thinned(f.geometry),
      };
    });
}

function thinned(g: ReportFeature['geometry']): ReportFeature['geometry'] {
  if (g.type === 'point') return { type: 'point', at: rounded(g.at) };
  if (g.type === 'line') return { type: 'line', points: simplified(g.points, 2).map(rounded) };
  return { type: 'area', rings: g.rings.map((ring) => simplified(ring, 2).map(rounded)) };
}

function rounded(p: Point): Point {
  return [Math.round(p[0] * 10) / 10, Math.round(p[1] * 10) / 10];
}

function boxAround(points: readonly Point[], raster: Raster): Box {
  let west = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const [e, n] of points) {
    west = Math.min(west, e);
    east = Math.max(east, e);
    south = Math.min(south, n);
    north = Math.max(north, n);
  }
  const right = raster.west + raster.columns * raster.cell;
  const foot = raster.north - raster.rows * raster.cell;
  return {
    west: Math.max(raster.west, west - MARGIN),
    east: Math.min(right, east + MARGIN),
    south: Math.max(foot, south - MARGIN),
    north: Math.min(raster.north, north + MARGIN),
  };
}

/** Cuts a raster to a box of whole cells, every k-th of which is kept (mean of k × k, missing left out). */
function cut(raster: Raster, box: Box): { raster: Raster; origin: Point } {
  const c0 = Math.max(0, Math.floor((box.west - raster.west) / raster.cell));
  const r0 = Math.max(0, Math.floor((raster.north - box.north) / raster.cell));
  const c1 = Math.min(raster.columns, Math.ceil((box.east - raster.west) / raster.cell));
  const r1 = Math.min(raster.rows, Math.ceil((raster.north - box.south) / raster.cell));
  let k = 1;
  while (Math.ceil((c1 - c0) / k) * Math.ceil((r1 - r0) / k) > MOST_CELLS) k++;
  const columns = Math.max(1, Math.floor((c1 - c0) / k));
  const rows = Math.max(1, Math.floor((r1 - r0) / k));
  const data = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) data[r * columns + c] = meanOf(raster, c0 + c * k, r0 + r * k, k);
  }
  const west = raster.west + c0 * raster.cell;
  const north = raster.north - r0 * raster.cell;
  return {
    origin: [west, north],
    raster: { crs: raster.crs, west, north, cell: raster.cell * k, columns, rows, data },
  };
}

function meanOf(raster: Raster, c0: number, r0: number, k: number): number {
  let sum = 0;
  let n = 0;
  for (let r = r0; r < r0 + k; r++) {
    for (let c = c0; c < c0 + k; c++) {
      const z = raster.data[r * raster.columns + c]!;
      if (!Number.isNaN(z)) {
        sum += z;
        n++;
      }
    }
  }
  return n === 0 ? Number.NaN : sum / n;
}
