import { nextNormal } from '../math/normal.ts';
import { cos, ln, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { type Body, LOOK_EVERY, landmarksFrom, type Watch } from './body.ts';
import { Extras } from './extras.ts';
import { MUTE_SEEING, SEEING } from './keys.ts';
import { Landmarks } from './landmarks.ts';
import { distanceToStep, inView } from './last-step.ts';
import { LineSense } from './line-sense.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { Ticks } from './ticks.ts';
import { UNSET } from './unset.ts';
import { type Spot, WAY, type World } from './world.ts';

/** A fork is come upon from this near, metres. */
const AT_FORK = 12;
const SEARCH_KEYS = 1 << 16;
/** A known place in the open is known again from this near, a thing from no less than that, metres. Common practice, no source. */
const OPEN_PLACE = 25;
const LEAST_KNOWN = 15;
const MOST_SOUGHT = 64;
/** Whether a spot has been looked for on this leg and seen, and, for the day, seen and not recognised. */
const UNSEEN = 0;
const IN_VIEW = 1;
const PASSED_BY = 2;
const UNDRAWN = 3;
/** No draw makes a spot show itself from farther than so many halves of its sweep width: 1.128·√(−ln 2⁻³³). */
const MOST_REACH = 5.4;
/** Nor does one put it farther from its mapped place than so many SD. */
const MOST_SD = 6.5;
/** A way that is made and graded is not mistaken for a trod: loss per km of a track. */
const PLAIN_WAY = 0.05;

/**
 * What the party can notice from where its body truly is. Whether a thing is seen is one draw per trial, object and leg,
 * never one per step; a line is met when the walked segment crosses it. What is far is not asked for again until the body
 * has moved so far that it could be near.
 */
export class Senses {
  readonly world: World;
  readonly lines: LineSense;
  private readonly body: Body;
  private readonly extras: Extras;
  private readonly landmarks: Landmarks;
  private readonly ticks: Ticks;
  private readonly draws = newStream();
  private seed = 0;
  private trial = 0;
  private legKey = 0;
  private mute = 0;
  private leg!: PlannedLeg;
  /** Spots looked for now: those like the end of the leg, and those like the target. */
  private readonly sought = new Int32Array(MOST_SOUGHT);
  private soughtCount = 0;
  private readonly reach = new Float64Array(MOST_SOUGHT);
  private readonly state = new Uint8Array(MOST_SOUGHT);
  /** `body.moved` from which a spot is worth asking for again. */
  private readonly askAt = new Float64Array(MOST_SOUGHT);
  private readonly targetNear: number;
  private looksFar = true;
  private meetsLines = true;
  private abreast = UNSET;
  /** `body.moved` from which an unmapped line is worth asking for again, and the line underfoot when that was found. */
  private extrasAt = UNSET;
  private wasOn = -1;
  /** How many of `sought` are there for the end of the leg. */
  private ownLikes = 0;
  private readonly usedForks: number[] = [];
  private forksAt = UNSET;
  private readonly seenCairns: number[] = [];
  private knownSpot = -1;
  private knownX = UNSET;
  private knownY = UNSET;
  private knownReach = UNSET;
  private knownAt = UNSET;
  readonly watch: Watch = { quietUntil: UNSET, nextFix: UNSET, landmarksLow: UNSET, landmarksHigh: UNSET };
  /** Index of the true spot behind the last `seen` (−1 none on the map) and its place, for the outcome and the feet only. */
  seenSpot = -1;
  seenX = UNSET;
  seenY = UNSET;
  /** Line behind the last `metFamily`, for the body to step on to; and nothing else. */
  metLine = -1;
  /** Spot behind the last `fork`, −1 an unmapped way. */
  seenFork = -1;
  /** Nearest that the party came to the target: true where less than what a near miss asks for, else no less than that. */
  nearest = UNSET;

  constructor(world: World, body: Body) {
    this.world = world;
    this.body = body;
    this.lines = new LineSense(world, body);
    this.extras = new Extras(world);
    this.landmarks = new Landmarks(world, body, this.watch);
    this.ticks = new Ticks(world, body);
    const target = world.spots[world.target]!;
    this.targetNear = nearMissMetres(target.halfLow);
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.extras.begin(seed, trial, mute);
    this.landmarks.begin(seed, trial, mute);
    this.ticks.begin(seed, trial, mute);
    this.nearest = Number.POSITIVE_INFINITY;
    this.usedForks.length = 0;
    this.forksAt = 0;
    this.seenCairns.length = 0;
    this.knownSpot = -1;
    this.knownReach = 0;
    this.knownAt = 0;
    this.wasOn = -1;
    this.extrasAt = 0;
    this.watch.quietUntil = 0;
  }

  /** What is looked for on this leg: one draw per object. */
  beginLeg(leg: PlannedLeg, legKey: number, targetLikes: readonly number[]): void {
    this.leg = leg;
    this.legKey = legKey;
    this.watch.quietUntil = 0;
    this.soughtCount = 0;
    if (leg.counts === 0) for (const i of leg.likes) this.seek(i);
    this.ownLikes = this.soughtCount;
    if (!leg.toTarget) for (const i of targetLikes) this.seek(i);
    this.withEyesFresh(1);
    this.ticks.beginLeg(leg);
    this.lines.listen(leg.lines);
    this.extras.listen(leg.families);
    this.meetsLines = true;
    this.extrasAt = 0;
    this.forksAt = 0;
  }

  /** A search looks for one thing and its likes, with fresh eyes; people abreast widen the swath. */
  beginSearch(leg: PlannedLeg, legKey: number, likes: readonly number[], abreast: number): void {
    this.leg = leg;
    this.ticks.goOn(leg);
    this.legKey = legKey + SEARCH_KEYS;
    this.watch.quietUntil = 0;
    this.soughtCount = 0;
    for (const i of likes) this.seek(i);
    this.ownLikes = likes[0] === this.world.target ? 0 : this.soughtCount;
    for (const i of this.world.onlyTarget) this.seek(i);
    this.withEyesFresh(abreast);
    this.meetsLines = false;
  }

  /** From now on the party looks out for a point that it has stood at: `spot`, or a place in the open (−1). */
  lookForKnown(spot: number, x: number, y: number): void {
    this.knownSpot = spot;
    this.knownX = x;
    this.knownY = y;
    this.knownReach = OPEN_PLACE;
    this.watch.quietUntil = 0;
  }

  lookForNothingKnown(): void {
    this.knownReach = 0;
  }

  /** Landmarks far off are worth a look on a leg, not within a search. */
  lookFarOut(yes: boolean): void {
    this.looksFar = yes;
    this.watch.landmarksLow = yes ? 0 : Number.POSITIVE_INFINITY;
    this.watch.landmarksHigh = this.watch.landmarksLow;
  }

  /** Having turned round on a line, the party comes upon its forks again. */
  forgetForks(): void {
    this.watch.quietUntil = 0;
    this.usedForks.length = 0;
    this.forksAt = 0;
  }

  private seek(spot: number): void {
    if (this.soughtCount === MOST_SOUGHT) return;
    for (let k = 0; k < this.soughtCount; k++) if (this.sought[k] === spot) return;
    this.sought[this.soughtCount++] = spot;
  }

  /** What is sought now has not been looked for yet. */
  private withEyesFresh(abreast: number): void {
    this.abreast = abreast;
    for (let k = 0; k < this.soughtCount; k++) {
      this.state[k] = UNDRAWN;
      this.askAt[k] = 0;
    }
  }

  /** The range at which spot k shows itself this time: one draw per object and leg. */
  private drawReach(k: number, key: number): void {
    this.state[k] = UNSEEN;
    this.reach[k] = this.abreast;
    if (!this.world.lateralLaw || (this.mute & MUTE_SEEING) !== 0) return;
    const s = this.draws;
    startStream(s, this.seed, this.trial, SEEING, (key ^ Math.imul(this.legKey + 1, 0x9e3779b1)) >>> 0);
    // lateral law: R = b·√(−ln U), b = W/√π, as a multiple of W/2
    this.reach[k] = this.abreast * (1.1283791671 * Math.sqrt(-ln(nextUniform(s))));
  }

  /** A thing in view is known for what it is: one draw per object and day. */
  private recognises(spot: Spot): boolean {
    if ((this.mute & MUTE_SEEING) !== 0) return true;
    startStream(this.draws, this.seed, this.trial, SEEING, spot.key);
    return nextUniform(this.draws) < spot.recognised;
  }

  /**
   * Fills `p` and returns true when nothing came in view in the last step. What could come in view is looked for only where it is
   * no farther than the body has moved since it was looked for last; a look for the rest would find nothing.
   */
  quiet(p: Percepts): boolean {
    const b = this.body;
    const u = b.underfoot;
    const { watch } = this;
    if (b.moved >= watch.quietUntil || (u.line >= 0 && (u.ended || u.lost))) {
      return !this.look(p);
    }
    this.nothing(p);
    if (b.walked < watch.nextFix) return true;
    // who follows a line goes by the line
    if (u.line < 0 && b.moved >= landmarksFrom(watch, b.air === b.world.high)) this.landmarks.look(p);
    else watch.nextFix = b.walked + LOOK_EVERY;
    return !p.fix;
  }

  /** What was known of how long nothing comes in view holds no longer. */
  wake(): void {
    this.watch.quietUntil = 0;
  }

  /** The percepts of steps in which nothing came in view. */
  private nothing(p: Percepts): void {
    const u = this.body.underfoot;
    this.clear(p);
    if (u.line < 0) return;
    const l = u.on;
    p.underfoot = l.family;
    p.underfootEast = l.unitX[u.segment]! * u.sense;
    p.underfootNorth = l.unitY[u.segment]! * u.sense;
  }

  private clear(p: Percepts): void {
    const u = this.body.underfoot;
    this.feel(p);
    p.clock = this.body.clock;
    p.underfoot = 0;
    p.lineEnded = u.line >= 0 && u.ended;
    p.lineLost = u.line >= 0 && u.lost;
    p.metFamily = 0;
    p.seen = false;
    p.tick = -1;
    p.members = 0;
    p.fix = false;
    p.fork = 0;
    p.known = false;
    this.metLine = -1;
  }

  /** How hard it is here to hold a bearing and to count: felt at every step. */
  feel(p: Percepts): void {
    const b = this.body;
    p.bearingSpread = b.meanBearing;
    p.paceSpread = b.meanPace;
    p.wanderSpread = b.meanWander;
    p.blind = b.air.visibility < 50;
  }

  /** Fills `p` with what the step from (fromX, fromY) to (x, y) let the party notice; false when that is nothing. */
  look(p: Percepts): boolean {
    const b = this.body;
    const u = b.underfoot;
    this.clear(p);
    if (u.line !== this.wasOn) {
      // the line left behind can be met again, and others count
      this.wasOn = u.line;
      this.lines.nextAt = 0;
      this.extrasAt = 0;
    }
    let next = Number.POSITIVE_INFINITY;
    if (u.line >= 0) {
      this.lookAlongLine(p);
      next = Math.min(next, this.forksAt, this.extrasAt);
    } else if (this.meetsLines) next = this.lookForLines(p);
    for (let k = 0; k < this.soughtCount; k++) {
      if (b.moved >= this.askAt[k]!) this.lookForSpot(k, p);
      if (this.askAt[k]! < next) next = this.askAt[k]!;
    }
    if (this.leg.likesCairn) next = Math.min(next, this.lookForCairns(p));
    if (this.leg.ticks.length > 0) next = Math.min(next, this.ticks.look(p));
    if (this.leg.row.length > 0) next = Math.min(next, this.ticks.countMembers(p));
    if (this.knownReach > 0) {
      p.known = this.atKnown();
      next = Math.min(next, this.knownAt);
    }
    if (this.looksFar && u.line < 0 && b.walked >= this.watch.nextFix) this.landmarks.look(p);
    this.watch.quietUntil = next;
    const metOrSeen = p.seen || p.metFamily !== 0 || p.fork !== 0 || p.tick >= 0 || p.members > 0;
    return metOrSeen || p.fix || p.known || p.lineEnded || p.lineLost;
  }

  private lookForSpot(k: number, p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const i = this.sought[k]!;
    const spot = w.spots[i]!;
    const half = spot.halfHigh > spot.halfLow ? spot.halfHigh : spot.halfLow;
    if (this.state[k] === UNDRAWN) {
      if (spot.line < 0) {
        // far off nothing need be drawn, neither where it truly lies nor from where it shows
        const farthest = MOST_REACH * this.abreast * half + MOST_SD * spot.sd;
        const most = i === w.target && this.targetNear > farthest ? this.targetNear : farthest;
        const off = distanceToStep(b, spot.x, spot.y) - most;
        if (off > 0) {
          this.askAt[k] = b.moved + off;
          return;
        }
      }
      this.drawReach(k, spot.key);
    }
    g.spot(i);
    if (g.spotThere[i] === 0) {
      this.askAt[k] = Number.POSITIVE_INFINITY;
      return;
    }
    const x = g.spotX[i]!;
    const y = g.spotY[i]!;
    const d = distanceToStep(b, x, y);
    const most = half * this.reach[k]!;
    // a thing passed by unrecognised is not asked for again, one in view until it is well out of it
    let near = this.state[k] === PASSED_BY ? 0 : this.state[k] === IN_VIEW ? 2 * most : most;
    if (i === w.target) {
      if (d < this.nearest) this.nearest = d;
      const untilNearer = this.nearest < this.targetNear ? this.nearest : this.targetNear;
      if (untilNearer > near) near = untilNearer;
    } else if (this.state[k] === PASSED_BY) {
      this.askAt[k] = Number.POSITIVE_INFINITY;
      return;
    }
    this.askAt[k] = b.moved + (d - near) - 1e-6;
    if (this.state[k] === PASSED_BY) return;
    const rough = spot.hiddenByGround ? w.roughDetection[b.surface]! : 1;
    const r = (b.air === w.high ? spot.halfHigh : spot.halfLow) * rough * this.reach[k]!;
    if (d > r) {
      // out of view again: it can be come upon anew
      if (this.state[k] === IN_VIEW && d > 2 * r) {
        this.state[k] = UNSEEN;
        this.askAt[k] = b.moved + (d - most) - 1e-6;
      }
      return;
    }
    if (this.state[k] === IN_VIEW || p.seen) return;
    if (!inView(b, x, y, d)) return;
    this.state[k] = IN_VIEW;
    this.askAt[k] = b.moved;
    // a thing that is the one wanted but is not known for it stays unrecognised for the day
    const wanted = i === w.target || i === this.leg.toSpot;
    if (wanted && !this.recognises(spot)) {
      this.state[k] = PASSED_BY;
      return;
    }
    this.tell(p, i, x, y, spot.key | 0, wanted);
    p.seenAsTarget = i === w.target || k >= this.ownLikes || this.leg.toTarget;
  }

  /** A cairn that no map shows, where one could be taken for what is looked for; returns when to ask again. */
  private lookForCairns(p: Percepts): number {
    const b = this.body;
    const e = this.extras;
    e.cairnsAbout(b.x, b.y);
    const r = b.air === this.world.high ? this.world.cairnHalfHigh : this.world.cairnHalfLow;
    for (let k = 0; k < e.cairns && !p.seen; k++) {
      const key = e.cairnKey[k]!;
      if (this.seenCairns.includes(key)) continue;
      const d = distanceToStep(b, e.cairnX[k]!, e.cairnY[k]!);
      if (d > r || !inView(b, e.cairnX[k]!, e.cairnY[k]!, d)) continue;
      this.seenCairns.push(key);
      this.tell(p, -1, e.cairnX[k]!, e.cairnY[k]!, key, false);
      p.seenAsTarget = this.leg.toTarget;
    }
    const most = Math.max(this.world.cairnHalfHigh, this.world.cairnHalfLow);
    return b.moved + e.cairnFree(b.x, b.y, most) - 1e-6;
  }

  private tell(p: Percepts, spot: number, x: number, y: number, key: number, sure: boolean): void {
    p.seen = true;
    p.seenEast = x - this.body.x;
    p.seenNorth = y - this.body.y;
    p.seenSure = sure;
    p.seenKey = key;
    this.seenSpot = spot;
    this.seenX = x;
    this.seenY = y;
  }

  /** Lines crossed off any line: on one, what crosses it is a fork. Returns when to ask again. */
  private lookForLines(p: Percepts): number {
    const b = this.body;
    const e = this.extras;
    const { leg, lines } = this;
    const met = b.moved >= lines.nextAt ? lines.crossed(leg.lines, -1) : -1;
    if (met >= 0) {
      this.metLine = met;
      p.metFamily = this.world.lines[met]!.family;
      p.metPast = p.stepCounted * lines.beyond;
      this.readDirection(p, lines.east, lines.north, this.world.lines[met]!.key);
    } else if (b.moved >= this.extrasAt) {
      const crossed = e.crossed(b.fromX, b.fromY, b.x, b.y, leg.families);
      this.extrasAt = b.moved + e.free - 1e-6;
      if (crossed) {
        p.metFamily = e.hitFamily;
        p.metPast = p.stepCounted * e.beyond;
        this.readDirection(p, e.hitEast, e.hitNorth, e.hitKey);
        this.metLine = e.held(b.ground, -1);
      }
    }
    return Math.min(lines.nextAt, this.extrasAt);
  }

  /** A direction judged by eye over a short stretch: an SD of 8°. Common practice, no source. */
  private readDirection(p: Percepts, east: number, north: number, key: number): void {
    const d = Math.sqrt(east * east + north * north) || 1;
    p.metEast = east / d;
    p.metNorth = north / d;
    if ((this.mute & MUTE_SEEING) !== 0) return;
    startStream(this.draws, this.seed, this.trial, SEEING, (key ^ 0xd1ec) + this.legKey);
    const turn = 0.14 * nextNormal(this.draws);
    const s = sin(turn);
    const c = cos(turn);
    const { metEast } = p;
    p.metEast = metEast * c + p.metNorth * s;
    p.metNorth = p.metNorth * c - metEast * s;
  }

  /** Direction of the line underfoot and the forks on it. */
  private lookAlongLine(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const u = b.underfoot;
    const l = u.on;
    p.underfoot = l.family;
    p.underfootEast = l.unitX[u.segment]! * u.sense;
    p.underfootNorth = l.unitY[u.segment]! * u.sense;
    if (b.moved >= this.forksAt) {
      let least = Number.POSITIVE_INFINITY;
      for (const i of l.forks) {
        const { key } = this.world.spots[i]!;
        if (this.usedForks.includes(key)) continue;
        g.spot(i);
        if (g.spotThere[i] === 0) continue;
        const d = distanceToStep(b, g.spotX[i]!, g.spotY[i]!);
        if (d <= AT_FORK) {
          this.usedForks.push(key);
          p.fork = key;
          // downstream every branch leads to the same stream
          p.forkFactor = l.downSense === u.sense ? 0 : b.air.junction;
          this.seenFork = i;
          return;
        }
        if (d < least) least = d;
      }
      this.forksAt = b.moved + (least - AT_FORK) - 1e-6;
    }
    if (l.family !== WAY || l.lossPerKm < PLAIN_WAY) {
      this.extrasAt = Number.POSITIVE_INFINITY;
      return;
    }
    if (b.moved < this.extrasAt) return;
    // a trod that no map shows parts from a path
    const e = this.extras;
    const parts = e.crossed(b.fromX, b.fromY, b.x, b.y, 1 << WAY);
    this.extrasAt = b.moved + e.free - 1e-6;
    if (!parts) return;
    const key = e.hitKey | 1;
    if (this.usedForks.includes(key)) return;
    this.usedForks.push(key);
    p.fork = key;
    p.forkFactor = b.air.junction;
    this.seenFork = -1;
    this.metLine = e.held(g, u.line);
  }

  /** The point known from before is within the distance at which it is recognised. */
  private atKnown(): boolean {
    const b = this.body;
    const { knownSpot } = this;
    let r = this.knownReach;
    let most = r;
    if (knownSpot >= 0) {
      const spot = this.world.spots[knownSpot]!;
      r = Math.max(LEAST_KNOWN, b.air === this.world.high ? spot.halfHigh : spot.halfLow);
      most = Math.max(LEAST_KNOWN, spot.halfHigh, spot.halfLow);
    }
    const d = distanceToStep(b, this.knownX, this.knownY);
    this.knownAt = b.moved + (d - most) - 1e-6;
    return d <= r;
  }
}

/** A party that came this near to its target without finding it just missed it, metres; `half` is half the sweep width. */
export function nearMissMetres(half: number): number {
  return Math.max(50, 4 * half);
}
