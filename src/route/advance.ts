import { lineFamily } from '../features/line-kinds.ts';
import { passesWithin, rightSide } from '../math/bivariate.ts';
import { normalCdf } from '../math/normal-cdf.ts';
import { distance, length, lineLength, nearestOnLine, type Point } from '../math/plane.ts';
import { exp, pow, tan } from '../math/portable.ts';
import { airAt } from './air.ts';
import {
  knownTo,
  meanIn,
  mixed,
  onLine,
  type PlaceDoubt,
  rightOf,
  sdIn,
  spreadOf,
  unit,
  walked,
} from './doubt-of-place.ts';
import { routeFigures } from './figures.ts';
import { handrailLossPerKm } from './handrail-loss.ts';
import { scatterOf } from './lateral.ts';
import type { Leg } from './leg.ts';
import { heightAt } from './map-line.ts';
import {
  type Fix,
  featureById,
  fixAt,
  knownShare,
  linesNear,
  type Planning,
  seenWithin,
} from './planning.ts';

/** Share of the losses from which a party recovers by a look round, a relaunch or the next sure line. Common practice, no source. */
const RECOVERED = 0.5;
/** tan 20°: the slope for which height lost in contouring is given. */
const TAN_20 = tan(Math.PI / 9);

/** What is left of the parties, and how well they know where they are. */
export interface Progress {
  doubt: PlaceDoubt;
  /** Share of parties still on the plan. */
  share: number;
  /** SD along the line that was met by aiming off, NaN when the party came otherwise; and the offset from what is wanted. */
  side: number;
  offset: number;
  extraMinutes: number;
}

/** At a known place. */
export function progressFrom(doubt: PlaceDoubt): Progress {
  return { doubt, share: 1, side: Number.NaN, offset: 0, extraMinutes: 0 };
}

/** Takes the progress over one leg, its end not yet judged. */
export function advance(leg: Leg, state: Progress, planning: Planning): void {
  if (leg.technique === 'handrail') alongLine(leg, state, planning);
  else if (leg.technique === 'aim-off') ontoLine(leg, state, planning);
  else overOpenGround(leg, state, planning);
}

/** A bearing, sight, timing, contour or box leg: errors of the walk, and of taking the bearing. */
function overOpenGround(leg: Leg, state: Progress, planning: Planning): void {
  const { set } = planning.errand.party;
  state.side = Number.NaN;
  if (leg.technique === 'sight' && leg.toFeature !== undefined) return;
  if (leg.technique === 'contour') {
    const hundreds = lineLength(leg.path) / 100;
    const u = unit(leg.path[leg.path.length - 2]!, leg.to);
    const height = set.contourMetres.sd * Math.sqrt(hundreds) * (planning.errand.party.altimeter ? 0.5 : 1);
    const along = scatterOf(planning.ground, planning.errand, leg.from, leg.to).along;
    state.doubt = walked(state.doubt, u, along, height / TAN_20, downhillShift(leg, u, hundreds, planning));
    return;
  }
  state.share *= bearingTaken(planning);
  for (let i = 1; i < leg.path.length; i++) {
    state.doubt = afterBearing(leg, leg.path[i - 1]!, leg.path[i]!, state.doubt, planning);
  }
}

/** A straight walk from a to b. A landmark in view on the way fixes the place; only what comes after the last fix counts. */
function afterBearing(leg: Leg, a: Point, b: Point, doubt: PlaceDoubt, planning: Planning): PlaceDoubt {
  const fix = lastFix(a, b, planning);
  const without = overLength(leg, a, b, doubt, planning);
  if (!fix) return without;
  const fixed = overLength(leg, fix.at, b, knownTo(fix.sd), planning);
  // A fix poorer than what is known already changes nothing.
  return spreadOf(fixed) < spreadOf(without) ? mixed(fixed, without, fix.share) : without;
}

function overLength(leg: Leg, a: Point, b: Point, doubt: PlaceDoubt, planning: Planning): PlaceDoubt {
  const { lateral, along, drift } = scatterOf(planning.ground, planning.errand, a, b);
  const timed = leg.technique === 'timing' ? distance(a, b) * planning.errand.party.set.timingShare : along;
  return walked(doubt, unit(a, b), alongAfterTick(leg, timed), lateral, drift);
}

/** Nearer to the end than this nobody takes a new bearing, metres; and how often one looks. */
const TOO_NEAR = 30;
const LOOK_EVERY = 80;

function lastFix(a: Point, b: Point, planning: Planning): (Fix & { at: Point }) | null {
  if (planning.landmarkReach.size === 0) return null;
  const d = distance(a, b);
  for (let left = TOO_NEAR; left < d; left += LOOK_EVERY) {
    const at: Point = [b[0] + ((a[0] - b[0]) * left) / d, b[1] + ((a[1] - b[1]) * left) / d];
    const fix = fixAt(planning, at);
    if (fix) return { ...fix, at };
  }
  return null;
}

