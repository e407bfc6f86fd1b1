import { cellAt } from '../grid/raster.ts';
import { squareToSegment } from '../math/plane.ts';
import { cos, exp, sin } from '../math/portable.ts';
import { newStream, nextUniform, type Stream, startStream } from '../math/random.ts';
import { CAIRNS, MUTE_GROUND, RIVULETS, TRODS } from './keys.ts';
import type { SampledGround } from './sampled-ground.ts';
import { UNSET } from './unset.ts';
import { STREAM, WAY, type World } from './world.ts';

const TILE = 100;
/** Most of one sort in one tile; a mean of 2 passes it once in 10⁴ tiles. */
const MOST = 8;
/** Half the length of an unmapped rivulet and of a trod, metres: no more than a tile, so that nine tiles hold all that can be near. */
const RIVULET_HALF = 50;
const TROD_HALF = 100;
const ROOM = 9 * 2 * MOST;

/**
 * What no map shows, drawn per 100 m tile when a party comes near, so that every route of a trial meets the same: rivulets that
 * look like a stream (short runs down the fall line), trods (that lead elsewhere), cairns. A Poisson number of each per tile.
 *
 * Rivulets of 100 m and a mean of λ per tile of (100 m)² make λ crossings per 100 m walked across the slope.
 */
export class Extras {
  private readonly world: World;
  private readonly stream = newStream();
  private seed = 0;
  private trial = 0;
  private still = false;
  private families = 0;
  private tileX = Number.NaN;
  private tileY = Number.NaN;
  private count = 0;
  private readonly ax = new Float64Array(ROOM);
  private readonly ay = new Float64Array(ROOM);
  private readonly bx = new Float64Array(ROOM);
  private readonly by = new Float64Array(ROOM);
  private readonly keys = new Int32Array(ROOM);
  private readonly kinds = new Uint8Array(ROOM);
  private readonly rivuletFloor: number;
  private readonly trodFloor: number;
  private readonly cairnFloor: number;
  /** Number of the last line crossed, and the share of the step that was walked beyond it. */
  hit = -1;
  beyond = UNSET;
  /** Metres that the party may move from where it was asked for last before it can cross one. */
  free = UNSET;
  private cairnTileX = Number.NaN;
  private cairnTileY = Number.NaN;
  /** Cairns in the nine tiles around. */
  cairns = 0;
  readonly cairnX = new Float64Array(9 * MOST);
  readonly cairnY = new Float64Array(9 * MOST);
  readonly cairnKey = new Int32Array(9 * MOST);

  constructor(world: World) {
    this.world = world;
    this.rivuletFloor = exp(-world.rivuletsPer100 * world.rivuletsAlike);
    this.trodFloor = exp(-world.trodsPerM2 * TILE * TILE);
    this.cairnFloor = exp(-world.cairnsPerM2 * TILE * TILE);
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.still = (mute & MUTE_GROUND) !== 0;
    this.tileX = Number.NaN;
    this.cairnTileX = Number.NaN;
    this.cairns = 0;
  }

  /** Metres that one may move from (x, y), where `cairnsAbout` was asked, before a cairn can come within `reach`. */
  cairnFree(x: number, y: number, reach: number): number {
    if (this.still || this.world.cairnsPerM2 <= 0) return Number.POSITIVE_INFINITY;
    const px = x - this.cairnTileX * TILE;
    const py = y - this.cairnTileY * TILE;
    // those beyond the nine tiles are a tile's width farther off than the edge
    let free = Math.min(px, TILE - px, py, TILE - py) + TILE - reach;
    for (let k = 0; k < this.cairns; k++) {
      const dx = this.cairnX[k]! - x;
      const dy = this.cairnY[k]! - y;
      free = Math.min(free, Math.sqrt(dx * dx + dy * dy) - reach);
    }
    return free;
  }

  /** Which families of lines are worth noticing now, a bit each. */
  listen(families: number): void {
    const heard = families & ((1 << STREAM) | (1 << WAY));
    if (heard !== this.families) this.tileX = Number.NaN;
    this.free = heard === 0 ? Number.POSITIVE_INFINITY : 0;
    this.families = heard;
  }

  /** True when the step from a to b crosses one of a family; `hit` says which. */
  crossed(fromX: number, fromY: number, x: number, y: number, families: number): boolean {
    if ((this.families & families) === 0 || this.still) {
      this.free = Number.POSITIVE_INFINITY;
      return false;
    }
    // those beyond the nine tiles begin no nearer than this
    const longest = (this.families & (1 << WAY)) !== 0 ? TROD_HALF : RIVULET_HALF;
    let free = this.withinTiles(x, y) - longest;
    if (!(free >= 0 && this.withinTiles(fromX, fromY) >= longest)) {
      this.gather(Math.floor(x / TILE), Math.floor(y / TILE));
      free = this.withinTiles(x, y) - longest;
    }
    const sx = x - fromX;
    const sy = y - fromY;
    free *= free;
    for (let k = 0; k < this.count; k++) {
      const ex = this.ax[k]! - fromX;
      const ey = this.ay[k]! - fromY;
      const dx = this.bx[k]! - this.ax[k]!;
      const dy = this.by[k]! - this.ay[k]!;
      const off = squareToSegment(sx - ex, sy - ey, dx, dy);
      if (off < free) free = off;
      if ((families & (1 << this.kinds[k]!)) === 0) continue;
      const across = sx * dy - sy * dx;
      if (across === 0) continue;
      const t = (ex * dy - ey * dx) / across;
      const u = (ex * sy - ey * sx) / across;
      if (t >= 0 && t < 1 && u >= 0 && u <= 1) {
        this.hit = k;
        this.beyond = 1 - t;
        this.free = 0;
        return true;
      }
    }
    this.free = Math.sqrt(free);
    return false;
  }

