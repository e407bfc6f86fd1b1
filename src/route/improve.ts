import type { Feature } from '../features/feature.ts';
import { distance, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { aimOffLeg, crossingSine, defaultOffset } from './aim-off-leg.ts';
import { knownTo } from './doubt-of-place.ts';
import { attackPoints, catchingLine, endgamesFrom, type Launch } from './endgames.ts';
import { type Estimate, estimateOf } from './estimate.ts';
import { handrailLeg } from './handrail-leg.ts';
import { scatterOf } from './lateral.ts';
import type { Leg, Route } from './leg.ts';
import { KNOWN, throughPiece } from './pieces.ts';
import { featureById, isBlocked, linesNear, type Planning } from './planning.ts';
import { routePhrase } from './says.ts';
import { openLeg, roundTheSlope, straightLeg } from './straight-leg.ts';
import { placeOfSpot } from './stretch-legs.ts';
import { tickOffsOn } from './tick-offs.ts';
import { type ChangeSaid, routeWords } from './words.ts';

export const CHANGE_KINDS = [
  'aim off',
  'other attack point',
  'catching feature',
  'tick-off',
  'shorter last leg',
  'other technique',
] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

/** A route that differs from another in one thing. */
export interface Change {
  readonly kind: ChangeKind;
  /** "aim off 60 m to the left of the corner instead of walking straight at it". */
  readonly says: string;
  readonly route: Route;
  /** Guesses before and after; the change is judged by simulation. */
  readonly estimate: Estimate;
}

/** Changes handed on of one kind, and in all: each costs thousands of walks. */
const MOST_OF_KIND = 3;
const MOST = 12;

/**
 * Every route that one change makes of a given one: aiming off, another attack point, a catching feature, tick-offs, a shorter
 * last leg, another technique. The most promising first by closed-form estimates; whether they help is for simulation to say.
 */
export function changesOf(
  route: Route,
  planning: Planning,
  { ofKind, all }: { readonly ofKind: number; readonly all: number } = { ofKind: MOST_OF_KIND, all: MOST },
): Change[] {
  const before = estimateOf(route.legs, planning);
  const made = [
    ...aimingOff(route.legs, planning),
    ...otherAttackPoints(route.legs, planning),
    ...catchingFeatures(route.legs, planning),
    ...tickOffs(route.legs, planning),
    ...shorterLastLeg(route.legs, planning),
    ...otherTechniques(route.legs, planning),
  ];
  const words = routeWords(planning.errand.reading);
  const judged = made
    .map(({ kind, said, legs }) => ({
      kind,
      says: words.change(said),
      legs,
      estimate: estimateOf(legs, planning),
    }))
    .map((change, i) => ({ ...change, i, gain: gainOf(before, change.estimate) }))
    .filter((change) => change.estimate.share > 0.5 * before.share)
    .sort((a, b) => b.gain - a.gain || a.i - b.i);
  const counts = new Map<ChangeKind, number>();
  const kept = judged.filter(({ kind }) => {
    const count = (counts.get(kind) ?? 0) + 1;
    counts.set(kind, count);
    return count <= ofKind;
  });
  return kept.slice(0, all).map(({ kind, says, legs, estimate }, k) => ({
    kind,
    says,
    estimate,
    route: {
      ...route,
      id: `${route.id}/change-${k + 1}`,
      name: `${route.name}: ${says}`,
      strategy: routePhrase(legs, planning.ground, planning.errand),
      legs,
    },
  }));
}

/** One more in a hundred parties is worth about a minute, for the order only. */
function gainOf(before: Estimate, after: Estimate): number {
  return 100 * (after.share - before.share) - (after.minutes - before.minutes);
}

interface Made {
  readonly kind: ChangeKind;
  readonly said: ChangeSaid;
  readonly legs: readonly Leg[];
}

/** The legs with some of them put in the place of legs `from` to `to`; chained, the last one fine. */
function replaced(
  planning: Planning,
  legs: readonly Leg[],
  from: number,
  to: number,
  by: readonly Leg[],
): Leg[] {
  const { target } = planning.errand;
  const all = [...legs.slice(0, from), ...by, ...legs.slice(to + 1)];
  return all.map((leg, i) => {
    const last = i === all.length - 1;
    const begin = i === 0 ? leg.from : all[i - 1]!.to;
    const path = distance(begin, leg.from) > 0 ? [begin, ...leg.path.slice(1)] : leg.path;
    const end = last ? { toFeature: target.feature.id } : {};
    return { ...leg, ...end, from: begin, path, fine: last };
  });
}

/** On to the line that comes next, or that the target stands on, to one side; other sides and offsets where one aims off already. */
function aimingOff(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique === 'handrail' || leg.technique === 'box') return;
    const next = legs[i + 1];
    const aimed = leg.technique === 'aim-off';
    const id = aimed ? leg.line : next?.technique === 'handrail' ? next.line : lineAt(leg, planning);
    const line = planning.handrails.get(id ?? '');
    if (!line) return;
    const follows = next?.technique === 'handrail' && next.line === line.feature.id;
    const wanted = follows ? next.to : (leg.wanted ?? leg.to);
    const wantedAlong = nearestOnLine(wanted, line.points).along;
    const at = pointAlong(line.points, wantedAlong);
    if (distance(leg.from, at) < 60 || crossingSine(leg.from, line.points, wantedAlong) < 0.5) return;
    const { lateral } = scatterOf(planning.ground, planning.errand, leg.from, at);
    for (const side of ['left', 'right'] as const) {
      for (const sds of [1.5, 2]) {
        const offsetMetres = defaultOffset(lateral, sds);
        const already = aimed && leg.side === side && Math.abs(leg.offsetMetres! - offsetMetres) < 10;
        const aim = aimOffLeg({ from: leg.from, line: line.feature, wantedAlong, side, offsetMetres });
        if (already || Math.abs(aim.offsetMetres! - offsetMetres) > 5) continue;
        if (isBlocked(planning, aim.from, aim.to)) continue;
        const confirmed = follows ? next.toFeature : leg.toFeature;
        const follow = handrailLeg(aim.to, line.feature, wantedAlong, confirmed);
        made.push({
          kind: 'aim off',
          said: {
            is: 'aim off',
            metres: offsetMetres,
            side,
            line: line.feature,
            ...(aimed ? { before: { metres: leg.offsetMetres!, side: leg.side! } } : {}),
          },
          legs: replaced(planning, legs, i, follows ? i + 1 : i, [aim, follow]),
        });
      }
    }
  });
  return made;
}

