import { atan2, cos, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { Belief } from './belief.ts';
import { acceptance, newCrossing, type Verdict, whichLine } from './identify.ts';
import { CHOICE } from './keys.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { segmentAt } from './segment-at.ts';
import type { Navigator, World } from './world.ts';

/** What the mind can ask of the body. */
export const GO_BEARING = 1;
export const GO_TIMED = 2;
export const GO_LINE = 3;
export const GO_CONTOUR = 4;
export const GO_STRAIGHT = 5;
/** Step on to a line of `orderFamily` if one is at hand, walking towards `heading`. */
export const JOIN = 6;
/** Change to the other line at a fork (a wrong turn is taken for the right one). */
export const TURN_WRONG = 7;
export const ARRIVED = 10;
export const UNSURE = 11;

/**
 * The party's head: plan, map, belief, and the choices it makes. It is handed percepts and knows nothing else of the
 * ground; two grounds that give the same percepts get the same decisions.
 */
export class Mind {
  readonly world: World;
  readonly navigator: Navigator;
  readonly belief: Belief;
  private readonly choices = newStream();
  private seed = 0;
  private trial = 0;
  leg!: PlannedLeg;
  /** Number that keys the leg's draws; counts up over relaunches. */
  legKey = 0;
  bearingNumber = 0;
  /** The order in hand. */
  heading = 0;
  unitX = 0;
  unitY = 1;
  orderMetres = 0;
  orderFamily = 0;
  fresh = false;
  /** Counted metres: on this bearing or line, of this leg, and the number to stop at. */
  counted = 0;
  legCounted = 0;
  toGo = 0;
  /** Phase of the technique. */
  phase = 0;
  bend = 0;
  nextTick = 0;
  /** Metres along the mapped line that the party thinks it follows, and the way along it. */
  lineAlong = 0;
  lineSense = 1;
  /** SD across at the time the line was met: what a reversal reckons with. */
  sideSd = 0;
  cameByAimOff = false;
  /** Of the aim-off that led here: the offset, the place aimed at along the line, and whether it was none at all. */
  aimOffset = 0;
  aimAlong = 0;
  aimedAtNothing = false;
  /** How far past the place wanted the end of this leg lies, metres. */
  beyondWanted = 0;
  lineStart = 0;
  /** Written by `placeOn`. */
  placeX = 0;
  placeY = 0;
  reversed = false;
  asked = false;
  compareAt = 0;
  clashes = 0;
  /** True when a search, a reversal or a relaunch has taken place. */
  wavered = false;
  /** Things already judged: their keys. */
  private readonly judged = new Int32Array(64);
  private judgedCount = 0;
  /** True when the party has put the thing it was shown down as the one it wants. */
  declared = false;
  declaredSure = false;
  private readonly scratch = newCrossing();
  readonly verdict: Verdict = { line: -1, clash: 0, crossing: newCrossing() };

  constructor(world: World) {
    this.world = world;
    this.navigator = world.navigator;
    this.belief = new Belief(world.navigator);
  }

  begin(seed: number, trial: number): void {
    this.seed = seed;
    this.trial = trial;
    this.judgedCount = 0;
    this.wavered = false;
    this.declared = false;
    this.cameByAimOff = false;
    this.belief.fix(this.world.startX, this.world.startY, 1);
  }

  beginLeg(leg: PlannedLeg, legKey: number): void {
    this.leg = leg;
    this.legKey = legKey;
    this.bearingNumber = 0;
    this.counted = 0;
    this.legCounted = 0;
    this.phase = 0;
    this.bend = 0;
    this.nextTick = 0;
    this.fresh = false;
    this.asked = false;
    this.clashes = 0;
    startStream(this.choices, this.seed, this.trial, CHOICE, legKey);
  }

  /** One uniform for one decision. */
  decideBy(): number {
    return nextUniform(this.choices);
  }

  /** Sets off on a bearing from where the party believes it is to a map place. */
  takeBearing(x: number, y: number): void {
    const dx = x - this.belief.x;
    const dy = y - this.belief.y;
    const d = Math.sqrt(dx * dx + dy * dy);
    this.toGo = d;
    this.counted = 0;
    this.heading = atan2(dx, dy);
    this.unitX = d > 0 ? dx / d : 0;
    this.unitY = d > 0 ? dy / d : 1;
    this.fresh = true;
  }

  /** Turns to a heading without changing the count. */
  face(heading: number): void {
    this.heading = heading;
    this.unitX = sin(heading);
    this.unitY = cos(heading);
  }

  /** Takes the step's count into the belief; techniques decide after this. */
  integrate(p: Percepts, order: number): void {
    this.counted += p.counted;
    this.legCounted += p.counted;
    const n = this.navigator;
    if (order === GO_BEARING || order === GO_TIMED || order === GO_CONTOUR) {
      const wander = (p.blind ? n.wanderBlind : n.wander) * p.wanderSpread;
      this.belief.moveOnBearing(this.unitX, this.unitY, p.counted, p.bearingSpread, p.paceSpread, wander);
    } else if (order === GO_LINE) this.followOnMap(p.counted, p.paceSpread);
  }

  /** Moves the belief along the mapped line that the party thinks it is on. */
  private followOnMap(counted: number, spread: number): void {
    const line = this.leg.line;
    if (line < 0) {
      this.belief.moveOnBearing(this.unitX, this.unitY, counted, 1, spread, 0);
      return;
    }
    const l = this.world.lines[line]!;
    const last = l.along[l.along.length - 1]!;
    let at = this.lineAlong + this.lineSense * counted;
    at = at < 0 ? 0 : at > last ? last : at;
    this.lineAlong = at;
    const k = segmentAt(l.along, at);
    const span = l.along[k + 1]! - l.along[k]!;
    const t = span > 0 ? (at - l.along[k]!) / span : 0;
    const x = l.x[k]! + (l.x[k + 1]! - l.x[k]!) * t;
    const y = l.y[k]! + (l.y[k + 1]! - l.y[k]!) * t;
    this.belief.moveOnLine(x, y, counted, spread);
  }

  /** Puts the party on a mapped line, at the place nearest to where it believes it is. */
  nearestPlace(line: number): void {
    const l = this.world.lines[line]!;
    const px = this.belief.x;
    const py = this.belief.y;
    let best = Number.POSITIVE_INFINITY;
    for (let k = 0; k + 1 < l.x.length; k++) {
      const dx = l.x[k + 1]! - l.x[k]!;
      const dy = l.y[k + 1]! - l.y[k]!;
      const sq = dx * dx + dy * dy;
      let t = sq > 0 ? ((px - l.x[k]!) * dx + (py - l.y[k]!) * dy) / sq : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const ex = l.x[k]! + dx * t - px;
      const ey = l.y[k]! + dy * t - py;
      const d = ex * ex + ey * ey;
      if (d < best) {
        best = d;
        this.lineAlong = l.along[k]! + t * (l.along[k + 1]! - l.along[k]!);
      }
    }
    this.placeOn(line, this.lineAlong);
    const k = segmentAt(l.along, this.lineAlong);
    const dx = l.x[k + 1]! - l.x[k]!;
    const dy = l.y[k + 1]! - l.y[k]!;
    const d = Math.sqrt(dx * dx + dy * dy) || 1;
    this.belief.fixOnLine(this.placeX, this.placeY, dx / d, dy / d, l.sd);
  }

  /** After a fix beside the line: the count goes on from the place of the line that is nearest to it. */
  settleOnLine(): void {
    const before = this.lineAlong;
    this.nearestPlace(this.leg.line);
    this.counted += (this.lineAlong - before) * this.lineSense;
  }

  /** A fork was reached: if the map has one on this line within 2 SD of the count, this is it. */
  settleAtFork(): void {
    const l = this.world.lines[this.leg.line]!;
    const k = segmentAt(l.along, this.lineAlong);
    const dx = l.x[k + 1]! - l.x[k]!;
    const dy = l.y[k + 1]! - l.y[k]!;
    const d = Math.sqrt(dx * dx + dy * dy) || 1;
    const sd = this.belief.sdAlong(dx / d, dy / d);
    let best = 2 * Math.sqrt(sd * sd + 36);
    let chosen = -1;
    for (const i of l.forks) {
      const off = Math.abs(this.alongOf(i) - this.lineAlong);
      if (off < best) {
        best = off;
        chosen = i;
      }
    }
    if (chosen < 0) return;
    const spot = this.world.spots[chosen]!;
    const along = this.alongOf(chosen);
    this.counted += (along - this.lineAlong) * this.lineSense;
    this.lineAlong = along;
    this.belief.fix(spot.x, spot.y, spot.sd);
  }

  /** Metres along the leg's line of a fork on it. */
  private alongOf(spot: number): number {
    const s = this.world.spots[spot]!;
    if (s.line === this.leg.line) return s.lineAlong;
    const keep = this.world.lines[this.leg.line]!;
    let best = Number.POSITIVE_INFINITY;
    let along = 0;
    for (let k = 0; k < keep.x.length; k++) {
      const dx = keep.x[k]! - s.x;
      const dy = keep.y[k]! - s.y;
      const d = dx * dx + dy * dy;
      if (d < best) {
        best = d;
        along = keep.along[k]!;
      }
    }
    return along;
  }

  segmentOn(line: number, along: number): number {
    return segmentAt(this.world.lines[line]!.along, along);
  }

  /** Map place at some metres along a line, clamped to its ends; left in `placeX`, `placeY`. */
  placeOn(line: number, along: number): void {
    const l = this.world.lines[line]!;
    const k = segmentAt(l.along, along);
    const span = l.along[k + 1]! - l.along[k]!;
    let t = span > 0 ? (along - l.along[k]!) / span : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    this.placeX = l.x[k]! + (l.x[k + 1]! - l.x[k]!) * t;
    this.placeY = l.y[k]! + (l.y[k + 1]! - l.y[k]!) * t;
  }

  /** Map direction of the leg's line where the party thinks it is, as it walks it, radians. */
  mapLineHeading(): number {
    const l = this.world.lines[this.leg.line]!;
    const k = segmentAt(l.along, this.lineAlong);
    const dx = (l.x[k + 1]! - l.x[k]!) * this.lineSense;
    const dy = (l.y[k + 1]! - l.y[k]!) * this.lineSense;
    return atan2(dx, dy);
  }

  /** Weighs a met line of the leg's families against the map; true when the party takes it for `wanted`. */
  takesFor(wanted: number, p: Percepts): boolean {
    const v = this.verdict;
    whichLine(
      this.world,
      this.leg.lines,
      p.metFamily,
      this.belief,
      this.unitX,
      this.unitY,
      p.metDirection,
      wanted,
      this.scratch,
      v,
    );
    if (v.line === wanted) return true;
    // an early one may be taken all the same: people make the map fit
    return v.clash < 12 && this.decideBy() < acceptance(this.navigator.lookalike, v.clash);
  }

  /** Decides once about a thing in view that could be what `spot` says on the map. */
  judge(p: Percepts, spot: number): boolean {
    if (p.seenSure) {
      this.declaredSure = true;
      return true;
    }
    for (let i = 0; i < this.judgedCount; i++) if (this.judged[i] === p.seenKey) return false;
    if (this.judgedCount < this.judged.length) this.judged[this.judgedCount++] = p.seenKey;
    const s = this.world.spots[spot]!;
    const z = this.belief.clash(p.seenEast, p.seenNorth, s.x, s.y, s.sd);
    this.declaredSure = false;
    return this.decideBy() < acceptance(this.navigator.lookalike, z);
  }
}
