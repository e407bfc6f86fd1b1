import { nextNormal } from '../math/normal.ts';
import { cos, sin } from '../math/portable.ts';
import { newStream, startStream } from '../math/random.ts';
import { Errors } from './errors.ts';
import { MUTE_STEP, STEP, WEATHER } from './keys.ts';
import { SampledGround } from './sampled-ground.ts';
import { Underfoot } from './underfoot.ts';
import { UNSET } from './unset.ts';
import { type Air, IN_HAZARD, type World } from './world.ts';

const TURN = 2 * Math.PI;
const PACE_ROW = 256;
const PACE_MIDDLE = 512;
const PACE_LAST = 1024;
/** With no landmark in view the party looks about again after this many metres. */
export const LOOK_EVERY = 40;

/**
 * Until when a walk needs no look: `moved` for what is near; walked metres for landmarks, of which none is in reach before
 * `landmarksLow` or `landmarksHigh` metres moved, below and above the cloud base.
 */
export interface Watch {
  quietUntil: number;
  nextFix: number;
  landmarksLow: number;
  landmarksHigh: number;
}

/** Of the series of cosine and sine; errors are small. */
const COS_4 = 1 / 24;
const COS_6 = 1 / 720;
const SIN_3 = 1 / 6;
const SIN_5 = 1 / 120;
const SIN_7 = 1 / 5040;

const NEVER: Watch = { quietUntil: 0, nextFix: 0, landmarksLow: 0, landmarksHigh: 0 };

/** `moved` before which no landmark is in reach. */
export function landmarksFrom(watch: Watch, high: boolean): number {
  return high ? watch.landmarksHigh : watch.landmarksLow;
}

/**
 * The party's body: where it truly is, what it truly does. It knows nothing of the map and takes no decision; it turns
 * an intended heading and a counted distance into true metres, with the errors of the day, the leg and the step.
 */
export class Body {
  readonly world: World;
  readonly ground: SampledGround;
  readonly errors: Errors;
  readonly underfoot: Underfoot;
  x = UNSET;
  y = UNSET;
  /** Where the last step began. */
  fromX = UNSET;
  fromY = UNSET;
  /** Seconds since the start, and true metres walked. */
  clock = UNSET;
  walked = UNSET;
  /**
   * Length of the true track with every sideways metre: never less than the straight distance between two places of it, so that
   * what is d away need not be asked for until `moved` has grown by d.
   */
  moved = UNSET;
  offMap = false;
  hazard = false;
  air: Air;
  /** Multipliers here, on the spread of bearing, pace and wander. */
  private feltBearing = UNSET;
  private feltPace = UNSET;
  private feltWander = UNSET;
  /** The same over the last steps, for the party to feel: means, the wander's with the bearing's in it. */
  meanBearing = UNSET;
  meanPace = UNSET;
  meanWander = UNSET;
  /** Told every true place, when somebody wants the track. */
  trace: ((x: number, y: number) => void) | null = null;
  /** Surface code underfoot, and the ground's rise eastward and northward. */
  surface = 0;
  private east = UNSET;
  private north = UNSET;
  cloudBase = UNSET;
  private seed = 0;
  private trial = 0;
  private mute = 0;
  private unitX = UNSET;
  private unitY = UNSET;
  private circling = UNSET;
  private readonly draws = newStream();
  private readonly steps = newStream();
  private readonly cells: Float32Array;
  private readonly west: number;
  private readonly northEdge: number;
  private readonly perCell: number;
  private readonly columns: number;
  private readonly rows: number;

  constructor(world: World) {
    this.world = world;
    this.ground = new SampledGround(world);
    this.errors = new Errors(world);
    this.underfoot = new Underfoot(world, this.ground);
    this.air = world.low;
    this.cells = world.cells;
    this.west = world.grid.west;
    this.northEdge = world.grid.north;
    this.perCell = 1 / world.grid.cell;
    this.columns = world.grid.columns;
    this.rows = world.grid.rows;
  }

  /** The line underfoot, −1 for none. */
  get onLine(): number {
    return this.underfoot.line;
  }

