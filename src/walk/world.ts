import type { Feature } from '../features/feature.ts';
import type { Georeference, Raster } from '../grid/raster.ts';
import type { PlannedLeg } from './planned-leg.ts';

export const STREAM = 1;
export const WALL = 2;
export const FENCE = 3;
export const WAY = 4;
export const EDGE = 5;
export const CRAG = 6;
export const RIDGE = 7;

/** Segments to a box of a line. */
export const BOXED = 8;

/** A mapped line as the simulator holds it: flat vertices with metres along, and its doubt. */
export interface Line {
  readonly index: number;
  readonly feature: Feature;
  /** Hash of the id: the key of its draws. */
  readonly key: number;
  readonly family: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Metres along at each vertex. The geometry may be longer than the map's at either end, where a stream can run on. */
  readonly along: Float64Array;
  /** Unit vector of each segment as drawn; (0, 0) where two vertices are one. */
  readonly unitX: Float64Array;
  readonly unitY: Float64Array;
  /** West, south, east, north of every `BOXED` segments in turn, so that far stretches are passed over at a glance. */
  readonly boxes: Float64Array;
  /** Rise per metre of each segment as drawn. */
  readonly gradient: Float64Array;
  /** Metres along at which the mapped line begins and ends. */
  readonly mapStart: number;
  readonly mapEnd: number;
  /** How far each end may shift along the line: mean and SD in metres, + = longer. */
  readonly startShift: Shift;
  readonly endShift: Shift;
  /** Streams: +1 when it flows as drawn, −1 against; 0 for other lines. */
  readonly downSense: number;
  readonly exists: number;
  readonly sd: number;
  /** Loss per km when followed as a handrail. */
  readonly lossPerKm: number;
  /** Walking on it counts as path. */
  readonly isPath: boolean;
  /** Spots on it where one may turn wrong. */
  readonly forks: readonly number[];
  /** Metres from which it is noticed on the low and the high side of the cloud base. */
  readonly noticedLow: number;
  readonly noticedHigh: number;
}

export interface Shift {
  readonly mean: number;
  readonly sd: number;
}

/** A mapped point (or the middle of a small area): something that can be seen, recognised and mistaken. */
export interface Spot {
  readonly index: number;
  readonly feature: Feature;
  readonly key: number;
  readonly x: number;
  readonly y: number;
  readonly exists: number;
  readonly sd: number;
  /** Half sweep width in metres below and above the cloud base, without line of sight. */
  readonly halfLow: number;
  readonly halfHigh: number;
  /** Rough ground makes it harder to see; a stated sweep width holds as it is. */
  readonly hiddenByGround: boolean;
  /** Chance to recognise it once seen. */
  readonly recognised: number;
  /** The line it lies on and where, for ends, confluences, junctions and crossings; −1 when it stands alone. */
  readonly line: number;
  readonly lineAlong: number;
  /** Mean and SD of its shift along the line, metres, + = towards higher `along`. */
  readonly shift: Shift;
  /** Lines that part here, where one may turn wrong. */
  readonly branches: readonly number[];
  /** Recognisable from afar: fixes the belief. */
  readonly landmark: boolean;
  /** No map shows it: another like thing beside one, an extra member of a row. */
  readonly unmapped: boolean;
}

/** What the air and the day do on one side of the cloud base. */
export interface Air {
  readonly visibility: number;
  readonly speedOn: number;
  readonly speedOff: number;
  readonly bearingOn: number;
  readonly bearingOff: number;
  readonly paceOn: number;
  readonly paceOff: number;
  readonly detection: number;
  /** Multiplier on the loss of handrails and on wrong turns. */
  readonly handrail: number;
  readonly junction: number;
}

/** The numbers of a party, in radians, metres and seconds. */
export interface Navigator {
  readonly bearing: number;
  /** Wander in metres per √(100 m) where marks can be had, and where not. */
  readonly wander: number;
  readonly wanderBlind: number;
  readonly pace: number;
  readonly miscountPerMetre: number;
  readonly timing: number;
  readonly timingBias: number;
  readonly drift: number;
  readonly reverse: number;
  readonly slip: number;
  readonly declination: number;
  readonly contourMean: number;
  readonly contourSd: number;
  readonly aspect: number;
  readonly noticed: number;
  readonly overrun: number;
  readonly lookalike: number;
  readonly admitsLost: number;
  readonly junction: number;
  readonly handrailLoss: number;
  readonly speedSd: number;
  readonly searchSpeed: number;
  readonly sweepSpeed: number;
  readonly compass: boolean;
  readonly altimeter: boolean;
}

/** Added to the surface code of a cell that lies in the hazard buffer. */
export const IN_HAZARD = 64;

/** Everything a simulation needs, prepared once per task; read only, so that workers and trials share it. */
export interface World {
  readonly seed: number;
  readonly grid: Georeference;
  readonly elevation: Raster;
  /**
   * Four numbers a cell, side by side so that a step touches one line of memory: rise per metre eastward and northward (0
   * where unknown), height (NaN where missing), surface code (+ `IN_HAZARD` within the buffer of a hazard or on too steep ground).
   */
  readonly cells: Float32Array;
  /** Seconds per metre by gradient, see `speed/pace-table.ts`. */
  readonly paceOff: Float32Array;
  readonly paceOn: Float32Array;
  /** Per surface code: slowness relative to paceOff, and the factors on wander, pace and detection. */
  readonly slowness: Float64Array;
  readonly roughWander: Float64Array;
  readonly roughPace: Float64Array;
  readonly roughDetection: Float64Array;
  /** Side slope tables by tangent, 64 per unit: speed and pace factors. */
  readonly sideSpeed: Float64Array;
  readonly sidePace: Float64Array;
  readonly low: Air;
  readonly high: Air;
  /** Mean and SD of the cloud base; +Infinity when there is none. */
  readonly cloudBase: number;
  readonly cloudBaseSd: number;
  /** Side push of the wind: radians of bias for a party walking east and north, by components. */
  readonly windEast: number;
  readonly windNorth: number;
  readonly wind: { readonly metresPerSecond: number; readonly fromDegrees: number };
  readonly navigator: Navigator;
  readonly lines: readonly Line[];
  readonly spots: readonly Spot[];
  readonly lineById: ReadonlyMap<string, number>;
  readonly spotById: ReadonlyMap<string, number>;
  /** Spots that are recognised from afar. */
  readonly landmarks: readonly number[];
  readonly target: number;
  /** Spots that could be taken for the target, itself first. */
  readonly targetLikes: readonly number[];
  readonly onlyTarget: readonly number[];
  /** The leg back to a known point, its ends filled in when it is walked. */
  readonly wayBack: PlannedLeg;
  /** Where the party stands at the start, and the spot or line it stands at (−1 in the open). */
  readonly startX: number;
  readonly startY: number;
  readonly startSpot: number;
  /** Unmapped rivulets per 100 m crossed and the share of them that look like a stream. */
  readonly rivuletsPer100: number;
  readonly rivuletsAlike: number;
  /** Unmapped trods and cairns per square metre. */
  readonly trodsPerM2: number;
  readonly cairnsPerM2: number;
  /** How far a cairn shows below and above the cloud base (half its sweep width), metres. */
  readonly cairnHalfLow: number;
  readonly cairnHalfHigh: number;
  readonly lateralLaw: boolean;
  /** Radians between the needle corrected wrongly and grid north. */
  readonly declinationAngle: number;
  readonly limitSeconds: number;
  readonly turnRoundSeconds: number;
  readonly searchSeconds: number;
  readonly relaunches: number;
  readonly abreast: number;
  readonly stepMetres: number;
}