/** A line at the end of a leg. */
function lineAt(leg: Leg, planning: Planning): string | undefined {
  let best: string | undefined;
  let least = 15;
  for (const [id, line] of planning.handrails) {
    const { away } = nearestOnLine(leg.to, line.points);
    if (away < least) {
      least = away;
      best = id;
    }
  }
  return best;
}

/** The leg that leads to the last sure place before the target; −1 when the route goes there in one. */
function launchLeg(legs: readonly Leg[]): number {
  for (let i = legs.length - 2; i >= 0; i--) if (legs[i]!.toFeature !== undefined) return i;
  return -1;
}

function otherAttackPoints(legs: readonly Leg[], planning: Planning): Made[] {
  const { target, start } = planning.errand;
  const made: Made[] = [];
  const k = launchLeg(legs);
  // What comes before the launch stays, but for an open leg that would lead to it.
  const keep = k < 0 ? 0 : legs[k]!.technique === 'handrail' ? k + 1 : k;
  const from = keep === 0 ? start.at : legs[keep - 1]!.to;
  const now = k < 0 ? undefined : legs[k]!.toFeature;
  for (const spot of attackPoints(planning, 12)) {
    const at = placeOfSpot(spot);
    if (spot.id === now || distance(from, at) < 40) continue;
    const ends = endingsFrom(planning, spot, at);
    for (const to of waysTo(planning, from, spot, at)) {
      for (const end of ends) {
        made.push({
          kind: 'other attack point',
          said: {
            is: 'attack point',
            first: now === undefined,
            spot,
            metres: distance(at, target.at),
            ...byLines(planning, to, end),
          },
          legs: replaced(planning, legs, keep, legs.length - 1, [...to, ...end]),
        });
      }
    }
  }
  return made;
}