/** A tick-off sets the count right: only what comes after the last one counts. */
function alongAfterTick(leg: Leg, along: number): number {
  const last = leg.ticks[leg.ticks.length - 1];
  if (!last || leg.path.length > 2) return along;
  const whole = lineLength(leg.path);
  return along * Math.max(0.25, (whole - last.atMetres) / whole);
}

/** Mean loss of height as metres to the right of the walk, where the ground falls to the right. */
function downhillShift(leg: Leg, u: Point, hundreds: number, planning: Planning): number {
  const { mean } = planning.errand.party.set.contourMetres;
  const r = rightOf(u);
  const ahead: Point = [leg.to[0] + 20 * r[0], leg.to[1] + 20 * r[1]];
  const fallsRight = heightAt(planning.ground, ahead) < heightAt(planning.ground, leg.to);
  return ((-mean * hundreds) / TAN_20) * (fallsRight ? 1 : -1);
}

/** Chance that a bearing is taken and followed the right way round, and held at all. */
function bearingTaken(planning: Planning): number {
  const { set, compass } = planning.errand.party;
  return (1 - set.reverseShare) * (1 - 0.5 * set.slipShare) * (compass ? 1 : 0.4);
}

function alongLine(leg: Leg, state: Progress, planning: Planning): void {
  const handrail = planning.handrails.get(leg.line ?? '');
  if (!handrail) return;
  const { set } = planning.errand.party;
  const { feature } = handrail;
  const metres = lineLength(leg.path);
  const air = airAt(planning.errand.conditions, heightAt(planning.ground, leg.from));
  const rate = handrailLossPerKm(feature.kind) * set.handrailLossPerKm * air.handrail;
  state.share *= 1 - (1 - exp((-rate * metres) / 1000)) * RECOVERED;
  // Where the line is not there the party goes on across country by its run on the map.
  state.share *= 1 - (1 - feature.doubt.exists) * RECOVERED;
  const wrong = set.junctionShare * air.junction * RECOVERED;
  if (lineFamily(feature.kind) === 'way') state.share *= pow(1 - wrong, forksOn(leg, planning));
  const u = unit(leg.path[leg.path.length - 2]!, leg.to);
  const paced = metres * set.paceShare;
  if (Number.isNaN(state.side)) {
    state.doubt = onLine(length(sdIn(state.doubt, u), paced), u, feature.doubt.positionMetres);
  } else {
    state.doubt = onLine(length(state.side, paced), u, feature.doubt.positionMetres);
  }
}

/** Branches passed on the way, its ends left out. */
function forksOn(leg: Leg, planning: Planning): number {
  const { fromAlong = 0, toAlong = 0, line } = leg;
  const low = Math.min(fromAlong, toAlong) + 20;
  const high = Math.max(fromAlong, toAlong) - 20;
  return planning.forks.get(line ?? '')?.filter((along) => along > low && along < high).length ?? 0;
}

function ontoLine(leg: Leg, state: Progress, planning: Planning): void {
  const handrail = planning.handrails.get(leg.line ?? '');
  if (!handrail) return;
  const { points, metres, feature } = handrail;
  state.share *= bearingTaken(planning);
  const u = unit(leg.from, leg.to);
  const after = afterBearing(leg, leg.from, leg.to, state.doubt, planning);
  const met = nearestOnLine(leg.to, points).along;
  const wanted = nearestOnLine(leg.wanted ?? leg.to, points).along;
  const a = points.length > 1 ? unitOn(points, met) : ([0, 1] as const);
  const sine = Math.max(0.3, Math.abs(a[0] * u[1] - a[1] * u[0]));
  const r = rightOf(u);
  const sd = sdIn(after, r) / sine;
  // Drift along the line, in the sense of its vertices.
  const shift = (meanIn(after, r) / sine) * Math.sign(a[0] * r[0] + a[1] * r[1] || 1);
  const hits = normalCdf(metres - met, shift, sd) - normalCdf(-met, shift, sd);
  state.share *= hits * (1 - (1 - feature.doubt.exists) * 0.7);
  state.share *= 1 - wrongLine(leg, sdIn(after, u), planning) * 0.7;
  state.side = Math.max(sd, 1);
  state.offset = Math.abs(wanted - met) + shift * Math.sign(met - wanted || 1);
  state.doubt = onLine(state.side, a, feature.doubt.positionMetres);
}

function unitOn(points: readonly Point[], along: number): Point {
  let walkedMetres = 0;
  for (let i = 1; i < points.length; i++) {
    const d = distance(points[i - 1]!, points[i]!);
    if (walkedMetres + d >= along && d > 0) return unit(points[i - 1]!, points[i]!);
    walkedMetres += d;
  }
  return unit(points[points.length - 2]!, points[points.length - 1]!);
}