  begin(seed: number, trial: number, mute: number): void {
    const w = this.world;
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.ground.begin(seed, trial, mute);
    startStream(this.draws, seed, trial, WEATHER, 0);
    this.cloudBase = w.cloudBase + w.cloudBaseSd * nextNormal(this.draws);
    this.errors.begin(seed, trial, mute);
    this.underfoot.begin();
    this.clock = 0;
    this.walked = 0;
    this.meanBearing = 1;
    this.meanPace = 1;
    this.meanWander = 1;
    this.offMap = false;
    this.hazard = false;
    // nothing of the trial before may last
    this.unitX = 0;
    this.unitY = 1;
    this.circling = 0;
  }

  /** Sets the body down where the attempt begins. */
  start(x: number, y: number): void {
    this.place(x, y);
    this.moved = 0;
    this.hazard = false;
  }

  /** Sets the body down at a true place. */
  place(x: number, y: number): void {
    const dx = x - this.x;
    const dy = y - this.y;
    this.moved += Math.sqrt(dx * dx + dy * dy);
    this.x = x;
    this.y = y;
    this.fromX = x;
    this.fromY = y;
    this.underfoot.line = -1;
    this.feel();
  }

  /** Looked for a line underfoot and found none: stands where it is. */
  stay(): void {
    this.underfoot.line = -1;
    this.fromX = this.x;
    this.fromY = this.y;
  }

  /** Draws what a whole leg shares; see `Errors.beginLeg`. */
  beginLeg(key: number, plannedMetres: number): void {
    this.errors.beginLeg(key, plannedMetres);
    startStream(this.steps, this.seed, this.trial, STEP, key);
  }

  /** Takes a bearing and turns to it. */
  takeBearing(key: number, number: number, heading: number, sighted: boolean): void {
    this.point(this.errors.takeBearing(key, number, heading, sighted));
    this.circling = 0;
    this.underfoot.line = -1;
  }

  /** Turns to a heading that needs no bearing (something in view, a direction along the ground). */
  point(heading: number): void {
    this.unitX = sin(heading);
    this.unitY = cos(heading);
  }

  /** True metres that a count of one metre makes here. */
  get metresPerCount(): number {
    return this.errors.metresPerCount(this.feltPace);
  }