/** Straight to an attack point; and on to each line that it stands on, to either side of it, and along that. */
function waysTo(planning: Planning, from: Point, spot: Feature, at: Point): Leg[][] {
  const ways: Leg[][] = isBlocked(planning, from, at) ? [] : [[openLeg(planning, from, at, spot)]];
  for (const line of linesNear(planning, at, 15)) {
    const { along } = nearestOnLine(at, line.points);
    if (nearestOnLine(from, line.points).away < 40 || crossingSine(from, line.points, along) < 0.5) continue;
    const { lateral } = scatterOf(planning.ground, planning.errand, from, at);
    for (const side of ['left', 'right'] as const) {
      const offsetMetres = defaultOffset(lateral);
      const aim = aimOffLeg({ from, line: line.feature, wantedAlong: along, side, offsetMetres });
      if (Math.abs(aim.offsetMetres! - offsetMetres) > 5 || isBlocked(planning, aim.from, aim.to)) continue;
      ways.push([aim, handrailLeg(aim.to, line.feature, along, spot.id)]);
    }
  }
  return ways;
}

/** From an attack point straight to the target, and by the endgame that is surest by its estimate. */
function endingsFrom(planning: Planning, spot: Feature, at: Point): (readonly Leg[])[] {
  const { target } = planning.errand;
  const straight = isBlocked(planning, at, target.at)
    ? []
    : [[openLeg(planning, at, target.at, target.feature)]];
  let surest: readonly Leg[] | null = null;
  let most = 0;
  for (const { legs } of endgamesFrom(planning, { id: spot.id, at, feature: spot })) {
    const { share } = throughPiece(planning, legs, true, knownTo(KNOWN));
    if (legs.length < 2 || share <= most) continue;
    most = share;
    surest = legs;
  }
  return surest === null ? straight : [...straight, surest];
}

/** The lines on to which one aims off before and after an attack point: where they are what the change is about. */
function byLines(planning: Planning, to: readonly Leg[], end: readonly Leg[]) {
  const aimed = (legs: readonly Leg[]) => {
    const line = planning.handrails.get(legs.length > 1 ? (legs[0]!.line ?? '') : '');
    const side = legs[0]?.side;
    return line && side && { line: line.feature, side };
  };
  const before = aimed(to);
  const after = aimed(end);
  return { ...(before ? { before } : {}), ...(after ? { after } : {}) };
}

function catchingFeatures(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique === 'handrail' || leg.technique === 'aim-off' || leg.toFeature === undefined) return;
    const found = catchingLine(planning, leg);
    if (!found || found.line === leg.catching?.line) return;
    if (leg.catching && leg.catching.beyondMetres <= found.beyondMetres) return;
    const line = planning.handrails.get(found.line)!.feature;
    made.push({
      kind: 'catching feature',
      said: { is: 'catching', line, metres: found.beyondMetres, leg: i + 1 },
      legs: replaced(planning, legs, i, i, [{ ...leg, catching: found }]),
    });
  });
  return made;
}

function tickOffs(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.ticks.length > 0) return;
    const ticks = tickOffsOn(planning, leg);
    if (ticks.length === 0) return;
    const features = ticks.map((t) => planning.ground.byId.get(t.feature)!);
    made.push({
      kind: 'tick-off',
      said: { is: 'ticks', features, leg: i + 1 },
      legs: replaced(planning, legs, i, i, [{ ...leg, ticks }]),
    });
  });
  return made;
}

