import { cellAt } from '../grid/raster.ts';
import { atan2, cos, exp, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { MUTE_GROUND, RIVULETS } from './keys.ts';
import type { World } from './world.ts';

const TILE = 100;
const MOST = 12;

/**
 * Unmapped rivulets that look like a stream: short runs down the fall line, a Poisson number per 100 m tile, drawn when a
 * party comes near. Every route of a trial meets the same ones.
 *
 * Length 100 m and a mean of λ per tile of (100 m)² make λ crossings per 100 m walked across the slope.
 */
export class Rivulets {
  private readonly world: World;
  private readonly stream = newStream();
  private seed = 0;
  private trial = 0;
  private active = false;
  private mean = 0;
  /** e^(−mean), where the product of uniforms stops. */
  private floor = 1;
  private tileX = Number.NaN;
  private tileY = Number.NaN;
  private count = 0;
  private readonly ax = new Float64Array(9 * MOST);
  private readonly ay = new Float64Array(9 * MOST);
  private readonly bx = new Float64Array(9 * MOST);
  private readonly by = new Float64Array(9 * MOST);
  /** Direction of the last one crossed, radians. */
  direction = 0;

  constructor(world: World) {
    this.world = world;
    this.mean = world.rivuletsPer100 * world.rivuletsAlike;
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    const mean = (mute & MUTE_GROUND) !== 0 ? 0 : this.world.rivuletsPer100 * this.world.rivuletsAlike;
    if (mean !== this.mean || this.floor === 1) this.floor = exp(-mean);
    this.mean = mean;
    this.tileX = Number.NaN;
  }

  listen(): void {
    this.active = true;
  }

  ignore(): void {
    this.active = false;
  }

  /** True when the step from a to b crosses one. */
  crossed(fromX: number, fromY: number, x: number, y: number): boolean {
    if (!this.active || this.mean <= 0) return false;
    const tx = Math.floor(x / TILE);
    const ty = Math.floor(y / TILE);
    if (tx !== this.tileX || ty !== this.tileY) this.gather(tx, ty);
    const sx = x - fromX;
    const sy = y - fromY;
    for (let k = 0; k < this.count; k++) {
      const dx = this.bx[k]! - this.ax[k]!;
      const dy = this.by[k]! - this.ay[k]!;
      const across = sx * dy - sy * dx;
      if (across === 0) continue;
      const ex = this.ax[k]! - fromX;
      const ey = this.ay[k]! - fromY;
      const t = (ex * dy - ey * dx) / across;
      const u = (ex * sy - ey * sx) / across;
      if (t >= 0 && t < 1 && u >= 0 && u <= 1) {
        this.direction = atan2(dx, dy);
        return true;
      }
    }
    return false;
  }

  /** Draws the nine tiles around (tx, ty). */
  private gather(tx: number, ty: number): void {
    this.tileX = tx;
    this.tileY = ty;
    this.count = 0;
    for (let i = -1; i <= 1; i++) for (let j = -1; j <= 1; j++) this.draw(tx + i, ty + j);
  }

  private draw(tx: number, ty: number): void {
    const s = this.stream;
    startStream(s, this.seed, this.trial, RIVULETS, (Math.imul(tx, 0x1f1f1f1f) ^ ty) >>> 0);
    let n = 0;
    let product = nextUniform(s);
    const floor = this.floor;
    // Knuth's product method: small means only
    while (product > floor && n < MOST) {
      n++;
      product *= nextUniform(s);
    }
    const w = this.world;
    for (let k = 0; k < n; k++) {
      const x = (tx + nextUniform(s)) * TILE;
      const y = (ty + nextUniform(s)) * TILE;
      const turn = nextUniform(s) * 2 * Math.PI;
      const cell = cellAt(w.grid, x, y);
      let dx = sin(turn);
      let dy = cos(turn);
      if (cell >= 0) {
        const east = w.eastward[cell]!;
        const north = w.northward[cell]!;
        const steep = Math.sqrt(east * east + north * north);
        if (steep > 0.02) {
          dx = -east / steep;
          dy = -north / steep;
        }
      }
      this.ax[this.count] = x - dx * 50;
      this.ay[this.count] = y - dy * 50;
      this.bx[this.count] = x + dx * 50;
      this.by[this.count] = y + dy * 50;
      this.count++;
    }
  }
}
