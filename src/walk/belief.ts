import { UNSET } from './unset.ts';
import type { Navigator } from './world.ts';

/**
 * Where the party thinks it is: a mean and a covariance on the map, carried from the last confirmed feature.
 *
 * A bias that is constant over the way errs by |displacement|·σ, not by the sum over steps, so displacements are added up
 * as vectors and squared when asked; wander adds variances. Multipliers that the party feels weigh each step.
 */
export class Belief {
  readonly navigator: Navigator;
  x = UNSET;
  y = UNSET;
  private baseXX = UNSET;
  private baseXY = UNSET;
  private baseYY = UNSET;
  /** Displacement since the last fix, weighted by the bearing spread and by the pace spread. */
  private bearingX = UNSET;
  private bearingY = UNSET;
  private paceX = UNSET;
  private paceY = UNSET;
  private wanderXX = UNSET;
  private wanderXY = UNSET;
  private wanderYY = UNSET;
  /** Covariance as of the last `refresh`. */
  xx = UNSET;
  xy = UNSET;
  yy = UNSET;
  /** Counted metres since the last fix. */
  since = UNSET;

  constructor(navigator: Navigator) {
    this.navigator = navigator;
  }

  /** A confirmed feature: the party is at (x, y) within sd. */
  fix(x: number, y: number, sd: number): void {
    this.x = x;
    this.y = y;
    this.baseXX = sd * sd;
    this.baseXY = 0;
    this.baseYY = sd * sd;
    this.clear();
  }

  /** A line recognised: the party is on it at (x, y); across it sd, along it as before. (dx, dy) runs along the line. */
  fixOnLine(x: number, y: number, dx: number, dy: number, sd: number): void {
    this.refresh();
    const along = dx * dx * this.xx + 2 * dx * dy * this.xy + dy * dy * this.yy;
    const across = sd * sd;
    this.x = x;
    this.y = y;
    this.baseXX = along * dx * dx + across * dy * dy;
    this.baseXY = (along - across) * dx * dy;
    this.baseYY = along * dy * dy + across * dx * dx;
    this.clear();
  }

  /** A position known to within sd from something in view: weighs it with what was believed. */
  blend(x: number, y: number, sd: number): void {
    this.refresh();
    const r = sd * sd;
    const sxx = this.xx + r;
    const syy = this.yy + r;
    const det = sxx * syy - this.xy * this.xy;
    const kxx = (this.xx * syy - this.xy * this.xy) / det;
    const kxy = (this.xy * sxx - this.xx * this.xy) / det;
    const kyx = (this.xy * syy - this.yy * this.xy) / det;
    const kyy = (this.yy * sxx - this.xy * this.xy) / det;
    const dx = x - this.x;
    const dy = y - this.y;
    this.x += kxx * dx + kxy * dy;
    this.y += kyx * dx + kyy * dy;
    const xx = (1 - kxx) * this.xx - kxy * this.xy;
    const xy = (1 - kxx) * this.xy - kxy * this.yy;
    const yy = (1 - kyy) * this.yy - kyx * this.xy;
    this.baseXX = xx > 1 ? xx : 1;
    this.baseXY = xy;
    this.baseYY = yy > 1 ? yy : 1;
    this.clear();
  }

  /** Counted metres on a bearing (unit vector): the mean moves, the doubt grows along and across (`wander` metres per √(100 m)). */
  moveOnBearing(
    ux: number,
    uy: number,
    counted: number,
    bearing: number,
    pace: number,
    wander: number,
  ): void {
    this.x += ux * counted;
    this.y += uy * counted;
    this.bearingX += ux * counted * bearing;
    this.bearingY += uy * counted * bearing;
    this.paceX += ux * counted * pace;
    this.paceY += uy * counted * pace;
    const v = wander * wander * (counted / 100);
    this.wanderXX += uy * uy * v;
    this.wanderXY -= ux * uy * v;
    this.wanderYY += ux * ux * v;
    this.since += counted;
  }

  /** Counted metres along a known line to (x, y): only the count can err. */
  moveOnLine(x: number, y: number, counted: number, pace: number): void {
    const dx = x - this.x;
    const dy = y - this.y;
    this.x = x;
    this.y = y;
    this.paceX += dx * pace;
    this.paceY += dy * pace;
    this.since += counted;
  }

  /** Makes xx, xy, yy true for now. */
  refresh(): void {
    const b2 = this.navigator.bearing * this.navigator.bearing;
    // day and leg together: SD = 1.054·σ
    const p2 = 1.111 * this.navigator.pace * this.navigator.pace;
    this.xx = this.baseXX + b2 * this.bearingY * this.bearingY + p2 * this.paceX * this.paceX + this.wanderXX;
    this.xy = this.baseXY - b2 * this.bearingX * this.bearingY + p2 * this.paceX * this.paceY + this.wanderXY;
    this.yy = this.baseYY + b2 * this.bearingX * this.bearingX + p2 * this.paceY * this.paceY + this.wanderYY;
  }

  /** SD in the direction of a unit vector, metres. */
  sdAlong(ux: number, uy: number): number {
    this.refresh();
    return Math.sqrt(Math.max(0, ux * ux * this.xx + 2 * ux * uy * this.xy + uy * uy * this.yy));
  }

  /** Clash in SD between the believed place, moved by (east, north), and a mapped place known to `sd`. */
  clash(east: number, north: number, mapX: number, mapY: number, sd: number): number {
    this.refresh();
    const r = sd * sd + 25;
    const xx = this.xx + r;
    const yy = this.yy + r;
    const det = xx * yy - this.xy * this.xy;
    const dx = this.x + east - mapX;
    const dy = this.y + north - mapY;
    return Math.sqrt(Math.max(0, (yy * dx * dx - 2 * this.xy * dx * dy + xx * dy * dy) / det));
  }

  private clear(): void {
    this.bearingX = 0;
    this.bearingY = 0;
    this.paceX = 0;
    this.paceY = 0;
    this.wanderXX = 0;
    this.wanderXY = 0;
    this.wanderYY = 0;
    this.since = 0;
  }
}
