import type { Feature } from '../features/feature.ts';
import { boxOf, indexFeatures } from '../features/index-near.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { metresBetween } from '../features/lookalikes.ts';
import { type Raster, sample } from '../grid/raster.ts';
import type { Point } from '../math/plane.ts';
import { counted, type Finding, someOf } from './check-finding.ts';
import { lackingNeeds } from './prepare-lacking.ts';

/** Two points of one kind closer than this are one thing mapped twice, metres. */
const SAME_PLACE = 3;
/** Ways that stop short of another by no more than this were meant to meet it, metres; nearer than `TOUCH` they do. */
const GAP = 25;
const TOUCH = 3;
/** Height range within standing water that its level cannot have, metres, beside one per metre of cell. */
const LEVEL = 8;
/** More pairs than this are not listed. */
const MOST_PAIRS = 200;

/** What is wrong, doubtful or lacking in the features of a terrain. */
export function checkFeatures(features: readonly Feature[], elevation: Raster): Finding[] {
  return [
    ...offTheMap(features, elevation),
    ...mappedTwice(features),
    ...gapsInWays(features),
    ...slopingWater(features, elevation),
    ...rowsOutOfOrder(features),
    ...lacking(features),
  ];
}

function offTheMap(features: readonly Feature[], { west, north, cell, columns, rows }: Raster): Finding[] {
  const [east, south] = [west + columns * cell, north - rows * cell];
  const off = features.filter((f) => {
    const [w, s, e, n] = boxOf(f.geometry);
    return e < west || w > east || n < south || s > north;
  });
  if (off.length === 0) return [];
  const all = off.length === features.length;
  return [
    {
      weight: all ? 'wrong' : 'doubtful',
      about: 'features',
      says: all
        ? `none of the ${features.length} features lies on the elevation: they are of another place or in another coordinate system`
        : `${counted(off.length, 'feature')} ${off.length === 1 ? 'lies' : 'lie'} wholly off the elevation: ${someOf(off.map((f) => f.id))}`,
      ids: off.slice(0, MOST_PAIRS).map((f) => f.id),
    },
  ];
}

function mappedTwice(features: readonly Feature[]): Finding[] {
  const points = features.filter((f) => f.geometry.type === 'point');
  const index = indexFeatures(points);
  const twice: string[] = [];
  points.forEach((feature, i) => {
    if (feature.geometry.type !== 'point' || index.tree === null || twice.length >= MOST_PAIRS) return;
    const [x, y] = feature.geometry.at;
    const near = index.tree.search(x - SAME_PLACE, y - SAME_PLACE, x + SAME_PLACE, y + SAME_PLACE);
    for (const j of near) {
      const other = points[j]!;
      if (j > i && other.kind === feature.kind) twice.push(`${feature.id} and ${other.id}`);
    }
  });
  if (twice.length === 0) return [];
  return [
    {
      weight: 'doubtful',
      about: 'features',
      says: `mapped twice, of one kind within ${SAME_PLACE} m: ${someOf(twice)}`,
      ids: twice.flatMap((pair) => pair.split(' and ')),
    },
  ];
}

/** Ends of ways that stop a little short of another way: on the ground they meet, in the data one cannot turn. */
function gapsInWays(features: readonly Feature[]): Finding[] {
  const ways = features.filter((f) => lineFamily(f.kind) === 'way' && f.geometry.type === 'line');
  const index = indexFeatures(ways);
  if (index.tree === null) return [];
  const short: { text: string; at: Point; id: string }[] = [];
  for (const way of ways) {
    const points = way.geometry.type === 'line' ? way.geometry.points : [];
    for (const end of [points[0]!, points[points.length - 1]!]) {
      if (short.length >= MOST_PAIRS) break;
      const near = index.tree
        .search(end[0] - GAP, end[1] - GAP, end[0] + GAP, end[1] + GAP)
        .map((j) => ways[j]!)
        .filter((other) => other !== way)
        .map((other) => ({ other, metres: awayFrom(end, other) }))
        .filter(({ metres }) => metres <= GAP)
        .sort((a, b) => a.metres - b.metres)[0];
      if (near === undefined || near.metres <= TOUCH) continue;
      short.push({
        text: `${way.id} stops ${Math.round(near.metres)} m short of ${near.other.id}`,
        at: end,
        id: way.id,
      });
    }
  }
  if (short.length === 0) return [];
  return [
    {
      weight: 'doubtful',
      about: 'features',
      says: `${counted(short.length, 'end of a way', 'ends of ways')} nearly meets another: ${someOf(
        short.map((s) => s.text),
        3,
      )}`.replace(/ends of ways nearly meets/, 'ends of ways nearly meet'),
      ids: short.map((s) => s.id),
      at: short[0]!.at,
    },
  ];
}

function awayFrom(p: Point, feature: Feature): number {
  return metresBetween({ type: 'point', at: p }, feature.geometry);
}

function slopingWater(features: readonly Feature[], elevation: Raster): Finding[] {
  const sloping = features.filter((f) => {
    if (f.geometry.type !== 'area' || (f.kind !== 'lake' && f.kind !== 'tarn')) return false;
    const heights = (f.geometry.rings[0] ?? [])
      .map(([x, y]) => sample(elevation, x, y))
      .filter((z) => !Number.isNaN(z))
      .sort((a, b) => a - b);
    if (heights.length < 4) return false;
    // the shore steps up on to the banks; the middle half of it must be level
    const spread = heights[Math.floor(heights.length * 0.75)]! - heights[Math.floor(heights.length * 0.25)]!;
    return spread > LEVEL + 0.2 * elevation.cell;
  });
  if (sloping.length === 0) return [];
  return [
    {
      weight: 'doubtful',
      about: 'features',
      says: `standing water on a slope: ${someOf(sloping.map((f) => f.id))}; the layers may not lie on each other`,
      ids: sloping.map((f) => f.id),
    },
  ];
}

/** Members of a row must be in order of their place along it, or "the third post" is another one. */
function rowsOutOfOrder(features: readonly Feature[]): Finding[] {
  const rows = new Map<string, Feature[]>();
  for (const f of features) if (f.row !== undefined) rows.set(f.row, [...(rows.get(f.row) ?? []), f]);
  const findings: Finding[] = [];
  for (const [row, members] of rows) {
    const places = members.map((m) => m.rowPlace);
    const sorted = places.filter((p) => p !== undefined).sort((a, b) => a - b);
    const repeated = sorted.some((p, i) => i > 0 && p === sorted[i - 1]);
    if (members.length > 1 && sorted.length === members.length && !repeated) continue;
    findings.push({
      weight: 'doubtful',
      about: 'features',
      says:
        members.length < 2
          ? `the row "${row}" has one member only`
          : `the members of the row "${row}" have no clear order: each needs a rowPlace of its own`,
      ids: members.map((m) => m.id),
    });
  }
  return findings;
}

function lacking(features: readonly Feature[]): Finding[] {
  return lackingNeeds(features).map(({ name, without }) => ({
    weight: 'known',
    about: 'features',
    says: `no ${name} mapped: ${without}`,
  }));
}
