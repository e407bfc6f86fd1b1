import { placeOf } from '../features/areas.ts';
import type { Feature } from '../features/feature.ts';
import { indexFeatures, nearFeatures } from '../features/index-near.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { type Raster, sample } from '../grid/raster.ts';
import { distance, type Point } from '../math/plane.ts';

/** Small things a task may be about, and things a party may start from, best first. Common practice, no published source. */
const TARGETS: readonly FeatureKind[] = [
  ...(['spring', 'sinkhole', 'well', 'cairn', 'boundary-stone', 'boulder', 'post', 'pool'] as const),
  ...([
    'ruin',
    'fold',
    'crag',
    'tarn',
    'stream-end',
    'confluence',
    'col',
    'knoll',
    're-entrant',
    'spur',
  ] as const),
  ...(['other', 'junction', 'flat-summit'] as const),
];
const STARTS: readonly FeatureKind[] = [
  ...(['junction', 'bridge', 'gate', 'ruin', 'fold', 'building', 'crossing', 'confluence', 'col'] as const),
  ...(['wall-corner', 'cairn', 'tarn', 'knoll', 'spur', 'flat-summit', 're-entrant', 'line-end'] as const),
];
/** How far apart they should lie, metres. */
const NEAREST = 900;
const FURTHEST = 2600;
const WISHED = 1600;
/** A target is better off the ways by so many metres. */
const OFF_WAYS = 150;
/** A straight line as steep as this somewhere is no walk. */
const STEEPEST = 0.6;
/** Places looked at, at most, so that a large extract takes no longer. */
const MOST_TARGETS = 60;
const MOST_STARTS = 400;

export interface FirstTask {
  readonly start: Feature;
  readonly target: Feature;
}

/**
 * A start and a target that make a first task on unknown ground: a small thing well inside the data, and a likely start about
 * 1.6 km away over ground that can be walked. Null where the features give none.
 */
export function chooseFirstTask(features: readonly Feature[], elevation: Raster): FirstTask | null {
  const centre: Point = [
    elevation.west + (elevation.columns * elevation.cell) / 2,
    elevation.north - (elevation.rows * elevation.cell) / 2,
  ];
  const inner = features.filter((f) => inside(elevation, placeOf(f)));
  const fromCentre = (f: Feature) => distance(placeOf(f), centre);
  const byRank = (kinds: readonly FeatureKind[]) =>
    inner
      .filter((f) => kinds.includes(f.kind))
      .sort((a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || fromCentre(a) - fromCentre(b));
  const ways = indexFeatures(features.filter((f) => lineFamily(f.kind) === 'way'));
  const offWays = (f: Feature) => nearFeatures(ways, ...placeOf(f), OFF_WAYS).length === 0;
  const ranked = byRank(TARGETS).slice(0, MOST_TARGETS);
  // a thing beside a path needs no navigation
  const targets = [...ranked.filter(offWays), ...ranked.filter((f) => !offWays(f))];
  const starts = byRank(STARTS);
  for (const target of targets) {
    const at = placeOf(target);
    const near = starts
      .map((start) => ({ start, metres: distance(placeOf(start), at) }))
      .filter(({ metres }) => metres >= NEAREST && metres <= FURTHEST)
      .sort((a, b) => Math.abs(a.metres - WISHED) - Math.abs(b.metres - WISHED))
      .slice(0, MOST_STARTS);
    const fit = near.find(({ start }) => walkable(elevation, placeOf(start), at));
    if (fit !== undefined) return { start: fit.start, target };
  }
  return null;
}

/** Well inside the data, so that ways round are known. */
function inside({ west, north, columns, rows, cell }: Raster, [x, y]: Point): boolean {
  const margin = Math.min(2000, 0.15 * Math.min(columns, rows) * cell);
  return (
    x > west + margin &&
    x < west + columns * cell - margin &&
    y < north - margin &&
    y > north - rows * cell + margin
  );
}

function walkable(elevation: Raster, a: Point, b: Point): boolean {
  const metres = distance(a, b);
  const step = Math.max(elevation.cell, 25);
  let before = Number.NaN;
  for (let d = 0; d <= metres; d += step) {
    const t = d / metres;
    const z = sample(elevation, a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t);
    // the sea and the void are no ground
    if (Number.isNaN(z) || z <= 0 || Math.abs(z - before) > STEEPEST * step) return false;
    before = z;
  }
  return true;
}

/** The task file, with words where a person will want to change something. */
export function firstTaskText(task: FirstTask, elevation: Raster): string {
  const { start, target } = task;
  const [x, y] = placeOf(target);
  const here = sample(elevation, x, y);
  const [sx, sy] = placeOf(start);
  const base = Math.round((here + sample(elevation, sx, sy)) / 20) * 10;
  const metres = Math.round(distance([x, y], [sx, sy]));
  return `# A first task on this ground, chosen by prepare: ${metres} m from start to target. Change what you like.
# Every id of features.geojson may be named; places.csv lists them with their coordinates.
name: ${JSON.stringify(`To ${target.name ?? target.id}`)}
version: 1
terrain: .
start: { feature: ${JSON.stringify(start.id)} }
target: { feature: ${JSON.stringify(target.id)} }
conditions:
  visibility: { below: 3000, above: 120, cloudBase: ${base} } # metres; or one number
  ground: wet # dry, normal, wet, saturated, spate
  light: day
party:
  skill: competent # novice, competent, expert
  people: 4
limits: { minutes: 120, searchMinutes: 10, relaunches: 1 }
routes:
  - name: straight there
    legs:
      - { technique: bearing, to: target }
find: { candidates: 5 }
trials: 2000
seed: 1
`;
}