  /**
   * Up to `steps` steps of `counted` metres each on the bearing in hand, with bias, drift, wander, and the time they take: as many
   * as can be walked before something may come in view (`watch`), `walkedTo` metres or the time `until` are passed. Returns how
   * many; the factors felt are left as means over them. Locals for speed: this loop is where most of the time goes.
   */
  walk(
    counted: number,
    steps: number,
    timed: boolean,
    watch: Watch,
    walkedTo: number,
    until: number,
  ): number {
    const w = this.world;
    const n = w.navigator;
    const { errors, cells, columns, rows, west, northEdge, perCell, steps: stream, cloudBase } = this;
    const { paceOff, slowness, sideSpeed, sidePace, roughPace, roughWander, low, high } = w;
    const still = (this.mute & MUTE_STEP) !== 0;
    const drift = n.drift * errors.driftZ;
    const { bias, slow } = errors;
    const { trace } = this;
    const { quietUntil } = watch;
    const circling = !n.compass;
    let ux = this.unitX;
    let uy = this.unitY;
    let wind = w.windEast * uy - w.windNorth * ux;
    let {
      x,
      y,
      clock,
      walked,
      moved,
      east,
      north,
      surface,
      air,
      feltPace,
      feltBearing,
      feltWander,
      fromX,
      fromY,
    } = this;
    let hazard = false;
    let sumBearing = 0;
    let sumPace = 0;
    let sumWander = 0;
    let done = 0;
    // what the air does changes at the cloud base only
    let wanders = air.visibility < 50 ? n.wanderBlind : n.wander;
    let { paceOff: airPace, bearingOff: airBearing } = air;
    let airSlow = slow / air.speedOff;
    // tan(slope)·sin(angle to the fall line), + where the ground falls to the right
    let cross = north * ux - east * uy;
    let metres = timed ? counted * errors.metresPerTimed() : Number.NaN;
    let perRoot = timed ? Math.sqrt(metres * 0.01) : Number.NaN;
    let metresFor = Number.NaN;
    for (;;) {
      if (!timed && feltPace !== metresFor) {
        metresFor = feltPace;
        metres = counted * errors.metresPerCount(feltPace);
        perRoot = Math.sqrt(metres * 0.01);
      }
      let error = bias * feltBearing + drift * cross + wind;
      if (circling && air === high) {
        error += this.circle(metres);
        ux = this.unitX;
        uy = this.unitY;
        wind = w.windEast * uy - w.windNorth * ux;
        cross = north * ux - east * uy;
      }
      const wander = wanders * feltWander * feltBearing;
      const lateral = still ? 0 : nextNormal(stream) * wander * perRoot;
      const e2 = error * error;
      const c = 1 - e2 * (0.5 - e2 * (COS_4 - e2 * COS_6));
      const s = error * (1 - e2 * (SIN_3 - e2 * (SIN_5 - e2 * SIN_7)));
      // clockwise error ε of unit vector (ux, uy): (ux·cos + uy·sin, uy·cos − ux·sin); the right-hand normal is (uy, −ux)
      const forwardX = ux * c + uy * s;
      const forwardY = uy * c - ux * s;
      const across = cross < 0 ? -cross : cross;
      const side = sideSpeed[across > 1 ? 64 : (across * 64 + 0.5) | 0]!;
      const row = paceRow(east * forwardX + north * forwardY);
      clock += (metres * paceOff[row]! * slowness[surface]! * airSlow) / side;
      walked += metres;
      const dx = forwardX * metres + uy * lateral;
      const dy = forwardY * metres - ux * lateral;
      moved += Math.sqrt(dx * dx + dy * dy);
      fromX = x;
      fromY = y;
      x += dx;
      y += dy;
      done++;
      sumBearing += feltBearing;
      sumPace += feltPace;
      const felt = feltWander * feltBearing;
      sumWander += felt * felt;
      // the ground at the new place, as in `feel`
      const eastCells = (x - west) * perCell;
      const southCells = (northEdge - y) * perCell;
      if (!(eastCells >= 0 && southCells >= 0 && eastCells < columns && southCells < rows)) {
        this.offMap = true;
        break;
      }
      const at = 4 * ((southCells | 0) * columns + (eastCells | 0));
      const height = cells[at + 2]!;
      if (Number.isNaN(height)) {
        this.offMap = true;
        break;
      }
      east = cells[at]!;
      north = cells[at + 1]!;
      surface = cells[at + 3]! | 0;
      if (surface >= IN_HAZARD) {
        surface -= IN_HAZARD;
        hazard = true;
      }
      if (height >= cloudBase !== (air === high)) {
        air = height >= cloudBase ? high : low;
        wanders = air.visibility < 50 ? n.wanderBlind : n.wander;
        airPace = air.paceOff;
        airBearing = air.bearingOff;
        airSlow = slow / air.speedOff;
      }
      cross = north * ux - east * uy;
      const tilt = cross < 0 ? -cross : cross;
      const pace = airPace * roughPace[surface]! * sidePace[tilt > 1 ? 64 : (tilt * 64 + 0.5) | 0]!;
      feltPace = pace < 3 ? pace : 3;
      feltBearing = airBearing;
      feltWander = roughWander[surface]!;
      if (trace !== null) trace(x, y);
      if (done >= steps || moved >= quietUntil || walked > walkedTo || clock > until) break;
      if (walked >= watch.nextFix) {
        if (moved >= landmarksFrom(watch, air === high)) break;
        watch.nextFix = walked + LOOK_EVERY;
      }
    }
    this.x = x;
    this.y = y;
    this.fromX = fromX;
    this.fromY = fromY;
    this.clock = clock;
    this.walked = walked;
    this.moved = moved;
    this.east = east;
    this.north = north;
    this.surface = surface;
    this.air = air;
    this.feltPace = feltPace;
    this.feltBearing = feltBearing;
    this.feltWander = feltWander;
    if (hazard) this.hazard = true;
    this.meanBearing = sumBearing / done;
    this.meanPace = sumPace / done;
    this.meanWander = Math.sqrt(sumWander / done);
    return done;
  }

