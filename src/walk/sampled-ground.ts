import { defaultDoubt } from '../features/doubt.ts';
import type { Feature } from '../features/feature.ts';
import { nextNormal, normalOf } from '../math/normal.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { GROUND, MUTE_GROUND } from './keys.ts';
import { lineInShape } from './one-shape.ts';
import { segmentAt } from './segment-at.ts';
import type { Line, World } from './world.ts';

/**
 * The true ground of one trial: what exists, where it really lies. Drawn per feature when first asked for, from the
 * feature's own stream, so that neither order nor company changes a draw. One object serves many trials.
 */
export class SampledGround {
  readonly world: World;
  /** The mapped lines and, behind them, two places for unmapped ones that the party has come upon. */
  readonly lines: readonly Line[];
  private seed = 0;
  private trial = 0;
  private exact = false;
  private readonly stream = newStream();
  private epoch = 0;
  private readonly heldIn = new Int32Array(2);
  private readonly lineEpoch: Int32Array;
  private readonly spotEpoch: Int32Array;
  /** Per line: 1 when it is there; its displacement; true metres along of its two ends. */
  readonly lineThere: Uint8Array;
  readonly lineEast: Float64Array;
  readonly lineNorth: Float64Array;
  readonly lineStart: Float64Array;
  readonly lineEnd: Float64Array;
  /** Per spot: 1 when it is there; its true place. */
  readonly spotThere: Uint8Array;
  readonly spotX: Float64Array;
  readonly spotY: Float64Array;
  /** True metres along of a spot that lies on a line. */
  readonly spotAlong: Float64Array;

  constructor(world: World) {
    this.world = world;
    this.lines = [...world.lines, heldLine(world.lines.length), heldLine(world.lines.length + 1)];
    const n = this.lines.length;
    const m = world.spots.length;
    this.lineEpoch = new Int32Array(n);
    this.spotEpoch = new Int32Array(m);
    this.lineThere = new Uint8Array(n);
    this.lineEast = new Float64Array(n);
    this.lineNorth = new Float64Array(n);
    this.lineStart = new Float64Array(n);
    this.lineEnd = new Float64Array(n);
    this.spotThere = new Uint8Array(m);
    this.spotX = new Float64Array(m);
    this.spotY = new Float64Array(m);
    this.spotAlong = new Float64Array(m);
  }

