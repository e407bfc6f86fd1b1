import { timingBias } from '../conditions/wind.ts';
import { cellAt } from '../grid/raster.ts';
import { nextNormal } from '../math/normal.ts';
import { atan2, cos, ln, sin } from '../math/portable.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { DAY, FOLLOWING, LEG, MUTE_DAY, MUTE_LEG, MUTE_STEP, STEP, WEATHER } from './keys.ts';
import { SampledGround } from './sampled-ground.ts';
import { segmentAt } from './segment-at.ts';
import type { Air, World } from './world.ts';

const TURN = 2 * Math.PI;
const PACE_ROW = 256;
const PACE_MIDDLE = 512;
const PACE_LAST = 1024;

/**
 * The party's body: where it truly is, what it truly does. It knows nothing of the map and takes no decision; it turns
 * an intended heading and a counted distance into true metres, with the errors of the day, the leg and the step.
 */
export class Body {
  readonly world: World;
  readonly ground: SampledGround;
  x = 0;
  y = 0;
  /** Where the last step began. */
  fromX = 0;
  fromY = 0;
  /** Seconds since the start, and true metres walked. */
  clock = 0;
  walked = 0;
  /** The line underfoot (index, −1 for none), metres along it and the direction walked. */
  onLine = -1;
  lineAlong = 0;
  lineSense = 1;
  private lineSegment = 0;
  private lineLossIn = Number.POSITIVE_INFINITY;
  /** Set when the line underfoot ended or was lost in the last step. */
  lineEnded = false;
  lineLost = false;
  offMap = false;
  hazard = false;
  cell = 0;
  air: Air;
  /** Multipliers that this step met, for the party to feel: bearing, pace and wander spread. */
  feltBearing = 1;
  feltPace = 1;
  feltWander = 1;
  cloudBase = 0;
  private seed = 0;
  private trial = 0;
  private mute = 0;
  private daySpeed = 1;
  private dayBearing = 0;
  private dayPace = 0;
  private dayDeclination = 0;
  private dayTiming = 0;
  // of the bearing in hand
  private unitX = 0;
  private unitY = 1;
  private bias = 0;
  private driftZ = 1;
  private paceZ = 0;
  private contourZ = 0;
  private timingZ = 0;
  private circling = 0;
  private windTiming = 0;
  /** Metres added to the count by a miscount on this leg, taken with its first counted step. */
  miscount = 0;
  private readonly draws = newStream();
  private readonly steps = newStream();

  constructor(world: World) {
    this.world = world;
    this.ground = new SampledGround(world);
    this.air = world.low;
  }

  begin(seed: number, trial: number, mute: number): void {
    const w = this.world;
    const n = w.navigator;
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    this.ground.begin(seed, trial, mute);
    const s = this.draws;
    startStream(s, seed, trial, WEATHER, 0);
    this.cloudBase = w.cloudBase + w.cloudBaseSd * nextNormal(s);
    startStream(s, seed, trial, DAY, 0);
    const speed = nextNormal(s);
    const bearing = nextNormal(s);
    const pace = nextNormal(s);
    const timing = nextNormal(s);
    const declination = nextUniform(s);
    const still = (mute & MUTE_DAY) !== 0;
    this.daySpeed = still ? 1 : Math.max(0.5, 1 + n.speedSd * speed);
    this.dayBearing = still ? 0 : 0.8 * n.bearing * bearing;
    this.dayPace = still ? 0 : n.pace * pace;
    this.dayTiming = still ? 0 : timing;
    // omitted: off by the declination; reversed: off by twice that
    this.dayDeclination =
      still || declination >= n.declination
        ? 0
        : declination < n.declination / 2
          ? w.declinationAngle
          : 2 * w.declinationAngle;
    this.clock = 0;
    this.walked = 0;
    this.onLine = -1;
    this.lineEnded = false;
    this.lineLost = false;
    this.offMap = false;
    this.hazard = false;
    this.miscount = 0;
  }

  /** Sets the body down at a true place. */
  place(x: number, y: number): void {
    this.x = x;
    this.y = y;
    this.fromX = x;
    this.fromY = y;
    this.onLine = -1;
    this.feel();
  }

  /** Looked for a line underfoot and found none: stands where it is. */
  stay(): void {
    this.onLine = -1;
    this.fromX = this.x;
    this.fromY = this.y;
  }