  /** One step that holds its height towards a heading: `metres` forward, losing height as contouring does. */
  contour(metres: number, meant: number): void {
    const { east, north } = this;
    const steep = Math.sqrt(east * east + north * north);
    if (!(steep > 0.02)) {
      this.walk(metres / this.metresPerCount, 1, false, NEVER, 0, 0);
      return;
    }
    // along the contour, on the side that is nearer to where one wants to go
    let ux = -north / steep;
    let uy = east / steep;
    if (ux * sin(meant) + uy * cos(meant) < 0) {
      ux = -ux;
      uy = -uy;
    }
    const n = this.world.navigator;
    const z = (this.mute & MUTE_STEP) !== 0 ? 0 : nextNormal(this.steps);
    const half = n.altimeter ? 0.5 : 1;
    // height change = (mean + SD·z)·tan(slope)/tan 20° per 100 m; sideways = height / tan(slope)
    const rise =
      half * ((n.contourMean + 0.6 * n.contourSd * this.errors.contourZ) * (metres / 100)) +
      half * 0.8 * n.contourSd * z * Math.sqrt(metres / 100);
    const up = rise / 0.36397;
    this.unitX = ux;
    this.unitY = uy;
    this.advance(
      ux * metres + (east / steep) * up,
      uy * metres + (north / steep) * up,
      metres,
      ux,
      uy,
      steep,
    );
  }

  /** Goes over to something in view, `metres` away, at the pace of the ground here. */
  approach(x: number, y: number, metres: number): void {
    this.clock += metres * this.pauseless();
    this.walked += metres;
    this.place(x, y);
  }

  /** Seconds per metre on the level over the ground here. */
  private pauseless(): number {
    const w = this.world;
    return (w.paceOff[PACE_MIDDLE]! * w.slowness[this.surface]! * this.errors.slow) / this.air.speedOff;
  }

  /**
   * Puts the body on a true line at the place nearest to it, walking towards the unit vector (east, north). The way over takes
   * its time; a line that was crossed within the last step (`crossed`) gives back what was walked beyond it.
   */
  stepOn(line: number, east: number, north: number, crossed = false): void {
    const u = this.underfoot;
    const slow = this.pauseless();
    u.put(line, this.x, this.y);
    u.face(east, north);
    u.drawLoss(this.seed, this.trial, this.mute);
    this.moved += u.away;
    this.fromX = this.x;
    this.fromY = this.y;
    this.x = u.x;
    this.y = u.y;
    this.feel();
    const away = crossed ? -u.away : u.away;
    this.clock += away * slow;
    this.walked += away;
  }

  /** Turns round on the line underfoot. */
  turnRound(): void {
    this.underfoot.turnRound();
    this.fromX = this.x;
    this.fromY = this.y;
  }

  /** Up to `steps` steps of `counted` metres along the line underfoot, as `walk` does on a bearing; stops where the line ends or is lost. */
  follow(counted: number, steps: number, watch: Watch, walkedTo: number, until: number): number {
    const u = this.underfoot;
    let sumPace = 0;
    for (let done = 1; ; done++) {
      sumPace += this.feltPace;
      this.followStep(counted * this.errors.metresPerCount(this.feltPace));
      this.meanPace = sumPace / done;
      const over = u.ended || u.lost || this.offMap || this.moved >= watch.quietUntil;
      if (over || done >= steps || this.walked > walkedTo || this.clock > until) return done;
    }
  }

  private followStep(metres: number): void {
    const u = this.underfoot;
    const ds = u.advance(metres, this.air.handrail);
    const l = u.on;
    const k = u.segment;
    this.along(
      u.x - this.x,
      u.y - this.y,
      ds,
      l.unitX[k]! * u.sense,
      l.unitY[k]! * u.sense,
      l.isPath,
      l.gradient[k]! * u.sense,
    );
  }

  /** Moves along a line: the gradient of a path is its own, off paths it is the ground's. */
  private along(
    dx: number,
    dy: number,
    metres: number,
    unitX: number,
    unitY: number,
    path: boolean,
    graded: number,
  ): void {
    const w = this.world;
    const gradient = !Number.isNaN(graded) ? graded : this.east * unitX + this.north * unitY;
    const pace = path
      ? w.paceOn[paceRow(gradient)]! / this.air.speedOn
      : (w.paceOff[paceRow(gradient)]! * w.slowness[this.surface]!) / this.air.speedOff;
    this.unitX = unitX;
    this.unitY = unitY;
    this.move(dx, dy, metres, metres * pace);
  }

