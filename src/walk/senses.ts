import { nextNormal } from '../math/normal.ts';
import { cos, ln, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { sees } from '../terrain/line-of-sight.ts';
import { type Body, LOOK_EVERY, type Watch } from './body.ts';
import { Extras } from './extras.ts';
import { MUTE_SEEING, SEEING } from './keys.ts';
import { LineSense } from './line-sense.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { WAY, type World } from './world.ts';

/** Height of eyes, metres. */
const EYES = 1.6;
/** A landmark fixes the belief at most this often, metres walked. */
const FIX_EVERY = 200;
/** From here on the lie of the ground decides whether a thing can be seen, metres. */
const ASK_GROUND = 30;
/** A fork is come upon from this near, metres. */
const AT_FORK = 12;
const SEARCH_KEYS = 1 << 16;
/** SD of a bearing taken on a landmark: 3°. */
const FIX_ANGLE = 0.05236;
/** A known place in the open is known again from this near, a thing from no less than that, metres. Common practice, no source. */
const OPEN_PLACE = 25;
const LEAST_KNOWN = 15;
const MOST_SOUGHT = 64;
const MOST_TICKS = 64;
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
  private readonly draws = newStream();
  private seed = 0;
  private trial = 0;
  private legKey = 0;
  private mute = 0;
  private leg!: PlannedLeg;
  /** Spots looked for now: those like the end of the leg, and those like the target. */
  private readonly sought: number[] = [];
  private readonly reach = new Float64Array(MOST_SOUGHT);
  private readonly known = new Uint8Array(MOST_SOUGHT);
  private readonly state = new Uint8Array(MOST_SOUGHT);
  /** `body.moved` from which a spot, a tick, a landmark is worth asking for again. */
  private readonly askAt = new Float64Array(MOST_SOUGHT);
  private readonly tickAt = new Float64Array(MOST_TICKS);
  private readonly tickOpen = new Uint8Array(MOST_TICKS);
  private readonly landmarkAt: Float64Array;
  /** Landmarks within range, the nearest first, and how far they are. */
  private readonly inViewSpot: Int32Array;
  private readonly inView: Float64Array;
  private readonly targetNear: number;
  private looksFar = true;
  /** How many of `sought` are there for the end of the leg. */
  private ownLikes = 0;
  private readonly usedForks: number[] = [];
  private forksAt = 0;
  private readonly seenCairns: number[] = [];
  private knownSpot = -1;
  private knownX = 0;
  private knownY = 0;
  private knownReach = 0;
  private knownAt = 0;
  readonly watch: Watch = { quietUntil: 0, nextFix: 0, landmarksFrom: 0 };
  /** Metres to the nearest unmapped line that counts here. */
  private free = Number.POSITIVE_INFINITY;
  /** Index of the true spot behind the last `seen` (−1 none on the map) and its place, for the outcome and the feet only. */
  seenSpot = -1;
  seenX = 0;
  seenY = 0;
  /** Line behind the last `metFamily`, for the body to step on to; and nothing else. */
  metLine = -1;
  /** Spot behind the last `fork`, −1 an unmapped way. */
  seenFork = -1;
  /** Nearest that the party came to the target: true where less than what a near miss asks for, else no less than that. */
  nearest = Number.POSITIVE_INFINITY;

  constructor(world: World, body: Body) {
    this.world = world;
    this.body = body;
    this.lines = new LineSense(world, body);
    this.extras = new Extras(world);
    this.landmarkAt = new Float64Array(world.landmarks.length);
    this.inViewSpot = new Int32Array(world.landmarks.length);
    this.inView = new Float64Array(world.landmarks.length);
    const target = world.spots[world.target]!;
    this.targetNear = nearMissMetres(target.halfLow);
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.extras.begin(seed, trial, mute);
    this.watch.nextFix = 0;
    this.landmarkAt.fill(0);
    this.watch.landmarksFrom = 0;
    this.nearest = Number.POSITIVE_INFINITY;
    this.usedForks.length = 0;
    this.forksAt = 0;
    this.seenCairns.length = 0;
    this.knownSpot = -1;
    this.knownReach = 0;
  }

  /** What is looked for on this leg: one draw per object. */
  beginLeg(leg: PlannedLeg, legKey: number, targetLikes: readonly number[]): void {
    this.leg = leg;
    this.legKey = legKey;
    this.watch.quietUntil = 0;
    this.sought.length = 0;
    if (leg.counts === 0) for (const i of leg.likes) this.seek(i);
    this.ownLikes = this.sought.length;
    if (!leg.toTarget) for (const i of targetLikes) this.seek(i);
    for (let k = 0; k < this.sought.length; k++) this.drawSeeing(k);
    for (let k = 0; k < leg.ticks.length && k < MOST_TICKS; k++) this.drawTick(k, leg.ticks[k]!.spot);
    for (let k = 0; k < leg.row.length && k < MOST_TICKS; k++) this.drawTick(k, leg.row[k]!);
    this.lines.listen(leg.lines);
    this.extras.listen(leg.families);
    this.forksAt = 0;
  }

  /** A search looks for one thing and its likes, with fresh eyes; people abreast widen the swath. */
  beginSearch(leg: PlannedLeg, legKey: number, likes: readonly number[], abreast: number): void {
    this.leg = leg;
    this.legKey = legKey + SEARCH_KEYS;
    this.watch.quietUntil = 0;
    this.sought.length = 0;
    for (const i of likes) this.seek(i);
    this.ownLikes = likes[0] === this.world.target ? 0 : this.sought.length;
    for (const i of this.world.onlyTarget) this.seek(i);
    for (let k = 0; k < this.sought.length; k++) {
      this.drawSeeing(k);
      this.reach[k] = this.reach[k]! * abreast;
    }
    this.extras.listen(0);
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
    if (yes) this.watch.landmarksFrom = 0;
    else this.watch.landmarksFrom = Number.POSITIVE_INFINITY;
  }

  /** Having turned round on a line, the party comes upon its forks again. */
  forgetForks(): void {
    this.watch.quietUntil = 0;
    this.usedForks.length = 0;
    this.forksAt = 0;
  }

  private seek(spot: number): void {
    if (this.sought.length < MOST_SOUGHT && !this.sought.includes(spot)) this.sought.push(spot);
  }

  private drawSeeing(k: number): void {
    const i = this.sought[k]!;
    const spot = this.world.spots[i]!;
    const s = this.draws;
    startStream(s, this.seed, this.trial, SEEING, (spot.key ^ Math.imul(this.legKey + 1, 0x9e3779b1)) >>> 0);
    const u = nextUniform(s);
    // lateral law: R = b·√(−ln U), b = W/√π, as a multiple of W/2
    this.reach[k] =
      this.world.lateralLaw && (this.mute & MUTE_SEEING) === 0 ? 1.1283791671 * Math.sqrt(-ln(u)) : 1;
    startStream(s, this.seed, this.trial, SEEING, spot.key);
    this.known[k] = (this.mute & MUTE_SEEING) !== 0 || nextUniform(s) < spot.recognised ? 1 : 0;
    this.state[k] = 0;
    this.askAt[k] = 0;
  }

  private drawTick(k: number, spot: number): void {
    this.tickAt[k] = 0;
    this.tickOpen[k] = 0;
    if (spot < 0) return;
    const s = this.draws;
    startStream(s, this.seed, this.trial, SEEING, this.world.spots[spot]!.key ^ 0x71c);
    const noticed = (this.mute & MUTE_SEEING) !== 0 || nextUniform(s) < this.world.navigator.noticed;
    this.tickOpen[k] = noticed ? 1 : 0;
  }

  /**
   * True when nothing can have come in view in the last step: all that could is farther than the body has moved since it was
   * looked for. A look would find nothing, and may be left out.
   */
  quiet(): boolean {
    const b = this.body;
    const u = b.underfoot;
    const { watch } = this;
    if (b.moved >= watch.quietUntil || (u.line >= 0 && (u.ended || u.lost))) return false;
    if (b.walked < watch.nextFix) return true;
    if (b.moved >= watch.landmarksFrom) return false;
    // no landmark can be in view: as if looked about
    watch.nextFix = b.walked + LOOK_EVERY;
    return true;
  }

  /** What was known of how long nothing comes in view holds no longer. */
  wake(): void {
    this.watch.quietUntil = 0;
  }

  /** The percepts of steps in which nothing came in view. */
  nothing(p: Percepts): void {
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

  /** Fills `p` with what the step from (fromX, fromY) to (x, y) let the party notice. */
  look(p: Percepts): void {
    const b = this.body;
    const u = b.underfoot;
    this.clear(p);
    this.free = Number.POSITIVE_INFINITY;
    let next = Number.POSITIVE_INFINITY;
    if (u.line >= 0) {
      this.lookAlongLine(p);
      next = Math.min(next, this.forksAt);
    }
    for (let k = 0; k < this.sought.length; k++) {
      if (b.moved >= this.askAt[k]!) this.lookForSpot(k, p);
      if (this.askAt[k]! < next) next = this.askAt[k]!;
    }
    if (this.leg.likesCairn) next = Math.min(next, this.lookForCairns(p));
    if (this.leg.ticks.length > 0) next = Math.min(next, this.lookForTicks(p));
    if (this.leg.row.length > 0) next = Math.min(next, this.countMembers(p));
    this.lookForLines(p);
    next = Math.min(next, this.lines.nextAt, b.moved + this.free - 1e-6);
    if (this.knownReach > 0) {
      p.known = this.atKnown();
      next = Math.min(next, this.knownAt);
    }
    if (this.looksFar && b.walked >= this.watch.nextFix) this.lookFar(p);
    this.watch.quietUntil = next;
  }

  private lookForSpot(k: number, p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const i = this.sought[k]!;
    const spot = w.spots[i]!;
    g.spot(i);
    if (g.spotThere[i] === 0) {
      this.askAt[k] = Number.POSITIVE_INFINITY;
      return;
    }
    const x = g.spotX[i]!;
    const y = g.spotY[i]!;
    const d = distanceToStep(b, x, y);
    if (i === w.target && d < this.nearest) this.nearest = d;
    const most = 2 * (spot.halfHigh > spot.halfLow ? spot.halfHigh : spot.halfLow) * this.reach[k]!;
    const near = i === w.target && this.targetNear > most ? this.targetNear : most;
    this.askAt[k] = b.moved + (d - near) - 1e-6;
    if (this.state[k] === 2) return;
    const rough = spot.feature.doubt.sweepWidthMetres === undefined ? w.roughDetection[b.surface]! : 1;
    const r = (b.air === w.high ? spot.halfHigh : spot.halfLow) * rough * this.reach[k]!;
    if (d > r) {
      // out of view again: it can be come upon anew
      if (this.state[k] === 1 && d > 2 * r) this.state[k] = 0;
      return;
    }
    if (this.state[k] === 1 || p.seen) return;
    if (d > ASK_GROUND && !this.inSight(x, y)) return;
    this.state[k] = 1;
    // a thing that is the one wanted but is not known for it stays unrecognised for the day
    const wanted = i === w.target || i === this.leg.toSpot;
    if (wanted && this.known[k] === 0) {
      this.state[k] = 2;
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
      if (d > r || (d > ASK_GROUND && !this.inSight(e.cairnX[k]!, e.cairnY[k]!))) continue;
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

  /** Expected features in view; returns when to ask again. */
  private lookForTicks(p: Percepts): number {
    const b = this.body;
    const g = b.ground;
    const { ticks } = this.leg;
    let next = Number.POSITIVE_INFINITY;
    for (let k = 0; k < ticks.length && k < MOST_TICKS; k++) {
      const i = ticks[k]!.spot;
      if (this.tickOpen[k] === 0) continue;
      if (b.moved >= this.tickAt[k]! && p.tick < 0 && this.passes(k, i)) {
        this.tickOpen[k] = 0;
        p.tick = k;
        p.tickEast = g.spotX[i]! - b.x;
        p.tickNorth = g.spotY[i]! - b.y;
      } else if (this.tickAt[k]! < next) next = this.tickAt[k]!;
    }
    return next;
  }

  /** Members of a row are counted as they are passed, those that no map shows among them. Returns when to ask again. */
  private countMembers(p: Percepts): number {
    const { row } = this.leg;
    let next = Number.POSITIVE_INFINITY;
    for (let k = 0; k < row.length && k < MOST_TICKS; k++) {
      if (this.tickOpen[k] === 0) continue;
      if (this.body.moved >= this.tickAt[k]! && this.passes(k, row[k]!)) {
        this.tickOpen[k] = 0;
        p.members++;
      } else if (this.tickAt[k]! < next) next = this.tickAt[k]!;
    }
    return next;
  }

  /** True when the last step came within view of a spot that is there. */
  private passes(k: number, i: number): boolean {
    const b = this.body;
    const g = b.ground;
    const spot = this.world.spots[i]!;
    g.spot(i);
    if (g.spotThere[i] === 0) {
      this.tickOpen[k] = 0;
      return false;
    }
    const d = distanceToStep(b, g.spotX[i]!, g.spotY[i]!);
    const most = spot.halfHigh > spot.halfLow ? spot.halfHigh : spot.halfLow;
    this.tickAt[k] = b.moved + (d - most) - 1e-6;
    if (d > (b.air === this.world.high ? spot.halfHigh : spot.halfLow)) return false;
    // a member is counted when it is passed, not when it comes in view
    if (this.leg.row.length > 0 && !passed(b, g.spotX[i]!, g.spotY[i]!)) return false;
    return d <= ASK_GROUND || this.inSight(g.spotX[i]!, g.spotY[i]!);
  }

  private lookForLines(p: Percepts): void {
    const b = this.body;
    const e = this.extras;
    const { leg } = this;
    const met = this.lines.crossed(leg.lines, b.underfoot.line);
    if (met >= 0) {
      this.metLine = met;
      p.metFamily = this.world.lines[met]!.family;
      p.metPast = p.stepCounted * this.lines.beyond;
      this.readDirection(p, this.lines.east, this.lines.north, this.world.lines[met]!.key);
      return;
    }
    // on a line what crosses it is a fork, told elsewhere
    if (b.underfoot.line >= 0) return;
    const crossed = e.crossed(b.fromX, b.fromY, b.x, b.y, leg.families);
    this.free = e.free;
    if (!crossed) return;
    p.metFamily = e.hitFamily;
    p.metPast = p.stepCounted * e.beyond;
    this.readDirection(p, e.hitEast, e.hitNorth, e.hitKey);
    this.metLine = e.held(b.ground, b.underfoot.line);
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
    if (l.family !== WAY || l.lossPerKm < PLAIN_WAY) return;
    // a trod that no map shows parts from a path
    const e = this.extras;
    const parts = e.crossed(b.fromX, b.fromY, b.x, b.y, 1 << WAY);
    this.free = e.free;
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

  /** Landmarks recognised from afar fix the belief: never by a threshold of visibility, only by range and line of sight. */
  private lookFar(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const high = b.air === w.high;
    let from = Number.POSITIVE_INFINITY;
    let count = 0;
    for (let k = 0; k < w.landmarks.length; k++) {
      if (b.moved < this.landmarkAt[k]!) {
        if (this.landmarkAt[k]! < from) from = this.landmarkAt[k]!;
        continue;
      }
      const i = w.landmarks[k]!;
      const spot = w.spots[i]!;
      const off = Math.max(Math.abs(spot.x - b.x), Math.abs(spot.y - b.y)) - 6 * spot.sd;
      const most = spot.halfHigh > spot.halfLow ? spot.halfHigh : spot.halfLow;
      this.landmarkAt[k] = b.moved + (off - most) - 1e-6;
      if (this.landmarkAt[k]! < from) from = this.landmarkAt[k]!;
      const half = high ? spot.halfHigh : spot.halfLow;
      if (off > half) continue;
      g.spot(i);
      if (g.spotThere[i] === 0) continue;
      const east = g.spotX[i]! - b.x;
      const north = g.spotY[i]! - b.y;
      const d = Math.sqrt(east * east + north * north);
      if (d > half) continue;
      // the nearest first: it fixes best, and once it is seen no other need be looked for
      let at = count++;
      for (; at > 0 && this.inView[at - 1]! > d; at--) {
        this.inView[at] = this.inView[at - 1]!;
        this.inViewSpot[at] = this.inViewSpot[at - 1]!;
      }
      this.inView[at] = d;
      this.inViewSpot[at] = i;
    }
    for (let k = 0; k < count && !p.fix; k++) this.fixBy(p, this.inViewSpot[k]!, this.inView[k]!);
    this.watch.landmarksFrom = from;
    // nothing in view: look again soon, not at every step
    this.watch.nextFix = b.walked + (p.fix ? FIX_EVERY : LOOK_EVERY);
  }

  /** A landmark `d` metres away: recognised and in sight it tells where the party must be. */
  private fixBy(p: Percepts, i: number, d: number): void {
    const b = this.body;
    const g = b.ground;
    const spot = this.world.spots[i]!;
    const still = (this.mute & MUTE_SEEING) !== 0;
    startStream(this.draws, this.seed, this.trial, SEEING, spot.key);
    if (!still && nextUniform(this.draws) >= spot.recognised) return;
    if (!this.inSight(g.spotX[i]!, g.spotY[i]!)) return;
    const sd = Math.max(10, FIX_ANGLE * d);
    const id = (spot.key ^ 0xf1f) + Math.floor(b.walked / FIX_EVERY);
    startStream(this.draws, this.seed, this.trial, SEEING, id);
    p.fix = true;
    p.fixSd = sd;
    // the map place of the landmark, less what the party judges to lie between
    p.fixEast = spot.x - (g.spotX[i]! - b.x) + (still ? 0 : sd * nextNormal(this.draws));
    p.fixNorth = spot.y - (g.spotY[i]! - b.y) + (still ? 0 : sd * nextNormal(this.draws));
  }

  private inSight(x: number, y: number): boolean {
    const b = this.body;
    return sees(this.world.elevation, b.x, b.y, EYES, x, y, 1);
  }
}

/** A party that came this near to its target without finding it just missed it, metres; `half` is half the sweep width. */
export function nearMissMetres(half: number): number {
  return Math.max(50, 4 * half);
}

/** True when the step left a place behind: it lies no farther on than the end of the step. */
function passed(b: Body, x: number, y: number): boolean {
  const dx = b.x - b.fromX;
  const dy = b.y - b.fromY;
  return (x - b.x) * dx + (y - b.y) * dy <= 0;
}

/** Metres from a place to the segment that the last step walked. */
function distanceToStep(b: Body, x: number, y: number): number {
  const dx = b.x - b.fromX;
  const dy = b.y - b.fromY;
  const sq = dx * dx + dy * dy;
  let t = sq > 0 ? ((x - b.fromX) * dx + (y - b.fromY) * dy) / sq : 0;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  const ex = b.fromX + dx * t - x;
  const ey = b.fromY + dy * t - y;
  return Math.sqrt(ex * ex + ey * ey);
}
