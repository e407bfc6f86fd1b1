import { atan2 } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { Belief } from './belief.ts';
import { acceptance, newCrossing, type Verdict, whichLine } from './identify.ts';
import { CHOICE } from './keys.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { segmentAt } from './segment-at.ts';
import { UNSET } from './unset.ts';
import type { Navigator, World } from './world.ts';

/** What the mind can ask of the body. */
export const GO_BEARING = 1;
export const GO_TIMED = 2;
export const GO_LINE = 3;
export const GO_CONTOUR = 4;
/** Step on to a line of `orderFamily` if one is at hand, walking towards `heading`. */
export const JOIN = 6;
/** A bend is drawn and noticed this near to where it is, metres. Common practice, no source. */
const NEAR_BEND = 20;
/** Change to the other line at a fork (a wrong turn is taken for the right one). */
export const TURN_WRONG = 7;
/** Turn round on the line underfoot. */
export const TURN_ROUND = 8;
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
  heading = UNSET;
  unitX = UNSET;
  unitY = UNSET;
  /** Length of a step, and how many of it may be walked on end when nothing comes in view. */
  orderMetres = UNSET;
  orderSteps = 1;
  orderFamily = 0;
  /** What is stepped on to is to be another line than the one underfoot. */
  leavesLine = false;
  fresh = false;
  /** The bearing in hand is to be taken with something known in view: it is not set the wrong way round. */
  sighted = false;
  /** Counted metres: on this bearing or line, of this leg, and the number to stop at. */
  counted = UNSET;
  legCounted = UNSET;
  toGo = UNSET;
  /** Phase of the technique. */
  phase = 0;
  bend = 0;
  nextTick = 0;
  /** Metres along the mapped line that the party thinks it follows, and the way along it. */
  lineAlong = UNSET;
  lineSense = 1;
  private lineSegment = 0;
  /** SD across at the time the line was met: what a reversal reckons with. */
  sideSd = UNSET;
  cameByAimOff = false;
  /** Of the aim-off that led here: the offset, the place aimed at along the line, and whether it was none at all. */
  aimOffset = UNSET;
  aimAlong = UNSET;
  aimedAtNothing = false;
  /** How far past the place wanted the end of this leg lies, metres. */
  beyondWanted = UNSET;
  lineStart = UNSET;
  /** Written by `placeOn`. */
  placeX = UNSET;
  placeY = UNSET;
  reversed = false;
  asked = false;
  compareAt = UNSET;
  clashes = 0;
  /** The last fork passed on this leg (its key, 0 none), and where it was: counted metres of the leg and of the line, metres along. */
  forkKey = 0;
  forkLegCounted = UNSET;
  forkCounted = UNSET;
  forkAlong = UNSET;
  /** A fork at which the party turned wrong and to which it came back: it knows it now. */
  forkKnown = 0;
  /** The bend that the count was set right by last: metres along, metres walked past it by then, and how many of them the doubt allowed. */
  private bendAlong = UNSET;
  private bendPast = UNSET;
  private bendWithin = UNSET;
  /** Has cast about for a line that should be here since it was last underfoot. */
  hasCast = false;
  castX = UNSET;
  castY = UNSET;
  castEast = UNSET;
  castNorth = UNSET;
  /** Members of a row counted so far. */
  members = 0;
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
    this.forkKey = 0;
    this.forkKnown = 0;
    this.bendAlong = -1;
    this.hasCast = false;
    this.members = 0;
    startStream(this.choices, this.seed, this.trial, CHOICE, legKey);
  }

  /** Orders whole steps towards `left` counted metres, no more of them than `within` metres hold; a rest is one short step. */
  goFor(left: number, within = left): void {
    const step = this.world.stepMetres;
    if (left < step) {
      this.orderMetres = left;
      this.orderSteps = 1;
      return;
    }
    this.orderMetres = step;
    const steps = Math.floor((within < left ? within : left) / step);
    this.orderSteps = steps < 1 ? 1 : steps;
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
    this.sighted = false;
  }

  /** Turns to a direction, a unit vector, without changing the count. */
  turnTo(east: number, north: number): void {
    this.unitX = east;
    this.unitY = north;
    this.heading = atan2(east, north);
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
    const k = this.mapSegment(l.along, at);
    const past = at - l.along[k]!;
    this.belief.moveOnLine(l.x[k]! + l.unitX[k]! * past, l.y[k]! + l.unitY[k]! * past, counted, spread);
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
    this.belief.fixOnLine(this.placeX, this.placeY, l.unitX[k]!, l.unitY[k]!, l.sd);
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
    const sd = this.doubtAlong();
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

  /** SD of the believed place along the leg's line where the party thinks it is, metres. */
  doubtAlong(): number {
    const l = this.world.lines[this.leg.line]!;
    const k = this.mapSegment(l.along, this.lineAlong);
    return this.belief.sdAlong(l.unitX[k]!, l.unitY[k]!);
  }

  /** Map place at some metres along a line, clamped to its ends; left in `placeX`, `placeY`. */
  placeOn(line: number, along: number): void {
    const l = this.world.lines[line]!;
    const k = segmentAt(l.along, along);
    const end = l.along[k + 1]!;
    const past = (along < l.along[k]! ? l.along[k]! : along > end ? end : along) - l.along[k]!;
    this.placeX = l.x[k]! + l.unitX[k]! * past;
    this.placeY = l.y[k]! + l.unitY[k]! * past;
  }

  /** Turns to the map direction of the leg's line where the party thinks it is, as it walks it. */
  faceAlong(): void {
    const l = this.world.lines[this.leg.line]!;
    const k = this.mapSegment(l.along, this.lineAlong);
    this.unitX = l.unitX[k]! * this.lineSense;
    this.unitY = l.unitY[k]! * this.lineSense;
    this.heading = atan2(this.unitX, this.unitY);
  }

  /**
   * True when the mapped line runs within `cosine` of the way the line underfoot is walked, at the counted place or within 2 SD of it:
   * a bend may come sooner or later than the count says. Where it is another place that fits, the count is set right by it.
   */
  agrees(east: number, north: number, cosine: number): boolean {
    const l = this.world.lines[this.leg.line]!;
    const { lineSense, lineAlong } = this;
    const here = this.mapSegment(l.along, lineAlong);
    if ((l.unitX[here]! * east + l.unitY[here]! * north) * lineSense >= cosine) return true;
    // the count came along the one stretch or the other
    const within = 2 * Math.max(this.doubtAlong(), this.belief.sdAlong(east, north)) + NEAR_BEND;
    let best = Number.POSITIVE_INFINITY;
    let at = -1;
    for (let k = 0; k + 1 < l.along.length; k++) {
      const start = l.along[k]!;
      const end = l.along[k + 1]!;
      const nearest = lineAlong < start ? start : lineAlong > end ? end : lineAlong;
      let off = nearest > lineAlong ? nearest - lineAlong : lineAlong - nearest;
      let most = within;
      if (nearest === this.bendAlong) {
        // a bend that still does not come: what was walked past it before counts too, or it would never be missed
        off += this.bendPast;
        most = this.bendWithin;
      }
      if (off >= most || off >= best) continue;
      if ((l.unitX[k]! * east + l.unitY[k]! * north) * lineSense < cosine) continue;
      best = off;
      at = nearest;
    }
    if (at < 0) return false;
    if (!this.cameByAimOff) {
      if (at !== this.bendAlong) this.bendWithin = within;
      this.bendAlong = at;
      this.bendPast = best;
      this.counted += (at - lineAlong) * lineSense;
      this.lineAlong = at;
      this.placeOn(this.leg.line, at);
      this.belief.fix(this.placeX, this.placeY, l.sd + NEAR_BEND);
    }
    return true;
  }

  /** Segment at some metres along, looked for from where it was last time. */
  private mapSegment(along: Float64Array, at: number): number {
    let k = this.lineSegment;
    const last = along.length - 2;
    if (k > last) k = last < 0 ? 0 : last;
    while (k > 0 && along[k]! > at) k--;
    while (k < last && along[k + 1]! <= at) k++;
    this.lineSegment = k;
    return k;
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
      p.metEast,
      p.metNorth,
      p.metPast,
      wanted,
      this.scratch,
      v,
    );
    if (v.line === wanted) return true;
    // an early one may be taken all the same: people make the map fit
    return v.clash < 12 && this.decideBy() < acceptance(this.navigator.lookalike, v.clash);
  }

  /** Which sure line is this? True when one of the leg's lines is taken for it; `verdict` says which. */
  recognisesLine(p: Percepts): boolean {
    const { lines } = this.leg;
    const { unitX, unitY } = this;
    whichLine(
      this.world,
      lines,
      p.metFamily,
      this.belief,
      unitX,
      unitY,
      p.metEast,
      p.metNorth,
      p.metPast,
      -1,
      this.scratch,
      this.verdict,
    );
    return this.verdict.line >= 0;
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