  private advance(
    dx: number,
    dy: number,
    metres: number,
    alongX: number,
    alongY: number,
    cross: number,
  ): void {
    const w = this.world;
    const row = paceRow(this.east * alongX + this.north * alongY);
    const side = w.sideSpeed[cross > 1 ? 64 : (cross * 64 + 0.5) | 0]!;
    const seconds = (metres * w.paceOff[row]! * w.slowness[this.surface]!) / (this.air.speedOff * side);
    this.move(dx, dy, metres, seconds);
  }

  private move(dx: number, dy: number, metres: number, seconds: number): void {
    this.clock += seconds * this.errors.slow;
    this.walked += metres;
    this.moved += Math.sqrt(dx * dx + dy * dy);
    this.fromX = this.x;
    this.fromY = this.y;
    this.x += dx;
    this.y += dy;
    this.feel();
    this.trace?.(this.x, this.y);
  }

  /** Looks up what the new place does to the party: air, surface, hazard. */
  private feel(): void {
    const w = this.world;
    const column = Math.floor((this.x - this.west) * this.perCell);
    const row = Math.floor((this.northEdge - this.y) * this.perCell);
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) {
      this.offMap = true;
      return;
    }
    const { cells } = this;
    const at = 4 * (row * this.columns + column);
    const height = cells[at + 2]!;
    if (Number.isNaN(height)) {
      this.offMap = true;
      return;
    }
    const east = cells[at]!;
    const north = cells[at + 1]!;
    const code = cells[at + 3]!;
    this.east = east;
    this.north = north;
    const air = height >= this.cloudBase ? w.high : w.low;
    this.air = air;
    const line = this.underfoot.line;
    if (line >= 0 && this.ground.lines[line]!.isPath) {
      // a path by a drop is where people walk; off it the buffer holds
      this.surface = code >= IN_HAZARD ? code - IN_HAZARD : code;
      this.feltBearing = air.bearingOn;
      this.feltPace = air.paceOn < 3 ? air.paceOn : 3;
      this.feltWander = w.roughWander[0]!;
      this.feltNow();
      return;
    }
    let surface = code;
    if (code >= IN_HAZARD) {
      surface = code - IN_HAZARD;
      this.hazard = true;
    }
    this.surface = surface;
    let cross = north * this.unitX - east * this.unitY;
    if (cross < 0) cross = -cross;
    const pace = air.paceOff * w.roughPace[surface]! * w.sidePace[cross > 1 ? 64 : (cross * 64 + 0.5) | 0]!;
    this.feltBearing = air.bearingOff;
    this.feltPace = pace < 3 ? pace : 3;
    this.feltWander = w.roughWander[surface]!;
    this.feltNow();
  }

  private feltNow(): void {
    this.meanBearing = this.feltBearing;
    this.meanPace = this.feltPace;
    this.meanWander = this.feltWander * this.feltBearing;
  }

  /** Without a compass in cloud nothing holds the heading: it walks at random, and people circle (Souman et al. 2009). */
  private circle(metres: number): number {
    // SD per √m chosen so that half of walkers have turned right round within about 200 m; common practice, no source
    this.circling += 0.18 * Math.sqrt(metres) * nextNormal(this.steps);
    if (this.circling > Math.PI) this.circling -= TURN;
    if (this.circling < -Math.PI) this.circling += TURN;
    const limit = 1.2;
    if (Math.abs(this.circling) > limit) {
      const turned = this.circling;
      const s = sin(turned);
      const c = cos(turned);
      const x = this.unitX * c + this.unitY * s;
      this.unitY = this.unitY * c - this.unitX * s;
      this.unitX = x;
      this.circling = 0;
    }
    return this.circling;
  }
}

/** Row of the pace tables for a gradient, rise per metre. */
function paceRow(gradient: number): number {
  const row = ((gradient + 2) * PACE_ROW + 0.5) | 0;
  return row < 0 ? 0 : row > PACE_LAST ? PACE_LAST : row;
}