  /** Draws what a whole leg shares: pace, drift, contouring, timing, a miscount. `key` is shared by legs that share their draws. */
  beginLeg(key: number, plannedMetres: number): void {
    const s = this.draws;
    startStream(s, this.seed, this.trial, LEG, key);
    const n = this.world.navigator;
    const pace = nextNormal(s);
    const drift = nextNormal(s);
    const contour = nextNormal(s);
    const timing = nextNormal(s);
    const miscount = nextUniform(s);
    const sign = nextUniform(s);
    const still = (this.mute & MUTE_LEG) !== 0;
    this.paceZ = this.dayPace + (still ? 0 : (n.pace / 3) * pace);
    this.driftZ = still ? 0 : 1 + 0.5 * drift;
    this.contourZ = still ? 0 : contour;
    // one day, one clock: the speed that timing assumes errs by leg around nothing
    this.timingZ = still ? 0 : timing;
    // 1 − e^(−x) = x/(1 + x/2) to 3e-4 for x below .16, the most a novice meets in 2 km
    const likely = n.miscountPerMetre * plannedMetres;
    this.miscount =
      still || plannedMetres < 100 || miscount >= likely / (1 + likely / 2) ? 0 : sign < 0.5 ? -100 : 100;
    startStream(this.steps, this.seed, this.trial, STEP, key);
  }

  /** Takes a bearing: `heading` is meant, `number` says which bearing of the leg it is. */
  takeBearing(key: number, number: number, heading: number): void {
    const s = this.draws;
    startStream(s, this.seed, this.trial, LEG, (key * 64 + number + 1) | 0x40000000);
    const n = this.world.navigator;
    const error = nextNormal(s);
    const reverse = nextUniform(s);
    const slip = nextUniform(s);
    const side = nextUniform(s);
    const still = (this.mute & MUTE_LEG) !== 0;
    this.bias = this.dayBearing + (still ? 0 : 0.6 * n.bearing * error);
    let meant = heading + this.dayDeclination;
    if (!still) {
      if (reverse < n.reverse) meant += Math.PI;
      if (slip < n.slip) meant += side < 0.5 ? -Math.PI / 18 : Math.PI / 18;
    }
    this.point(meant);
    this.circling = 0;
    this.onLine = -1;
    this.windTiming = this.world.wind.metresPerSecond > 0 ? timingBias(this.world.wind, heading) : 0;
  }

  /** Turns to a heading that needs no bearing (something in view, a direction along the ground). */
  point(heading: number): void {
    this.unitX = sin(heading);
    this.unitY = cos(heading);
  }

  /** Points at a true place in view: no bearing error applies to the next step. */
  pointAt(x: number, y: number): void {
    const dx = x - this.x;
    const dy = y - this.y;
    const d = Math.sqrt(dx * dx + dy * dy);
    if (d > 0) {
      this.unitX = dx / d;
      this.unitY = dy / d;
    }
  }

  /** True metres that a count of one metre makes here: the pace error of day and leg under the factors felt. */
  get metresPerCount(): number {
    const r = 1 + this.paceZ * this.feltPace;
    return r < 0.2 ? 0.2 : r;
  }

  /** True metres walked while the clock says one metre should have been: timing is another instrument than pacing. */
  get metresPerTimed(): number {
    const n = this.world.navigator;
    const r = 1 + n.timingBias + this.windTiming + n.timing * (0.943 * this.timingZ + 0.333 * this.dayTiming);
    return r < 0.2 ? 0.2 : r;
  }

  /** One step on the bearing in hand: `metres` true metres forward, with bias, drift, wander, and the time they take. */
  walk(metres: number): void {
    const w = this.world;
    const cell = this.cell;
    const east = w.eastward[cell]!;
    const north = w.northward[cell]!;
    const ux = this.unitX;
    const uy = this.unitY;
    // tan(slope)·sin(angle to the fall line), + where the ground falls to the right
    const cross = Number.isNaN(east) ? 0 : north * ux - east * uy;
    const n = w.navigator;
    const wind = w.windEast * uy - w.windNorth * ux;
    let error = this.bias * this.feltBearing + n.drift * this.driftZ * cross + wind;
    if (!n.compass && this.air === w.high) error += this.circle(metres);
    const z = (this.mute & MUTE_STEP) !== 0 ? 0 : nextNormal(this.steps);
    const blind = this.air.visibility < 50;
    const lateral =
      z * (blind ? n.wanderBlind : n.wander) * this.feltWander * this.feltBearing * Math.sqrt(metres / 100);
    const e2 = error * error;
    const c = 1 - e2 / 2 + (e2 * e2) / 24 - (e2 * e2 * e2) / 720;
    const s = error * (1 - e2 / 6 + (e2 * e2) / 120 - (e2 * e2 * e2) / 5040);
    // clockwise error ε of unit vector (ux, uy): (ux·cos + uy·sin, uy·cos − ux·sin); the right-hand normal is (uy, −ux)
    const dx = ux * c + uy * s;
    const dy = uy * c - ux * s;
    this.advance(
      dx * metres + uy * lateral,
      dy * metres - ux * lateral,
      metres,
      dx,
      dy,
      Math.abs(cross),
      false,
    );
  }

