import { timingBias } from '../conditions/wind.ts';
import { nextNormal } from '../math/normal.ts';
import { newStream, nextUniform, startStream } from '../math/random.ts';
import { DAY, LEG, MUTE_DAY, MUTE_LEG } from './keys.ts';
import { UNSET } from './unset.ts';
import type { World } from './world.ts';

/** Bearings that one leg may take before their keys meet those of another. */
const BEARINGS = 256;

/**
 * What the party gets wrong today: the errors of the day, which last, those of the leg, and those of each bearing taken. Body
 * turns them into metres; nobody else may know them.
 */
export class Errors {
  private readonly world: World;
  private seed = 0;
  private trial = 0;
  private mute = 0;
  /** 1/speed of the day against the usual. */
  slow = UNSET;
  private dayBearing = UNSET;
  private dayPace = UNSET;
  private dayDeclination = UNSET;
  private dayTiming = UNSET;
  /** Error of the bearing in hand, radians clockwise. */
  bias = UNSET;
  driftZ = UNSET;
  contourZ = UNSET;
  private paceZ = UNSET;
  private timingZ = UNSET;
  private windTiming = UNSET;
  /** Metres added to the count by a miscount on this leg; taken once. */
  miscount = 0;
  private readonly draws = newStream();

  constructor(world: World) {
    this.world = world;
  }

  begin(seed: number, trial: number, mute: number): void {
    const w = this.world;
    const n = w.navigator;
    this.seed = seed;
    this.trial = trial;
    this.mute = mute;
    const s = this.draws;
    startStream(s, seed, trial, DAY, 0);
    const speed = nextNormal(s);
    const bearing = nextNormal(s);
    const pace = nextNormal(s);
    const timing = nextNormal(s);
    const declination = nextUniform(s);
    const still = (mute & MUTE_DAY) !== 0;
    this.slow = still ? 1 : 1 / Math.max(0.5, 1 + n.speedSd * speed);
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
    this.miscount = 0;
    this.bias = 0;
    this.driftZ = 1;
    this.contourZ = 0;
    this.paceZ = 0;
    this.timingZ = 0;
    this.windTiming = 0;
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
  }

  /**
   * Takes a bearing: `heading` is meant, `number` says which bearing of the leg it is. With something known in view
   * (`sighted`) nobody sets it the wrong way round. Returns what is set on the compass, radians.
   */
  takeBearing(key: number, number: number, heading: number, sighted: boolean): number {
    const s = this.draws;
    startStream(s, this.seed, this.trial, LEG, (key * BEARINGS + number + 1) | 0x40000000);
    const n = this.world.navigator;
    const error = nextNormal(s);
    const reverse = nextUniform(s);
    const slip = nextUniform(s);
    const side = nextUniform(s);
    const still = (this.mute & MUTE_LEG) !== 0;
    this.bias = this.dayBearing + (still ? 0 : 0.6 * n.bearing * error);
    this.windTiming = this.world.wind.metresPerSecond > 0 ? timingBias(this.world.wind, heading) : 0;
    let meant = heading + this.dayDeclination;
    if (!still && !sighted) {
      if (reverse < n.reverse) meant += Math.PI;
      if (slip < n.slip) meant += side < 0.5 ? -Math.PI / 18 : Math.PI / 18;
    }
    return meant;
  }

  /** True metres that a count of one metre makes: the pace error of day and leg under the factor felt. */
  metresPerCount(felt: number): number {
    const r = 1 + this.paceZ * felt;
    return r < 0.2 ? 0.2 : r;
  }

  /** True metres walked while the clock says one metre should have been: timing is another instrument than pacing. */
  metresPerTimed(): number {
    const n = this.world.navigator;
    const r = 1 + n.timingBias + this.windTiming + n.timing * (0.943 * this.timingZ + 0.333 * this.dayTiming);
    return r < 0.2 ? 0.2 : r;
  }
}