  get hitFamily(): number {
    return this.kinds[this.hit]!;
  }
  get hitKey(): number {
    return this.keys[this.hit]!;
  }
  get hitEast(): number {
    return this.bx[this.hit]! - this.ax[this.hit]!;
  }
  get hitNorth(): number {
    return this.by[this.hit]! - this.ay[this.hit]!;
  }

  /** Lays the line last crossed into one of the two places that the ground has for such; its index there. */
  held(ground: SampledGround, underfoot: number): number {
    const k = this.hit;
    const { ax, ay, bx, by } = this;
    return ground.hold(this.keys[k]!, this.kinds[k]!, ax[k]!, ay[k]!, bx[k]!, by[k]!, underfoot);
  }

  /** Draws the cairns about a place, unless it is the tile of the last time. */
  cairnsAbout(x: number, y: number): void {
    if (this.still || this.world.cairnsPerM2 <= 0) return;
    const tx = Math.floor(x / TILE);
    const ty = Math.floor(y / TILE);
    if (tx === this.cairnTileX && ty === this.cairnTileY) return;
    this.cairnTileX = tx;
    this.cairnTileY = ty;
    this.cairns = 0;
    const s = this.stream;
    for (let i = tx - 1; i <= tx + 1; i++)
      for (let j = ty - 1; j <= ty + 1; j++) {
        const tile = tileKey(i, j);
        startStream(s, this.seed, this.trial, CAIRNS, tile);
        const n = poisson(s, this.cairnFloor);
        for (let k = 0; k < n; k++) {
          this.cairnX[this.cairns] = (i + nextUniform(s)) * TILE;
          this.cairnY[this.cairns] = (j + nextUniform(s)) * TILE;
          this.cairnKey[this.cairns] = (tile ^ Math.imul(k + 1, 0x2545f491)) | 0;
          this.cairns++;
        }
      }
  }

  /** Metres from (x, y) to the edge of the nine tiles that are drawn; negative outside, NaN where none are. */
  private withinTiles(x: number, y: number): number {
    const px = x - this.tileX * TILE;
    const py = y - this.tileY * TILE;
    return Math.min(px, TILE - px, py, TILE - py) + TILE;
  }

  /** Draws the nine tiles around (tx, ty). */
  private gather(tx: number, ty: number): void {
    this.tileX = tx;
    this.tileY = ty;
    this.count = 0;
    const { families } = this;
    for (let i = tx - 1; i <= tx + 1; i++)
      for (let j = ty - 1; j <= ty + 1; j++) {
        if ((families & (1 << STREAM)) !== 0 && this.rivuletFloor < 1)
          this.draw(i, j, STREAM, RIVULETS, this.rivuletFloor, RIVULET_HALF);
        if ((families & (1 << WAY)) !== 0 && this.trodFloor < 1)
          this.draw(i, j, WAY, TRODS, this.trodFloor, TROD_HALF);
      }
  }

  private draw(tx: number, ty: number, family: number, purpose: number, floor: number, half: number): void {
    const s = this.stream;
    const tile = tileKey(tx, ty);
    startStream(s, this.seed, this.trial, purpose, tile);
    const n = poisson(s, floor);
    const w = this.world;
    for (let k = 0; k < n; k++) {
      const x = (tx + nextUniform(s)) * TILE;
      const y = (ty + nextUniform(s)) * TILE;
      const turn = nextUniform(s) * 2 * Math.PI;
      let dx = sin(turn);
      let dy = cos(turn);
      const cell = family === STREAM ? cellAt(w.grid, x, y) : -1;
      if (cell >= 0) {
        const east = w.cells[4 * cell]!;
        const north = w.cells[4 * cell + 1]!;
        const steep = Math.sqrt(east * east + north * north);
        if (steep > 0.02) {
          dx = -east / steep;
          dy = -north / steep;
        }
      }
      const at = this.count++;
      this.ax[at] = x - dx * half;
      this.ay[at] = y - dy * half;
      this.bx[at] = x + dx * half;
      this.by[at] = y + dy * half;
      this.kinds[at] = family;
      this.keys[at] = (tile ^ Math.imul(k + 1, 0x2545f491) ^ family) | 0;
    }
  }
}

function tileKey(tx: number, ty: number): number {
  return (Math.imul(tx, 0x1f1f1f1f) ^ ty) >>> 0;
}

/** Knuth's product method, for small means; `floor` is e^(−mean). */
function poisson(s: Stream, floor: number): number {
  let n = 0;
  let product = nextUniform(s);
  while (product > floor && n < MOST) {
    n++;
    product *= nextUniform(s);
  }
  return n;
}
