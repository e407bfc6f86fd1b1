import { ln } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { FOLLOWING, MUTE_STEP } from './keys.ts';
import type { SampledGround } from './sampled-ground.ts';
import { segmentAt } from './segment-at.ts';
import { UNSET } from './unset.ts';
import type { Line, World } from './world.ts';

/** The true line that the party walks on: which, where along it, which way, and how far until it loses it. */
export class Underfoot {
  private readonly world: World;
  private readonly ground: SampledGround;
  /** Index of the line, −1 for none. */
  line = -1;
  /** Metres along it, the segment, and +1 or −1: the way it is walked. */
  along = UNSET;
  segment = 0;
  sense = 1;
  /** Set when the line ended or was lost in the last step. */
  ended = false;
  lost = false;
  /** True place, as of the last `put` or `advance`. */
  x = UNSET;
  y = UNSET;
  /** Metres from the place given to the last `put`. */
  away = UNSET;
  private lossIn = UNSET;
  private readonly draws = newStream();

  constructor(world: World, ground: SampledGround) {
    this.world = world;
    this.ground = ground;
  }

  begin(): void {
    this.line = -1;
    this.lossIn = Number.POSITIVE_INFINITY;
    this.ended = false;
    this.lost = false;
  }

  get on(): Line {
    return this.ground.lines[this.line]!;
  }

  /** On to a line at the place of it that is nearest to (x, y). */
  put(line: number, x: number, y: number): void {
    const g = this.ground;
    if (line < this.world.lines.length) g.line(line);
    const l = g.lines[line]!;
    const px = x - g.lineEast[line]!;
    const py = y - g.lineNorth[line]!;
    let best = Number.POSITIVE_INFINITY;
    let along = 0;
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
        along = l.along[k]! + t * (l.along[k + 1]! - l.along[k]!);
      }
    }
    const low = g.lineStart[line]!;
    const high = g.lineEnd[line]!;
    this.line = line;
    this.along = along < low ? low : along > high ? high : along;
    this.segment = segmentAt(l.along, this.along);
    this.away = Math.sqrt(best);
    this.ended = false;
    this.lost = false;
    this.locate();
  }

  /** Which way to go on the line: the one that is nearer to the unit vector (east, north). */
  face(east: number, north: number): void {
    const l = this.on;
    this.sense = l.unitX[this.segment]! * east + l.unitY[this.segment]! * north >= 0 ? 1 : -1;
  }

  /** How far it can be followed until it is lost: one draw per trial and line. */
  drawLoss(seed: number, trial: number, mute: number): void {
    const l = this.on;
    const rate = (l.lossPerKm * this.world.navigator.handrailLoss) / 1000;
    if (rate <= 0 || (mute & MUTE_STEP) !== 0) {
      this.lossIn = Number.POSITIVE_INFINITY;
      return;
    }
    startStream(this.draws, seed, trial, FOLLOWING, l.key);
    this.lossIn = -ln(nextUniform(this.draws)) / rate;
  }

  /** Goes on along the line; returns the metres gone, fewer than asked where it ends. `fade` multiplies the loss. */
  advance(metres: number, fade: number): number {
    const end = this.sense > 0 ? this.ground.lineEnd[this.line]! : this.ground.lineStart[this.line]!;
    let ds = metres;
    const left = Math.abs(end - this.along);
    if (left <= ds) {
      ds = left;
      this.ended = true;
    }
    const faded = ds * fade;
    if (this.lossIn <= faded) {
      this.lost = true;
      this.lossIn = Number.POSITIVE_INFINITY;
    } else this.lossIn -= faded;
    this.along += this.sense * ds;
    const { along } = this.on;
    let k = this.segment;
    while (k > 0 && this.along < along[k]!) k--;
    while (k + 2 < along.length && this.along > along[k + 1]!) k++;
    this.segment = k;
    this.locate();
    return ds;
  }

  turnRound(): void {
    this.sense = -this.sense;
    this.ended = false;
  }

  private locate(): void {
    const l = this.on;
    const k = this.segment;
    const past = this.along - l.along[k]!;
    this.x = l.x[k]! + l.unitX[k]! * past + this.ground.lineEast[this.line]!;
    this.y = l.y[k]! + l.unitY[k]! * past + this.ground.lineNorth[this.line]!;
  }
}
