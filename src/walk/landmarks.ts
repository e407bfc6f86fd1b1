import { nextNormal } from '../math/normal.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { type Body, LOOK_EVERY, type Watch } from './body.ts';
import { MUTE_SEEING, SEEING } from './keys.ts';
import { inSight } from './last-step.ts';
import type { Percepts } from './percepts.ts';
import { UNSET } from './unset.ts';
import type { World } from './world.ts';

/** A landmark fixes the belief at most this often, metres walked. */
const FIX_EVERY = 200;
/** Landmarks are gone through anew after this many metres moved. */
const MARKED_FOR = 200;
/** SD of a bearing taken on a landmark: 3°. */
const FIX_ANGLE = 0.05236;

/** Looks out for what is known from afar, and says when no landmark can be in range. */
export class Landmarks {
  private readonly world: World;
  private readonly body: Body;
  private readonly watch: Watch;
  private readonly draws = newStream();
  private seed = 0;
  private trial = 0;
  private mute = 0;
  /** `body.moved` from which a landmark is worth asking for again, below and above the cloud base. */
  private readonly lowAt: Float64Array;
  private readonly highAt: Float64Array;
  /** Numbers of the landmarks within range, the nearest first, and how far they are. */
  private readonly inViewMark: Int32Array;
  private readonly inView: Float64Array;
  private metres = UNSET;
  /** Landmarks worth asking for until the body has moved to `markedUntil`. */
  private readonly marks: Int32Array;
  private marked = 0;
  private markedUntil = UNSET;

  constructor(world: World, body: Body, watch: Watch) {
    this.world = world;
    this.body = body;
    this.watch = watch;
    const count = world.landmarks.length;
    this.lowAt = new Float64Array(count);
    this.highAt = new Float64Array(count);
    this.marks = new Int32Array(count);
    this.inViewMark = new Int32Array(count);
    this.inView = new Float64Array(count);
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.lowAt.fill(0);
    this.highAt.fill(0);
    this.markedUntil = 0;
    this.watch.nextFix = 0;
    this.watch.landmarksLow = 0;
    this.watch.landmarksHigh = 0;
  }

  /** Landmarks recognised from afar fix the belief: never by a threshold of visibility, only by range and line of sight. */
  look(p: Percepts): void {
    const b = this.body;
    const w = this.world;
    const high = b.air === w.high;
    if (b.moved >= this.markedUntil) this.markNear();
    const at = high ? this.highAt : this.lowAt;
    let low = this.markedUntil;
    let up = this.markedUntil;
    let count = 0;
    for (let j = 0; j < this.marked; j++) {
      const k = this.marks[j]!;
      if (b.moved >= at[k]! && this.inRange(k, high)) {
        const d = this.metres;
        // the nearest first: it fixes best, and once it is seen no other need be looked for
        let place = count++;
        for (; place > 0 && this.inView[place - 1]! > d; place--) {
          this.inView[place] = this.inView[place - 1]!;
          this.inViewMark[place] = this.inViewMark[place - 1]!;
        }
        this.inView[place] = d;
        this.inViewMark[place] = k;
      }
      if (this.lowAt[k]! < low) low = this.lowAt[k]!;
      if (this.highAt[k]! < up) up = this.highAt[k]!;
    }
    for (let k = 0; k < count && !p.fix; k++) this.fixBy(p, this.inViewMark[k]!, this.inView[k]!);
    this.watch.landmarksLow = low;
    this.watch.landmarksHigh = up;
    // nothing in view: look again soon, not at every step
    this.watch.nextFix = b.walked + (p.fix ? FIX_EVERY : LOOK_EVERY);
  }

  /** Chooses the landmarks that can come within range before the body has moved by `MARKED_FOR`. */
  private markNear(): void {
    this.markedUntil = this.body.moved + MARKED_FOR;
    this.marked = 0;
    for (let k = 0; k < this.lowAt.length; k++)
      if (this.lowAt[k]! < this.markedUntil || this.highAt[k]! < this.markedUntil)
        this.marks[this.marked++] = k;
  }

  /** True when landmark k is there and within range in this air, `metres` away; else says from what movement on it may be. */
  private inRange(k: number, high: boolean): boolean {
    const b = this.body;
    const g = b.ground;
    const w = this.world;
    const i = w.landmarks[k]!;
    const spot = w.spots[i]!;
    const half = high ? spot.halfHigh : spot.halfLow;
    // far off it need not even be drawn where it truly lies
    const off = Math.max(Math.abs(spot.x - b.x), Math.abs(spot.y - b.y)) - 6 * spot.sd;
    this.lowAt[k] = b.moved + (off - spot.halfLow) - 1e-6;
    this.highAt[k] = b.moved + (off - spot.halfHigh) - 1e-6;
    if (off > half) return false;
    g.spot(i);
    if (g.spotThere[i] === 0) {
      this.neverAgain(k);
      return false;
    }
    const east = g.spotX[i]! - b.x;
    const north = g.spotY[i]! - b.y;
    const d = Math.sqrt(east * east + north * north);
    this.metres = d;
    this.lowAt[k] = b.moved + (d - spot.halfLow) - 1e-6;
    this.highAt[k] = b.moved + (d - spot.halfHigh) - 1e-6;
    return d <= half;
  }

  /** Landmark k is not there today, or not known for what it is. */
  private neverAgain(k: number): void {
    this.lowAt[k] = Number.POSITIVE_INFINITY;
    this.highAt[k] = Number.POSITIVE_INFINITY;
  }

  /** A landmark `d` metres away: recognised and in sight it tells where the party must be. */
  private fixBy(p: Percepts, k: number, d: number): void {
    const b = this.body;
    const g = b.ground;
    const i = this.world.landmarks[k]!;
    const spot = this.world.spots[i]!;
    const still = (this.mute & MUTE_SEEING) !== 0;
    startStream(this.draws, this.seed, this.trial, SEEING, spot.key);
    if (!still && nextUniform(this.draws) >= spot.recognised) {
      this.neverAgain(k);
      return;
    }
    if (!inSight(b, g.spotX[i]!, g.spotY[i]!)) return;
    const sd = Math.max(10, FIX_ANGLE * d);
    const id = (spot.key ^ 0xf1f) + Math.floor(b.walked / FIX_EVERY);
    startStream(this.draws, this.seed, this.trial, SEEING, id);
    p.fix = true;
    p.fixSd = sd;
    // the map place of the landmark, less what the party judges to lie between
    p.fixEast = spot.x - (g.spotX[i]! - b.x) + (still ? 0 : sd * nextNormal(this.draws));
    p.fixNorth = spot.y - (g.spotY[i]! - b.y) + (still ? 0 : sd * nextNormal(this.draws));
  }
}