/** Stays on the line until abreast of the target, or goes on to it from a nearer place. */
function shorterLastLeg(legs: readonly Leg[], planning: Planning): Made[] {
  const { target } = planning.errand;
  const last = legs[legs.length - 1]!;
  const before = legs[legs.length - 2];
  const line = planning.handrails.get(before?.line ?? '');
  if (!before || !line || before.technique !== 'handrail' || last.technique === 'handrail') return [];
  const near = nearestOnLine(target.at, line.points);
  const whole = distance(last.from, last.to);
  if (near.away > whole - 30 || isBlocked(planning, near.at, target.at)) return [];
  const follow = handrailLeg(before.from, line.feature, near.along);
  const across = near.away < 1 ? [] : [openLeg(planning, near.at, target.at, target.feature)];
  return [
    {
      kind: 'shorter last leg',
      said: { is: 'stay', line: line.feature, metres: near.away },
      legs: replaced(planning, legs, legs.length - 2, legs.length - 1, [follow, ...across]),
    },
  ];
}

/** The same ends by another technique: round the slope, by the clock, another endgame from the same place. */
function otherTechniques(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique !== 'bearing' && leg.technique !== 'timing') return;
    const feature = leg.toFeature === undefined ? undefined : featureById(planning, leg.toFeature);
    const contour = roundTheSlope(planning, leg.from, leg.to, feature);
    if (contour) {
      made.push({
        kind: 'other technique',
        said: { is: 'slope', leg: i + 1 },
        legs: replaced(planning, legs, i, i, [contour]),
      });
    }
    const other = leg.technique === 'bearing' ? 'timing' : 'bearing';
    made.push({
      kind: 'other technique',
      said: { is: other === 'timing' ? 'clock' : 'count', leg: i + 1 },
      legs: replaced(planning, legs, i, i, [straightLeg(other, leg.from, leg.to, feature)]),
    });
  });
  return [...made, ...straightInstead(legs, planning), ...otherEndgames(legs, planning)];
}

/** A line that bends away is left for a bearing, where that is a good deal shorter and open. */
function straightInstead(legs: readonly Leg[], planning: Planning): Made[] {
  return legs.flatMap((leg, i) => {
    if (leg.technique !== 'handrail' || leg.toFeature === undefined || legs[i + 1]?.line === leg.line)
      return [];
    const feature = featureById(planning, leg.toFeature);
    if (feature === undefined || isBlocked(planning, leg.from, leg.to) || distance(leg.from, leg.to) < 40)
      return [];
    const line = planning.handrails.get(leg.line!)!.feature;
    const straight = openLeg(planning, leg.from, leg.to, feature);
    return [
      {
        kind: 'other technique' as const,
        said: { is: 'straight' as const, to: feature, line, leg: i + 1 },
        legs: replaced(planning, legs, i, i, [straight]),
      },
    ];
  });
}

function otherEndgames(legs: readonly Leg[], planning: Planning): Made[] {
  const k = launchLeg(legs);
  const { start } = planning.errand;
  const feature: Feature | null =
    k < 0 ? start.feature : (featureById(planning, legs[k]!.toFeature!) ?? null);
  const launch: Launch = { id: 'launch', at: k < 0 ? start.at : legs[k]!.to, feature };
  const now = techniquesOf(legs.slice(k + 1));
  return endgamesFrom(planning, launch)
    .filter((endgame) => techniquesOf(endgame.legs) !== now)
    .map((endgame) => ({
      kind: 'other technique' as const,
      said: {
        is: 'endgame' as const,
        from: feature,
        phrase: routePhrase(endgame.legs, planning.ground, planning.errand),
        ...stopped(planning, legs.at(-1)!, endgame.legs.at(-1)!),
      },
      legs: replaced(planning, legs, k + 1, legs.length - 1, endgame.legs),
    }));
}

/** Where a backstop is what differs. */
function stopped(planning: Planning, now: Leg, then: Leg) {
  const line = (leg: Leg) => planning.ground.byId.get(leg.catching?.line ?? '');
  if (now.catching && !then.catching) return { stops: 'without' as const, without: line(now) };
  return then.catching ? { stops: 'behind' as const, behind: line(then) } : { stops: null };
}

function techniquesOf(legs: readonly Leg[]): string {
  return legs.map((l) => `${l.technique} ${l.line ?? ''} ${l.catching?.line ?? ''}`).join(',');
}
