import { newStream, nextUniform, startStream } from '../math/random.ts';
import type { Body } from './body.ts';
import { MUTE_SEEING, SEEING } from './keys.ts';
import { distanceToStep, inView, passed } from './last-step.ts';
import type { Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import type { World } from './world.ts';

const MOST_TICKS = 64;

/** What a leg expects to come by: features ticked off, or the members of a row that is counted. */
export class Ticks {
  private readonly world: World;
  private readonly body: Body;
  private leg!: PlannedLeg;
  private readonly draws = newStream();
  private seed = 0;
  private trial = 0;
  private mute = 0;
  /** `body.moved` from which one is worth asking for again, and whether it is still to come. */
  private readonly tickAt = new Float64Array(MOST_TICKS);
  private readonly tickOpen = new Uint8Array(MOST_TICKS);

  constructor(world: World, body: Body) {
    this.world = world;
    this.body = body;
  }

  begin(seed: number, trial: number, mute: number): void {
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
  }

  /** Whether each will be noticed: one draw per object and day. */
  beginLeg(leg: PlannedLeg): void {
    this.leg = leg;
    for (let k = 0; k < leg.ticks.length && k < MOST_TICKS; k++) this.drawTick(k, leg.ticks[k]!.spot);
    for (let k = 0; k < leg.row.length && k < MOST_TICKS; k++) this.drawTick(k, leg.row[k]!);
  }

  /** Another leg, or a search in its name, of which nothing was drawn. */
  goOn(leg: PlannedLeg): void {
    this.leg = leg;
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

  /** Expected features in view; returns when to ask again. */
  look(p: Percepts): number {
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
  countMembers(p: Percepts): number {
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
    return inView(b, g.spotX[i]!, g.spotY[i]!, d);
  }
}
