import { squareToSegment } from '../math/plane.ts';
import type { Body } from './body.ts';
import { UNSET } from './unset.ts';
import { BOXED, type World } from './world.ts';

/** A line this near is stepped on to, metres, if it is noticed from there. */
const AT_HAND = 40;
/** Square of the metres within which a line is measured segment by segment, that it need not be asked for again so soon. */
const NEAR_BOX = 50 * 50;

/**
 * Where the true lines lie from the body: which of them a step crossed, which is at hand. A line that is d metres away need not
 * be asked for until the body has moved by d.
 */
export class LineSense {
  private readonly world: World;
  private readonly body: Body;
  /** `body.moved` at which a line is worth testing again. */
  private readonly testAt: Float64Array;
  private nearX = UNSET;
  private nearY = UNSET;
  /** Unit vector along the line last crossed. */
  east = UNSET;
  north = UNSET;
  /** Share of the last step that was walked beyond it. */
  beyond = UNSET;
  /** `body.moved` until which none of the lines asked for last can be crossed. */
  nextAt = UNSET;

  constructor(world: World, body: Body) {
    this.world = world;
    this.body = body;
    this.testAt = new Float64Array(world.lines.length);
  }

  /** Forgets what was known of the distance to these lines. */
  listen(lines: readonly number[]): void {
    for (const i of lines) this.testAt[i] = 0;
    this.nextAt = 0;
  }

  /** The first of these lines that the last step crossed, −1 for none; leaves its direction in `east`, `north`. */
  crossed(lines: readonly number[], underfoot: number): number {
    const { moved } = this.body;
    const { ground } = this.body;
    let met = -1;
    let next = Number.POSITIVE_INFINITY;
    for (const i of lines) {
      if (i === underfoot) continue;
      if (moved >= this.testAt[i]!) {
        ground.line(i);
        if (ground.lineThere[i] === 0) {
          this.testAt[i] = Number.POSITIVE_INFINITY;
          continue;
        }
        if (this.crosses(i, met < 0) && met < 0) met = i;
      }
      if (this.testAt[i]! < next) next = this.testAt[i]!;
    }
    this.nextAt = next;
    return met;
  }

  /** Tests the step against a true line; when it is far, says from what movement on it is worth testing again. */
  private crosses(i: number, tell: boolean): boolean {
    const b = this.body;
    const g = b.ground;
    const l = this.world.lines[i]!;
    const { x, y, boxes } = l;
    const ax = b.fromX - g.lineEast[i]!;
    const ay = b.fromY - g.lineNorth[i]!;
    const bx = b.x - g.lineEast[i]!;
    const by = b.y - g.lineNorth[i]!;
    const sx = bx - ax;
    const sy = by - ay;
    const reach = sx * sx + sy * sy;
    const last = x.length - 1;
    let least = Number.POSITIVE_INFINITY;
    for (let box = 0, first = 0; first < last; box += 4, first += BOXED) {
      const ex = bx < boxes[box]! ? boxes[box]! - bx : bx > boxes[box + 2]! ? bx - boxes[box + 2]! : 0;
      const ey =
        by < boxes[box + 1]! ? boxes[box + 1]! - by : by > boxes[box + 3]! ? by - boxes[box + 3]! : 0;
      const far = ex * ex + ey * ey;
      if (far > reach) {
        // the step cannot cross it; far off, how far need not be known better than to its box
        if (far >= least) continue;
        if (far > NEAR_BOX) {
          least = far;
          continue;
        }
      }
      const end = first + BOXED < last ? first + BOXED : last;
      for (let k = first; k < end; k++) {
        const cx = x[k]!;
        const cy = y[k]!;
        const dx = x[k + 1]! - cx;
        const dy = y[k + 1]! - cy;
        const away = squareToSegment(bx - cx, by - cy, dx, dy);
        if (away < least) least = away;
        // farther from the step's end than the step is long
        if (away > reach) continue;
        const across = sx * dy - sy * dx;
        const fx = cx - ax;
        const fy = cy - ay;
        if (across !== 0) {
          const t = (fx * dy - fy * dx) / across;
          const u = (fx * sy - fy * sx) / across;
          if (t >= 0 && t <= 1 && u >= 0 && u <= 1) {
            const along = l.along[k]! + u * (l.along[k + 1]! - l.along[k]!);
            if (along >= g.lineStart[i]! && along <= g.lineEnd[i]!) {
              if (tell) {
                this.east = l.unitX[k]!;
                this.north = l.unitY[k]!;
                this.beyond = 1 - t;
              }
              this.testAt[i] = 0;
              return true;
            }
          }
        }
      }
    }
    this.testAt[i] = b.moved + Math.sqrt(least) - 1e-6;
    return false;
  }

  /**
   * The true line of a family at hand that leads best along a direction: at a junction people look for the branch that runs the
   * way they want. −1 for none. For the body's feet only.
   */
  atHand(lines: readonly number[], family: number, east: number, north: number, except: number): number {
    const b = this.body;
    const g = b.ground;
    let best = Number.POSITIVE_INFINITY;
    let line = -1;
    for (const i of lines) {
      const l = this.world.lines[i]!;
      if (l.family !== family || i === except) continue;
      g.line(i);
      if (g.lineThere[i] === 0) continue;
      const noticed = b.air === this.world.high ? l.noticedHigh : l.noticedLow;
      const d = this.distanceTo(i, Math.min(noticed, AT_HAND));
      if (d === Number.POSITIVE_INFINITY) continue;
      // a line square to the heading counts as 60 m farther off
      const off = d + 60 * (1 - Math.abs(this.nearX * east + this.nearY * north));
      if (off < best) {
        best = off;
        line = i;
      }
    }
    return line;
  }

  /** Metres to a true line within `most`, else +Infinity; leaves the direction of its nearest segment in nearX, nearY. */
  private distanceTo(i: number, most: number): number {
    const b = this.body;
    const { x, y, unitX, unitY, boxes } = this.world.lines[i]!;
    const px = b.x - b.ground.lineEast[i]!;
    const py = b.y - b.ground.lineNorth[i]!;
    const last = x.length - 1;
    let least = most * most;
    let nearest = -1;
    for (let box = 0, first = 0; first < last; box += 4, first += BOXED) {
      const ex = px < boxes[box]! ? boxes[box]! - px : px > boxes[box + 2]! ? px - boxes[box + 2]! : 0;
      const ey =
        py < boxes[box + 1]! ? boxes[box + 1]! - py : py > boxes[box + 3]! ? py - boxes[box + 3]! : 0;
      if (ex * ex + ey * ey > least) continue;
      const end = first + BOXED < last ? first + BOXED : last;
      for (let k = first; k < end; k++) {
        const d = squareToSegment(px - x[k]!, py - y[k]!, x[k + 1]! - x[k]!, y[k + 1]! - y[k]!);
        if (d > least || (d === least && nearest >= 0)) continue;
        least = d;
        nearest = k;
      }
    }
    if (nearest < 0) return Number.POSITIVE_INFINITY;
    this.nearX = unitX[nearest]!;
    this.nearY = unitY[nearest]!;
    return Math.sqrt(least);
  }
}
