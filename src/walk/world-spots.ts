import { dayFactors } from '../conditions/factors.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { placeOf } from '../features/areas.ts';
import { existsInWetness } from '../features/doubt.ts';
import type { Feature } from '../features/feature.ts';
import { alikeKinds } from '../features/lookalikes.ts';
import { hashText } from '../math/random.ts';
import type { Errand } from '../route/drawn.ts';
import { isMark, reachOf } from '../seeing/recognisable.ts';
import { recognisedShare } from '../seeing/recognised.ts';
import { halfWidth } from '../seeing/sweep.ts';
import type { Line, Spot } from './world.ts';

/** A thing that shows from here on can fix where a party is, metres. */
const LANDMARK_METRES = 50;
const LIKE_WITHIN = 500;
const NO_SPOT: ReadonlySet<string> = new Set([
  'grass',
  'heather',
  'tussock',
  'hag',
  'scree',
  'out-of-bounds',
  'steep-ground',
  'forest',
  'marsh',
  'boulder-field',
]);

/** Everything with a place of its own: mapped points, small areas, and the named places of lines. The target is always one. */
export function spotsOf(ground: MappedGround, errand: Errand, lines: readonly Line[]): Spot[] {
  const byLine = new Map(lines.map((l) => [l.feature.id, l]));
  const places = new Map(ground.network.places.map((p) => [p.id, p]));
  const day = dayFactors(errand.conditions);
  const all = ground.features.filter((f) => f.geometry.type !== 'line' && !NO_SPOT.has(f.kind));
  const target = errand.target.feature;
  if (!all.some((f) => f.id === target.id)) all.push(target);
  const spots = all.map((mapped, index): Spot => {
    // the task may know more of its target than the map does
    const feature: Feature = mapped.id === target.id ? target : mapped;
    const place = places.get(feature.id);
    const on =
      place?.on
        .map((o) => ({ line: byLine.get(o.feature), along: o.along }))
        .filter((o) => o.line !== undefined) ?? [];
    const first = on[0];
    const reach = reachOf(feature, ground.cover, errand.conditions, day);
    const at = feature.id === target.id ? errand.target.at : placeOf(feature);
    const halfLow = halfWidth(feature.doubt, reach.below);
    const halfHigh = halfWidth(feature.doubt, reach.above);
    const oneKind = on.filter((o) => o.line!.family === first?.line?.family);
    return {
      index,
      feature,
      key: hashText(feature.id),
      x: at[0],
      y: at[1],
      exists: existsInWetness(feature.kind, feature.doubt.exists, errand.conditions.ground),
      sd: feature.doubt.positionMetres,
      halfLow,
      halfHigh,
      hiddenByGround: feature.doubt.sweepWidthMetres === undefined,
      recognised: recognisedShare(errand.party.set, feature.doubt),
      line: first === undefined ? -1 : first.line!.index,
      lineAlong: first === undefined ? 0 : first.along + first.line!.mapStart,
      shift: { mean: 0, sd: first === undefined ? 0 : feature.doubt.positionMetres },
      branches: oneKind.length > 1 ? [...new Set(oneKind.map((o) => o.line!.index))] : [],
      landmark: isMark(feature) && Math.max(halfLow, halfHigh) >= LANDMARK_METRES,
      unmapped: false,
    };
  });
  for (const s of unmappedBeside(spots)) spots.push(s);
  return spots;
}

/** Another like thing near one of a class of which there are often several, metres SD. Common practice, no source. */
const BESIDE_METRES = 40;

/** What no map shows: a like thing beside one that is seldom alone, and the extra members of rows. */
function unmappedBeside(spots: readonly Spot[]): Spot[] {
  const extra: Spot[] = [];
  const add = (like: Spot, id: string, x: number, y: number, exists: number, sd: number) => {
    const feature: Feature = { ...like.feature, id, origin: 'derived' };
    const index = spots.length + extra.length;
    const key = hashText(id);
    extra.push({ ...like, index, feature, key, x, y, exists, sd, line: -1, landmark: false, unmapped: true });
  };
  const rows = new Map<string, Spot[]>();
  for (const s of spots) {
    const { alike } = s.feature.doubt;
    if (alike > 0 && s.line < 0) add(s, `${s.feature.id} another`, s.x, s.y, alike, BESIDE_METRES);
    const { row } = s.feature;
    if (row !== undefined) rows.set(row, [...(rows.get(row) ?? []), s]);
  }
  for (const row of rows.values()) {
    row.sort((a, b) => (a.feature.rowPlace ?? 0) - (b.feature.rowPlace ?? 0));
    for (let k = 0; k + 1 < row.length; k++) {
      const [a, b] = [row[k]!, row[k + 1]!];
      const chance = a.feature.doubt.extraPerGap;
      if (chance > 0) add(a, `${a.feature.id} extra`, (a.x + b.x) / 2, (a.y + b.y) / 2, chance, a.sd);
    }
  }
  return extra;
}

/** Spots within reach that could be taken for one. */
export function alikeSpots(spots: readonly Spot[], index: number): number[] {
  const s = spots[index]!;
  return spots
    .filter((o) => Math.abs(o.x - s.x) < LIKE_WITHIN && Math.abs(o.y - s.y) < LIKE_WITHIN)
    .filter((o) => o.index !== index && alikeKinds(o.feature.kind, s.feature.kind))
    .map((o) => o.index);
}
