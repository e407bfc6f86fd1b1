import { nextNormal } from '../math/normal.ts';
import { atan2, cos, ln, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { sees } from '../terrain/line-of-sight.ts';
import type { Body } from './body.ts';
import { MUTE_SEEING, SEEING } from './keys.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { Rivulets } from './rivulets.ts';
import { STREAM, type World } from './world.ts';

/** Height of eyes, metres. */
const EYES = 1.6;
/** A landmark fixes the belief at most this often, metres walked. */
const FIX_EVERY = 200;
/** From here on the lie of the ground decides whether a thing can be seen, metres. */
const ASK_GROUND = 30;
/** A line this near is stepped on to, metres, if it is noticed from there. */
const AT_HAND = 40;
const SEARCH_KEYS = 1 << 16;
/** SD of a bearing taken on a landmark: 3°. */
const FIX_ANGLE = 0.05236;

/**
 * What the party can notice from where its body truly is. Whether a thing is seen is one draw per trial, object and leg,
 * never one per step; a line is met when the walked segment crosses it.
 */
export class Senses {
  readonly world: World;
  private readonly body: Body;
  private readonly rivulets: Rivulets;
  private readonly draws = newStream();
  private seed = 0;
  private trial = 0;
  private legKey = 0;
  private mute = 0;
  private leg: PlannedLeg | null = null;
  /** Spots looked for now: those like the end of the leg, and those like the target. */
  private readonly sought: number[] = [];
  private readonly reach = new Float64Array(64);
  private readonly known = new Uint8Array(64);
  private readonly state = new Uint8Array(64);
  private readonly tickReach = new Float64Array(64);
  private readonly tickDone = new Uint8Array(64);
  /** Walked metres at which a line is worth testing again. */
  private readonly lineTest: Float64Array;
  private nextFix = 0;
  private nearX = 0;
  private nearY = 1;
  /** How many of `sought` are there for the end of the leg. */
  private ownLikes = 0;
  private readonly usedForks: number[] = [];
  /** Index of the true spot behind the last `seen`, for the outcome only. */
  seenSpot = -1;
  /** Line behind the last `metFamily` (−1 an unmapped one), for the body to step on to; and nothing else. */
  metLine = -1;
  nearest = Number.POSITIVE_INFINITY;

  constructor(world: World, body: Body) {
    this.world = world;
    this.body = body;
    this.rivulets = new Rivulets(world);
    this.lineTest = new Float64Array(world.lines.length);
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.rivulets.begin(seed, trial, mute);
    this.nextFix = 0;
    this.nearest = Number.POSITIVE_INFINITY;
    this.usedForks.length = 0;
  }

  /** What is looked for on this leg: one draw per object. */
  beginLeg(leg: PlannedLeg, legKey: number, targetLikes: readonly number[]): void {
    this.leg = leg;
    this.legKey = legKey;
    this.sought.length = 0;
    for (const i of leg.likes) this.seek(i);
    this.ownLikes = this.sought.length;
    if (!leg.toTarget) for (const i of targetLikes) this.seek(i);
    for (let k = 0; k < this.sought.length; k++) this.drawSeeing(k);
    for (let k = 0; k < leg.ticks.length && k < 64; k++) this.drawTick(k);
    for (const i of leg.lines) this.lineTest[i] = this.body.walked;
    if ((leg.families & (1 << STREAM)) !== 0) this.rivulets.listen();
    else this.rivulets.ignore();
  }

  /** A search looks for one thing and its likes, with fresh eyes; people abreast widen the swath. */
  beginSearch(leg: PlannedLeg, legKey: number, likes: readonly number[], abreast: number): void {
    this.leg = leg;
    this.legKey = legKey + SEARCH_KEYS;
    this.sought.length = 0;
    for (const i of likes) this.seek(i);
    this.ownLikes = likes[0] === this.world.target ? 0 : this.sought.length;
    for (const i of this.world.onlyTarget) this.seek(i);
    for (let k = 0; k < this.sought.length; k++) {
      this.drawSeeing(k);
      this.reach[k] = this.reach[k]! * abreast;
    }
    this.rivulets.ignore();
  }

  /**
   * The true line of a family at hand that leads best along a heading: at a junction people look for the branch that runs the
   * way they want. −1 for none. For the body's feet only.
   */
  lineAtHand(family: number, heading: number): number {
    const east = sin(heading);
    const north = cos(heading);
    const b = this.body;
    const g = b.ground;
    let best = Number.POSITIVE_INFINITY;
    let line = -1;
    for (const i of this.leg!.lines) {
      const l = this.world.lines[i]!;
      if (l.family !== family) continue;
      g.line(i);
      if (g.lineThere[i] === 0) continue;
      const noticed = b.air === this.world.high ? l.noticedHigh : l.noticedLow;
      const d = this.distanceTo(i);
      if (d > Math.min(noticed, AT_HAND)) continue;
      // a line square to the heading counts as 60 m farther off
      const off = d + 60 * (1 - Math.abs(this.nearX * east + this.nearY * north));
      if (off < best) {
        best = off;
        line = i;
      }
    }
    return line;
  }

  /** Metres to a true line; leaves the direction of its nearest segment in nearX, nearY. */
  private distanceTo(i: number): number {
    const b = this.body;
    const l = this.world.lines[i]!;
    const px = b.x - b.ground.lineEast[i]!;
    const py = b.y - b.ground.lineNorth[i]!;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k + 1 < l.x.length; k++) {
      const dx = l.x[k + 1]! - l.x[k]!;
      const dy = l.y[k + 1]! - l.y[k]!;
      const sq = dx * dx + dy * dy;
      let t = sq > 0 ? ((px - l.x[k]!) * dx + (py - l.y[k]!) * dy) / sq : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const ex = l.x[k]! + dx * t - px;
      const ey = l.y[k]! + dy * t - py;
      const d = ex * ex + ey * ey;
      if (d >= least) continue;
      least = d;
      const run = Math.sqrt(sq);
      this.nearX = run > 0 ? dx / run : 0;
      this.nearY = run > 0 ? dy / run : 0;
    }
    return Math.sqrt(least);
  }

  private seek(spot: number): void {
    if (this.sought.length < 64 && !this.sought.includes(spot)) this.sought.push(spot);
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
  }

  private drawTick(k: number): void {
    const tick = this.leg!.ticks[k]!;
    this.tickDone[k] = 0;
    if (tick.spot < 0) return;
    const spot = this.world.spots[tick.spot]!;
    const s = this.draws;
    startStream(s, this.seed, this.trial, SEEING, spot.key ^ 0x71c);
    const noticed = (this.mute & MUTE_SEEING) !== 0 || nextUniform(s) < this.world.navigator.noticed;
    this.tickReach[k] = noticed ? 1 : 0;
  }

  /** Fills `p` with what the step from (fromX, fromY) to (x, y) let the party notice. */
  look(p: Percepts): void {
    const b = this.body;
    const w = this.world;
    p.clock = b.clock;
    p.bearingSpread = b.feltBearing;
    p.paceSpread = b.feltPace;
    p.wanderSpread = b.feltWander;
    p.blind = b.air.visibility < 50;
    p.underfoot = b.onLine < 0 ? 0 : w.lines[b.onLine]!.family;
    p.lineEnded = b.lineEnded;
    p.lineLost = b.lineLost;
    p.metFamily = 0;
    p.seen = false;
    p.tick = -1;
    p.fix = false;
    p.fork = 0;
    this.metLine = -1;
    if (b.onLine >= 0) this.lookAlongLine(p);
    this.lookForSpots(p);
    this.lookForLines(p);
    if (b.walked >= this.nextFix) this.lookFar(p);
  }

  private lookForSpots(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const high = b.air === w.high;
    const rough = w.roughDetection[w.cover[b.cell]!]!;
    for (let k = 0; k < this.sought.length; k++) {
      const i = this.sought[k]!;
      const spot = w.spots[i]!;
      g.spot(i);
      if (g.spotThere[i] === 0) continue;
      const d = distanceToStep(b, g.spotX[i]!, g.spotY[i]!);
      if (i === w.target && d < this.nearest) this.nearest = d;
      if (this.state[k] === 2) continue;
      const half =
        (high ? spot.halfHigh : spot.halfLow) *
        (spot.feature.doubt.sweepWidthMetres === undefined ? rough : 1);
      const r = half * this.reach[k]!;
      if (d > r) {
        // out of view again: it can be come upon anew
        if (this.state[k] === 1 && d > 2 * r) this.state[k] = 0;
        continue;
      }
      if (this.state[k] === 1 || p.seen) continue;
      if (d > ASK_GROUND && !this.inSight(g.spotX[i]!, g.spotY[i]!)) continue;
      this.state[k] = 1;
      // a thing that is the one wanted but is not known for it stays unrecognised for the day
      const wanted = i === w.target || i === this.leg!.toSpot;
      if (wanted && this.known[k] === 0) {
        this.state[k] = 2;
        continue;
      }
      p.seen = true;
      p.seenEast = g.spotX[i]! - b.x;
      p.seenNorth = g.spotY[i]! - b.y;
      p.seenSure = wanted;
      p.seenAsTarget = i === w.target || k >= this.ownLikes || this.leg!.toTarget;
      p.seenKey = spot.key | 0;
      this.seenSpot = i;
    }
    const ticks = this.leg!.ticks;
    for (let k = 0; k < ticks.length && k < 64; k++) {
      const i = ticks[k]!.spot;
      if (i < 0 || this.tickDone[k] === 1 || this.tickReach[k] === 0) continue;
      const spot = w.spots[i]!;
      g.spot(i);
      if (g.spotThere[i] === 0) continue;
      const d = distanceToStep(b, g.spotX[i]!, g.spotY[i]!);
      if (d > (high ? spot.halfHigh : spot.halfLow)) continue;
      if (d > ASK_GROUND && !this.inSight(g.spotX[i]!, g.spotY[i]!)) continue;
      this.tickDone[k] = 1;
      p.tick = k;
      p.tickEast = g.spotX[i]! - b.x;
      p.tickNorth = g.spotY[i]! - b.y;
      return;
    }
  }

  private lookForLines(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    for (const i of this.leg!.lines) {
      if (i === b.onLine || b.walked < this.lineTest[i]!) continue;
      g.line(i);
      if (g.lineThere[i] === 0) {
        this.lineTest[i] = Number.POSITIVE_INFINITY;
        continue;
      }
      const hit = this.crosses(i, p);
      if (hit && p.metFamily === 0) {
        this.metLine = i;
        p.metFamily = this.world.lines[i]!.family;
      }
    }
    if (p.metFamily === 0 && this.rivulets.crossed(b.fromX, b.fromY, b.x, b.y)) {
      p.metFamily = STREAM;
      p.metDirection = this.rivulets.direction;
      this.metLine = -1;
    }
  }

  /** Tests the step against a true line; when it is far, says from what walked distance it is worth testing again. */
  private crosses(i: number, p: Percepts): boolean {
    const b = this.body;
    const g = b.ground;
    const l = this.world.lines[i]!;
    const ox = g.lineEast[i]!;
    const oy = g.lineNorth[i]!;
    const ax = b.fromX - ox;
    const ay = b.fromY - oy;
    const bx = b.x - ox;
    const by = b.y - oy;
    const sx = bx - ax;
    const sy = by - ay;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k + 1 < l.x.length; k++) {
      const cx = l.x[k]!;
      const cy = l.y[k]!;
      const dx = l.x[k + 1]! - cx;
      const dy = l.y[k + 1]! - cy;
      const across = sx * dy - sy * dx;
      const ex = cx - ax;
      const ey = cy - ay;
      if (across !== 0) {
        const t = (ex * dy - ey * dx) / across;
        const u = (ex * sy - ey * sx) / across;
        if (t >= 0 && t <= 1 && u >= 0 && u <= 1) {
          const along = l.along[k]! + u * (l.along[k + 1]! - l.along[k]!);
          if (along >= g.lineStart[i]! && along <= g.lineEnd[i]!) {
            p.metDirection = this.readDirection(atan2(dx, dy), l.key);
            this.lineTest[i] = b.walked + 1;
            return true;
          }
        }
      }
      const sq = dx * dx + dy * dy;
      let t = sq > 0 ? ((bx - cx) * dx + (by - cy) * dy) / sq : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const fx = cx + dx * t - bx;
      const fy = cy + dy * t - by;
      const d = fx * fx + fy * fy;
      if (d < least) least = d;
    }
    // sideways wander makes a step a little longer than its count: keep a fifth in hand
    this.lineTest[i] = b.walked + 0.8 * Math.sqrt(least) - this.world.stepMetres;
    return false;
  }

  /** A direction judged by eye over a short stretch: an SD of 8°. Common practice, no source. */
  private readDirection(direction: number, key: number): number {
    if ((this.mute & MUTE_SEEING) !== 0) return direction;
    startStream(this.draws, this.seed, this.trial, SEEING, (key ^ 0xd1ec) + this.legKey);
    return direction + 0.14 * nextNormal(this.draws);
  }

  /** Direction of the line underfoot and the forks on it. */
  private lookAlongLine(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    p.underfootDirection = b.lineDirection();
    for (const i of this.world.lines[b.onLine]!.forks) {
      const spot = this.world.spots[i]!;
      if (this.usedForks.includes(i)) continue;
      g.spot(i);
      if (g.spotThere[i] === 0) continue;
      if (distanceToStep(b, g.spotX[i]!, g.spotY[i]!) > 12) continue;
      this.usedForks.push(i);
      p.fork = spot.key;
      // downstream every branch leads to the same stream
      p.forkFactor = this.world.lines[b.onLine]!.downSense === b.lineSense ? 0 : b.air.junction;
      this.seenFork = i;
      return;
    }
  }

  seenFork = -1;

  /** Landmarks recognised from afar fix the belief: never by a threshold of visibility, only by range and line of sight. */
  private lookFar(p: Percepts): void {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const high = b.air === w.high;
    let bestSd = Number.POSITIVE_INFINITY;
    for (const i of w.landmarks) {
      const spot = w.spots[i]!;
      const half = high ? spot.halfHigh : spot.halfLow;
      const guess = Math.max(Math.abs(spot.x - b.x), Math.abs(spot.y - b.y)) - 6 * spot.sd;
      if (guess > half) continue;
      g.spot(i);
      if (g.spotThere[i] === 0) continue;
      const east = g.spotX[i]! - b.x;
      const north = g.spotY[i]! - b.y;
      const d = Math.sqrt(east * east + north * north);
      if (d > half) continue;
      const sd = Math.max(10, FIX_ANGLE * d);
      if (sd >= bestSd) continue;
      startStream(this.draws, this.seed, this.trial, SEEING, spot.key);
      if ((this.mute & MUTE_SEEING) === 0 && nextUniform(this.draws) >= spot.recognised) continue;
      if (!this.inSight(g.spotX[i]!, g.spotY[i]!)) continue;
      bestSd = sd;
      startStream(
        this.draws,
        this.seed,
        this.trial,
        SEEING,
        (spot.key ^ 0xf1f) + Math.floor(b.walked / FIX_EVERY),
      );
      const still = (this.mute & MUTE_SEEING) !== 0;
      p.fix = true;
      p.fixSd = sd;
      // the map place of the landmark, less what the party judges to lie between
      p.fixEast = spot.x - east + (still ? 0 : sd * nextNormal(this.draws));
      p.fixNorth = spot.y - north + (still ? 0 : sd * nextNormal(this.draws));
    }
    // nothing in view: look again soon, not at every step
    this.nextFix = b.walked + (p.fix ? FIX_EVERY : 40);
  }

  private inSight(x: number, y: number): boolean {
    const b = this.body;
    return sees(this.world.elevationRaster, b.x, b.y, EYES, x, y, 1);
  }
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