/** Chance to take a line of the same family met before the wanted one for it. */
function wrongLine(leg: Leg, sdAlong: number, planning: Planning): number {
  const family = lineFamily(planning.handrails.get(leg.line ?? '')!.feature.kind);
  const whole = distance(leg.from, leg.to);
  const middle: Point = [(leg.from[0] + leg.to[0]) / 2, (leg.from[1] + leg.to[1]) / 2];
  let most = 0;
  for (const other of linesNear(planning, middle, whole / 2)) {
    if (other.feature.id === leg.line || lineFamily(other.feature.kind) !== family) continue;
    if (other.feature.kind === 'track' && planning.handrails.get(leg.line!)!.feature.kind !== 'track')
      continue;
    const near = nearestOnLine(middle, other.points);
    if (near.away > whole / 2) continue;
    const met = nearestAhead(leg, other.points);
    if (met === null || met > whole - 10) continue;
    const z = (whole - met) / Math.max(5, sdAlong);
    most = Math.max(most, pow(planning.errand.party.set.lookalikeShare, (z / 2) * (z / 2)));
  }
  return Math.min(0.9, most);
}

function nearestAhead(leg: Leg, points: readonly Point[]): number | null {
  const whole = distance(leg.from, leg.to);
  const u = unit(leg.from, leg.to);
  let least: number | null = null;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const sa = (a[0] - leg.from[0]) * u[1] - (a[1] - leg.from[1]) * u[0];
    const sb = (b[0] - leg.from[0]) * u[1] - (b[1] - leg.from[1]) * u[0];
    if (sa * sb > 0 || sa === sb) continue;
    const t = sa / (sa - sb);
    const at =
      (a[0] + (b[0] - a[0]) * t - leg.from[0]) * u[0] + (a[1] + (b[1] - a[1]) * t - leg.from[1]) * u[1];
    if (at > 10 && at < whole && (least === null || at < least)) least = at;
  }
  return least;
}

/** A feature that ends a leg: found, what is known begins anew there; not found, some find back. */
export function atEnd(leg: Leg, next: Leg | undefined, state: Progress, planning: Planning): void {
  const feature = leg.toFeature === undefined ? undefined : featureById(planning, leg.toFeature);
  if (feature?.geometry.type !== 'point') {
    wrongSide(leg, state);
    return;
  }
  const comes = comesBy(
    leg,
    feature.geometry.at,
    seenWithin(planning, feature),
    feature.doubt.positionMetres,
    state,
  );
  const onItsLine = leg.technique === 'handrail' && next?.technique === 'handrail';
  // A junction is known by the lines that part there, whatever stands at it.
  const known = onItsLine ? Math.max(0.97, knownShare(planning, feature)) : knownShare(planning, feature);
  const found = comes * known;
  state.share *= found + (1 - found) * RECOVERED * found;
  state.extraMinutes += (1 - found) * 4;
  reversal(leg, state, planning);
  state.doubt = knownTo(feature.doubt.positionMetres);
  state.side = Number.NaN;
}

/** Share of parties that come within sight of a place when they end a leg meant for it. */
export function comesBy(leg: Leg, at: Point, reach: number, sd: number, state: Progress): number {
  const last = leg.path[leg.path.length - 2] ?? leg.from;
  const u = unit(last, leg.to);
  const r = rightOf(u);
  const away: Point = [leg.to[0] - at[0], leg.to[1] - at[1]];
  const across = length(sdIn(state.doubt, r), sd);
  const lateral = passesWithin(reach, across, meanIn(state.doubt, r) + away[0] * r[0] + away[1] * r[1]);
  if (leg.technique === 'handrail' || leg.technique === 'sight') return lateral;
  const along = length(sdIn(state.doubt, u), sd);
  return leg.catching ? lateral : lateral * (along === 0 ? 1 : normalCdf(reach / along, 0, 1));
}

/** A paced stretch after aiming off begins nowhere: parties on the wrong side of the wanted place go on past it. */
function wrongSide(leg: Leg, state: Progress): void {
  if (leg.technique !== 'handrail' || Number.isNaN(state.side)) return;
  state.share *= rightSide(state.offset, state.side);
}

/** Minutes of those that turned the wrong way and came back. */
export function reversal(leg: Leg, state: Progress, planning: Planning): void {
  if (leg.technique !== 'handrail' || Number.isNaN(state.side)) return;
  const wrong = 1 - rightSide(state.offset, state.side);
  const metres = lineLength(leg.path);
  const pace = metres > 0 ? routeFigures([leg], planning.walking).minutes / metres : 0.02;
  state.extraMinutes += wrong * 2 * (Math.abs(state.offset) + 2 * state.side) * pace;
}