  /** Begins a new trial; with MUTE_GROUND the ground is the map. */
  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.exact = (mute & MUTE_GROUND) !== 0;
    this.epoch++;
  }

  /** Lays an unmapped line from (ax, ay) to (bx, by) into a place that is not underfoot; its index among the lines. */
  hold(
    key: number,
    family: number,
    ax: number,
    ay: number,
    bx: number,
    by: number,
    underfoot: number,
  ): number {
    const first = this.world.lines.length;
    let i = underfoot === first ? first + 1 : first;
    // one already held stays where it is
    if (this.heldIn[0] === this.epoch && this.lines[first]!.key === key) i = first;
    if (this.heldIn[1] === this.epoch && this.lines[first + 1]!.key === key) i = first + 1;
    this.heldIn[i - first] = this.epoch;
    const l = this.lines[i] as HeldLine;
    const dx = bx - ax;
    const dy = by - ay;
    const metres = Math.sqrt(dx * dx + dy * dy);
    l.key = key;
    l.family = family;
    l.x[0] = ax;
    l.x[1] = bx;
    l.y[0] = ay;
    l.y[1] = by;
    l.along[1] = metres;
    l.unitX[0] = dx / metres;
    l.unitY[0] = dy / metres;
    this.lineThere[i] = 1;
    this.lineEast[i] = 0;
    this.lineNorth[i] = 0;
    this.lineStart[i] = 0;
    this.lineEnd[i] = metres;
    this.lineEpoch[i] = this.epoch;
    return i;
  }

  /** Draws line i if this trial has not asked for it yet. */
  line(i: number): void {
    if (this.lineEpoch[i] === this.epoch) return;
    this.lineEpoch[i] = this.epoch;
    const line = this.world.lines[i]!;
    if (this.exact) {
      this.lineThere[i] = 1;
      this.lineEast[i] = 0;
      this.lineNorth[i] = 0;
      this.lineStart[i] = line.mapStart;
      this.lineEnd[i] = line.mapEnd;
      return;
    }
    const s = this.stream;
    startStream(s, this.seed, this.trial, GROUND, line.key);
    this.lineThere[i] = nextUniform(s) < line.exists ? 1 : 0;
    this.lineEast[i] = nextNormal(s) * line.sd;
    this.lineNorth[i] = nextNormal(s) * line.sd;
    const start = line.mapStart - shifted(line.startShift, nextUniform(s));
    const end = line.mapEnd + shifted(line.endShift, nextUniform(s));
    const last = line.along[line.along.length - 1]!;
    this.lineStart[i] = Math.max(0, Math.min(start, line.mapEnd - 1));
    this.lineEnd[i] = Math.min(last, Math.max(end, this.lineStart[i]! + 1));
  }

  /** Draws spot i if this trial has not asked for it yet. */
  spot(i: number): void {
    if (this.spotEpoch[i] === this.epoch) return;
    this.spotEpoch[i] = this.epoch;
    const spot = this.world.spots[i]!;
    if (this.exact && spot.line < 0) {
      this.spotThere[i] = spot.unmapped ? 0 : 1;
      this.spotX[i] = spot.x;
      this.spotY[i] = spot.y;
      return;
    }
    const s = this.stream;
    startStream(s, this.seed, this.trial, GROUND, spot.key);
    const there = this.exact || nextUniform(s) < spot.exists;
    const east = this.exact ? 0 : nextNormal(s) * spot.sd;
    const north = this.exact ? 0 : nextNormal(s) * spot.sd;
    if (spot.line < 0) {
      this.spotThere[i] = there ? 1 : 0;
      this.spotX[i] = spot.x + east;
      this.spotY[i] = spot.y + north;
      return;
    }
    // a place on a line is where the line really is, shifted along it
    const shift = this.exact ? 0 : spot.shift.mean + spot.shift.sd * nextNormal(s);
    this.placeOnLine(i, there, shift);
  }

  private placeOnLine(i: number, there: boolean, shift: number): void {
    const spot = this.world.spots[i]!;
    const line = this.world.lines[spot.line]!;
    this.line(spot.line);
    let along = spot.lineAlong + shift;
    // an end of a line is where that line ends, whatever was drawn
    if (spot.lineAlong <= line.mapStart + 0.5) along = this.lineStart[spot.line]!;
    else if (spot.lineAlong >= line.mapEnd - 0.5) along = this.lineEnd[spot.line]!;
    const last = line.along[line.along.length - 1]!;
    along = along < 0 ? 0 : along > last ? last : along;
    this.spotThere[i] = there && this.lineThere[spot.line] === 1 ? 1 : 0;
    this.spotAlong[i] = along;
    const k = segmentAt(line.along, along);
    const span = line.along[k + 1]! - line.along[k]!;
    const t = span > 0 ? (along - line.along[k]!) / span : 0;
    this.spotX[i] = line.x[k]! + (line.x[k + 1]! - line.x[k]!) * t + this.lineEast[spot.line]!;
    this.spotY[i] = line.y[k]! + (line.y[k + 1]! - line.y[k]!) * t + this.lineNorth[spot.line]!;
  }
}

type HeldLine = { -readonly [K in keyof Line]: Line[K] };

/** Room for an unmapped line of one segment; it loses people as a trod does. */
function heldLine(index: number): HeldLine {
  return lineInShape({
    index,
    feature: UNMAPPED,
    key: 0,
    family: 0,
    x: new Float64Array(2),
    y: new Float64Array(2),
    along: new Float64Array(2),
    unitX: new Float64Array(1),
    unitY: new Float64Array(1),
    boxes: new Float64Array(4),
    gradient: new Float64Array([Number.NaN]),
    mapStart: 0,
    mapEnd: 0,
    startShift: { mean: 0, sd: 0 },
    endShift: { mean: 0, sd: 0 },
    downSense: 0,
    exists: 1,
    sd: 0,
    lossPerKm: 0.8,
    isPath: false,
    forks: [],
    noticedLow: 5,
    noticedHigh: 5,
  });
}

const UNMAPPED: Feature = {
  id: 'unmapped',
  kind: 'trod',
  geometry: { type: 'line', points: [] },
  given: {},
  doubt: defaultDoubt('trod'),
  origin: 'derived',
};

function shifted(shift: { readonly mean: number; readonly sd: number }, u: number): number {
  return shift.mean === 0 && shift.sd === 0 ? 0 : shift.mean + shift.sd * normalOf(u);
}