  /** One step that holds its height towards a heading: `metres` forward, losing height as contouring does. */
  contour(metres: number, meant: number): void {
    const w = this.world;
    const cell = this.cell;
    const east = w.eastward[cell]!;
    const north = w.northward[cell]!;
    const steep = Math.sqrt(east * east + north * north);
    if (!(steep > 0.02)) {
      this.walk(metres);
      return;
    }
    // along the contour, on the side that is nearer to where one wants to go
    let ux = -north / steep;
    let uy = east / steep;
    if (ux * sin(meant) + uy * cos(meant) < 0) {
      ux = -ux;
      uy = -uy;
    }
    const n = w.navigator;
    const z = (this.mute & MUTE_STEP) !== 0 ? 0 : nextNormal(this.steps);
    const half = n.altimeter ? 0.5 : 1;
    // height change = (mean + SD·z)·tan(slope)/tan 20° per 100 m; sideways = height / tan(slope)
    const rise =
      half * ((n.contourMean + 0.6 * n.contourSd * this.contourZ) * (metres / 100)) +
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
      false,
    );
  }

  /** Steps straight at what is in view. */
  walkStraight(metres: number): void {
    const dx = this.unitX;
    const dy = this.unitY;
    this.advance(dx * metres, dy * metres, metres, dx, dy, 0, false);
  }

  /** Goes over to something in view, `metres` away, at the pace of the ground here. */
  approach(x: number, y: number, metres: number): void {
    const w = this.world;
    const slow = w.paceOff[PACE_MIDDLE]! * w.slowness[w.cover[this.cell]!]!;
    this.clock += (metres * slow) / (this.air.speedOff * this.daySpeed);
    this.walked += metres;
    this.place(x, y);
  }

  /**
   * Puts the body on a true line at the place nearest to it, walking towards `heading`. The way over takes its time; a line that
   * was crossed within the last step (`crossed`) gives back what was walked beyond it.
   */
  stepOn(line: number, heading: number, crossed = false): void {
    const w = this.world;
    const g = this.ground;
    g.line(line);
    const l = w.lines[line]!;
    const px = this.x - g.lineEast[line]!;
    const py = this.y - g.lineNorth[line]!;
    let best = Number.POSITIVE_INFINITY;
    let along = 0;
    for (let k = 0; k + 1 < l.x.length; k++) {
      const ax = l.x[k]!;
      const ay = l.y[k]!;
      const dx = l.x[k + 1]! - ax;
      const dy = l.y[k + 1]! - ay;
      const sq = dx * dx + dy * dy;
      let t = sq > 0 ? ((px - ax) * dx + (py - ay) * dy) / sq : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const ex = ax + dx * t - px;
      const ey = ay + dy * t - py;
      const d = ex * ex + ey * ey;
      if (d < best) {
        best = d;
        along = l.along[k]! + t * (l.along[k + 1]! - l.along[k]!);
      }
    }
    const low = g.lineStart[line]!;
    const high = g.lineEnd[line]!;
    this.lineAlong = along < low ? low : along > high ? high : along;
    this.lineSegment = segmentAt(l.along, this.lineAlong);
    const away = crossed ? -Math.sqrt(best) : Math.sqrt(best);
    this.moveToLine(line);
    this.clock += away * w.paceOff[PACE_MIDDLE]! * w.slowness[w.cover[this.cell]!]!;
    this.walked += away;
    const k = this.lineSegment;
    const forward = (l.x[k + 1]! - l.x[k]!) * sin(heading) + (l.y[k + 1]! - l.y[k]!) * cos(heading);
    this.lineSense = forward >= 0 ? 1 : -1;
    this.lineEnded = false;
    this.lineLost = false;
    const s = this.draws;
    startStream(s, this.seed, this.trial, FOLLOWING, l.key);
    const rate = (l.lossPerKm * w.navigator.handrailLoss) / 1000;
    this.lineLossIn =
      rate > 0 && (this.mute & MUTE_STEP) === 0 ? -ln(nextUniform(s)) / rate : Number.POSITIVE_INFINITY;
  }

  /** One step along the line underfoot; stops short where it ends or is lost. */
  follow(metres: number): void {
    const w = this.world;
    const l = w.lines[this.onLine]!;
    const g = this.ground;
    const end = this.lineSense > 0 ? g.lineEnd[this.onLine]! : g.lineStart[this.onLine]!;
    let ds = metres;
    const left = Math.abs(end - this.lineAlong);
    if (left <= ds) {
      ds = left;
      this.lineEnded = true;
    }
    const fade = ds * this.air.handrail;
    if (this.lineLossIn <= fade) {
      this.lineLost = true;
      this.lineLossIn = Number.POSITIVE_INFINITY;
    } else this.lineLossIn -= fade;
    const oldX = this.x;
    const oldY = this.y;
    this.lineAlong += this.lineSense * ds;
    let k = this.lineSegment;
    while (k > 0 && this.lineAlong < l.along[k]!) k--;
    while (k + 2 < l.along.length && this.lineAlong > l.along[k + 1]!) k++;
    this.lineSegment = k;
    const span = l.along[k + 1]! - l.along[k]!;
    const t = span > 0 ? (this.lineAlong - l.along[k]!) / span : 0;
    const toX = l.x[k]! + (l.x[k + 1]! - l.x[k]!) * t + g.lineEast[this.onLine]!;
    const toY = l.y[k]! + (l.y[k + 1]! - l.y[k]!) * t + g.lineNorth[this.onLine]!;
    const dx = toX - oldX;
    const dy = toY - oldY;
    const d = Math.sqrt(dx * dx + dy * dy);
    const on = this.onLine;
    this.advance(
      dx,
      dy,
      ds,
      d > 0 ? dx / d : 0,
      d > 0 ? dy / d : 0,
      0,
      l.isPath,
      l.gradient[k]! * this.lineSense,
    );
    this.onLine = on;
  }

  /** True direction of the line underfoot as it is walked, radians. */
  lineDirection(): number {
    const l = this.world.lines[this.onLine]!;
    const k = this.lineSegment;
    return atan2((l.x[k + 1]! - l.x[k]!) * this.lineSense, (l.y[k + 1]! - l.y[k]!) * this.lineSense);
  }

  private moveToLine(line: number): void {
    const l = this.world.lines[line]!;
    const k = this.lineSegment;
    const span = l.along[k + 1]! - l.along[k]!;
    const t = span > 0 ? (this.lineAlong - l.along[k]!) / span : 0;
    this.onLine = line;
    this.fromX = this.x;
    this.fromY = this.y;
    this.x = l.x[k]! + (l.x[k + 1]! - l.x[k]!) * t + this.ground.lineEast[line]!;
    this.y = l.y[k]! + (l.y[k + 1]! - l.y[k]!) * t + this.ground.lineNorth[line]!;
    this.feel();
  }

  private advance(
    dx: number,
    dy: number,
    metres: number,
    alongX: number,
    alongY: number,
    cross: number,
    path: boolean,
    graded = Number.NaN,
  ): void {
    const w = this.world;
    const cell = this.cell;
    const air = this.air;
    const east = w.eastward[cell]!;
    const north = w.northward[cell]!;
    let row = PACE_MIDDLE;
    const gradient = Number.isNaN(graded) ? east * alongX + north * alongY : graded;
    if (!Number.isNaN(gradient)) {
      row = Math.round((gradient + 2) * PACE_ROW);
      row = row < 0 ? 0 : row > PACE_LAST ? PACE_LAST : row;
    }
    let seconds: number;
    if (path) seconds = (metres * w.paceOn[row]!) / air.speedOn;
    else {
      const side = w.sideSpeed[cross > 1 ? 64 : Math.round(cross * 64)]!;
      seconds = (metres * w.paceOff[row]! * w.slowness[w.cover[cell]!]!) / (air.speedOff * side);
    }
    this.clock += seconds / this.daySpeed;
    this.walked += metres;
    this.fromX = this.x;
    this.fromY = this.y;
    this.x += dx;
    this.y += dy;
    this.feel();
  }

  /** Looks up what the new place does to the party: air, surface, hazard. */
  private feel(): void {
    const w = this.world;
    const cell = cellAt(w.grid, this.x, this.y);
    if (cell < 0 || Number.isNaN(w.elevation[cell]!)) {
      this.offMap = true;
      return;
    }
    this.cell = cell;
    const air = w.elevation[cell]! >= this.cloudBase ? w.high : w.low;
    this.air = air;
    const path = this.onLine >= 0 && w.lines[this.onLine]!.isPath;
    const surface = path ? 0 : w.cover[cell]!;
    this.feltBearing = path ? air.bearingOn : air.bearingOff;
    let pace = (path ? air.paceOn : air.paceOff) * w.roughPace[surface]!;
    if (!path) {
      const cross = Math.abs(w.northward[cell]! * this.unitX - w.eastward[cell]! * this.unitY);
      if (cross > 0) pace *= w.sidePace[cross > 1 ? 64 : Math.round(cross * 64)]!;
    }
    this.feltPace = pace < 3 ? pace : 3;
    this.feltWander = w.roughWander[surface]!;
    // a path by a drop is where people walk; off it the buffer holds
    if (!path && w.hazard !== null && w.hazard[cell] === 1) this.hazard = true;
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
