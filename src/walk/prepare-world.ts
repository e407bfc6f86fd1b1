import { type Air as DayAir, dayFactors } from '../conditions/factors.ts';
import { northsAt } from '../conditions/norths.ts';
import {
  RIVULET_ALIKE_SHARE,
  RIVULETS_PER_100,
  sideSlopePace,
  sideSlopeSpeed,
  surfaceFactors,
} from '../conditions/underfoot.ts';
import { paintCover } from '../cost/cover.ts';
import { hazardBuffer } from '../cost/hazard.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { defaultDoubt, EXTRAS_PER_KM2 } from '../features/doubt.ts';
import { sample } from '../grid/raster.ts';
import { RADIANS } from '../math/bearing.ts';
import { type Point, squareToSegment } from '../math/plane.ts';
import { cos, sin, tan } from '../math/portable.ts';
import { bearingSdRadians, wanderMetres } from '../party/straight-leg.ts';
import type { Errand } from '../route/drawn.ts';
import { detectionFactor, detectionRange } from '../seeing/range.ts';
import { halfWidth } from '../seeing/sweep.ts';
import { speedModel } from '../speed/models.ts';
import { paceTable, surfaceSlowness } from '../speed/pace-table.ts';
import { SURFACES } from '../terrain/terrain.ts';
import { MOST_TOLD_APART, nearestLines } from './nearest-lines.ts';
import { worldInShape } from './one-shape.ts';
import { type Air, IN_HAZARD, type Navigator, type Spot, STREAM, type World } from './world.ts';
import { linesOf } from './world-lines.ts';
import { alikeSpots, spotsOf } from './world-spots.ts';

/** SD of the cloud base about its mean, metres. Common practice, no source. */
const CLOUD_BASE_SD = 30;
/** Side push of a wind straight across, radians per m/s: 1° at 14 m/s. Common practice, no source. */
const SIDE_PUSH = RADIANS / 14;
const STEP = 10;
/** Without a limit a task ends after this, seconds. */
const NO_LIMIT = 8 * 3600;

/** What `prepareWorld` needs of a task besides the errand. */
export interface WalkSettings {
  readonly seed: number;
  readonly seeing: 'definite' | 'lateral';
  /** Steps of the walk in metres; 10 unless a study of the step itself asks otherwise. */
  readonly stepMetres?: number;
}

/** Flattens ground, day and party into the arrays that walking needs. The same inputs give the same world, bit for bit. */
export function prepareWorld(ground: MappedGround, errand: Errand, settings: WalkSettings): World {
  const { terrain } = ground;
  // a made way is underfoot where it really lies, if it is there: lines say so, not the cover
  const withoutWays = paintCover(
    terrain.elevation,
    ground.features.filter((f) => f.geometry.type === 'area'),
  );
  const { conditions, party, limits } = errand;
  const day = dayFactors(conditions);
  const model = speedModel(party.speed);
  const lines = linesOf(ground, conditions);
  const spots = spotsOf(ground, errand, lines);
  const spotById = new Map(spots.map((s) => [s.feature.id, s.index]));
  const target = spotById.get(errand.target.feature.id)!;
  const forks = lines.map((): number[] => []);
  for (const s of spots) for (const branch of s.branches) forks[branch]!.push(s.index);
  const forked = lines.map((l) => ({ ...l, forks: forks[l.index]! }));
  const towards = (conditions.wind.fromDegrees + 180) * RADIANS;
  const push = SIDE_PUSH * conditions.wind.metresPerSecond;
  const likes = [target, ...alikeSpots(spots, target)];
  return worldInShape({
    seed: settings.seed,
    grid: {
      crs: terrain.crs,
      west: terrain.elevation.west,
      north: terrain.elevation.north,
      cell: terrain.elevation.cell,
      columns: terrain.elevation.columns,
      rows: terrain.elevation.rows,
    },
    elevation: terrain.elevation,
    cells: cellsOf(ground, withoutWays.data, hazardCells(ground, errand)),
    paceOff: paceTable(model, false),
    paceOn: paceTable(model, true),
    slowness: Float64Array.from(SURFACES, (s) => surfaceSlowness(model, s)),
    roughWander: Float64Array.from(SURFACES, (s) => surfaceFactors(s).wander),
    roughPace: Float64Array.from(SURFACES, (s) => surfaceFactors(s).pace),
    roughDetection: Float64Array.from(SURFACES, (s) => surfaceFactors(s).detection),
    sideSpeed: Float64Array.from({ length: 65 }, (_, i) => sideSlopeSpeed(i / 64, 1)),
    sidePace: Float64Array.from({ length: 65 }, (_, i) => sideSlopePace(i / 64, 1)),
    low: airOf(day.below),
    high: airOf(day.above),
    cloudBase: conditions.visibility.cloudBase ?? Number.POSITIVE_INFINITY,
    cloudBaseSd: CLOUD_BASE_SD,
    windEast: push * sin(towards),
    windNorth: push * cos(towards),
    wind: conditions.wind,
    navigator: navigatorOf(errand),
    lines: forked,
    spots,
    lineById: new Map(lines.map((l) => [l.feature.id, l.index])),
    spotById,
    landmarks: landmarksOf(spots, errand.start.at, errand.target.at),
    target,
    targetLikes: likes,
    onlyTarget: [target],
    wayBack: wayBack(lines, target, [errand.start.at, errand.target.at]),
    startX: errand.start.at[0],
    startY: errand.start.at[1],
    startSpot: errand.start.feature === null ? -1 : (spotById.get(errand.start.feature.id) ?? -1),
    rivuletsPer100: RIVULETS_PER_100[conditions.ground],
    rivuletsAlike: RIVULET_ALIKE_SHARE,
    trodsPerM2: (EXTRAS_PER_KM2.trod ?? 0) / 1e6,
    cairnsPerM2: (EXTRAS_PER_KM2.cairn ?? 0) / 1e6,
    cairnHalfLow: cairnHalf(errand, day.below),
    cairnHalfHigh: cairnHalf(errand, day.above),
    lateralLaw: settings.seeing === 'lateral',
    declinationAngle: needleError(ground, errand),
    limitSeconds: limits.minutes === null ? NO_LIMIT : limits.minutes * 60,
    turnRoundSeconds:
      limits.turnRoundMinutes === null ? Number.POSITIVE_INFINITY : limits.turnRoundMinutes * 60,
    searchSeconds: limits.searchMinutes * 60,
    relaunches: limits.relaunches,
    abreast: Math.max(1, Math.min(limits.searchPeopleAbreast, party.people)),
    stepMetres: settings.stepMetres ?? STEP,
  });
}

function cellsOf(ground: MappedGround, cover: Uint8Array, hazard: Uint8Array | null): Float32Array {
  const { eastward, northward } = ground.relief;
  const heights = ground.terrain.elevation.data;
  const cells = new Float32Array(4 * heights.length);
  for (let i = 0; i < heights.length; i++) {
    const known = !Number.isNaN(eastward.data[i]!);
    cells[4 * i] = known ? eastward.data[i]! : 0;
    cells[4 * i + 1] = known ? northward.data[i]! : 0;
    cells[4 * i + 2] = heights[i]!;
    cells[4 * i + 3] = cover[i]! + (hazard !== null && hazard[i] === 1 ? IN_HAZARD : 0);
  }
  return cells;
}

/** Half the sweep width of a cairn that no map shows, on open grass. */
function cairnHalf(errand: Errand, air: DayAir): number {
  const doubt = defaultDoubt('cairn');
  const { ground, light } = errand.conditions;
  const factor = detectionFactor('cairn', air, 1, ground);
  return halfWidth(doubt, detectionRange(doubt, air.visibilityMetres, factor, light));
}

function airOf(air: DayAir): Air {
  return {
    visibility: air.visibilityMetres,
    speedOn: air.onPath.speed,
    speedOff: air.offPath.speed,
    bearingOn: air.onPath.bearing,
    bearingOff: air.offPath.bearing,
    paceOn: air.onPath.pace,
    paceOff: air.offPath.pace,
    detection: air.offPath.detection,
    handrail: air.handrail,
    junction: air.junction,
  };
}

function navigatorOf(errand: Errand): Navigator {
  const { party } = errand;
  const s = party.set;
  return {
    bearing: bearingSdRadians(s),
    wander: wanderMetres(s, true),
    wanderBlind: wanderMetres(s, false),
    pace: s.paceShare,
    miscountPerMetre: s.miscountPerKm / 1000,
    timing: s.timingShare,
    timingBias: s.timingBiasShare,
    drift: s.driftDegrees * RADIANS,
    reverse: s.reverseShare,
    slip: s.slipShare,
    declination: s.declinationShare,
    contourMean: s.contourMetres.mean,
    contourSd: s.contourMetres.sd,
    aspect: s.aspectDegrees * RADIANS,
    noticed: s.noticedShare,
    overrun: s.overrun,
    lookalike: s.lookalikeShare,
    admitsLost: s.admitsLostShare,
    junction: s.junctionShare,
    handrailLoss: s.handrailLossPerKm,
    speedSd: s.speedShare,
    searchSpeed: s.searchMetresPerMinute / 60,
    sweepSpeed: (s.searchMetresPerMinute * 0.8) / 60,
    compass: party.compass,
    altimeter: party.altimeter,
  };
}

/** Angle that is wrong when the correction from grid to needle is left out, radians; 0 without a date. */
function needleError(ground: MappedGround, errand: Errand): number {
  const { date } = errand.conditions;
  if (date === null) return 0;
  const at = errand.start.at;
  const height = sample(ground.terrain.elevation, at[0], at[1]);
  const norths = northsAt(ground.terrain.crs, at, height, date);
  return (norths.declinationDegrees - norths.convergenceDegrees) * RADIANS;
}

/** 1 within the hazard buffer and on ground over the slope limit; null where no source maps hazards. */
function hazardCells(ground: MappedGround, errand: Errand): Uint8Array | null {
  if (!ground.hazardsMapped) return null;
  const { conditions, limits } = errand;
  const worst = Math.min(conditions.visibility.below, conditions.visibility.above);
  const buffer = hazardBuffer(worst, conditions.light);
  const steep = tan(limits.slopeDegrees * RADIANS);
  const { eastward, northward } = ground.relief;
  const cells = new Uint8Array(ground.hazard.data.length);
  for (let i = 0; i < cells.length; i++) {
    const e = eastward.data[i]!;
    const n = northward.data[i]!;
    if (ground.hazard.data[i]! <= buffer || e * e + n * n > steep * steep) cells[i] = 1;
  }
  return cells;
}

/** Spots that fix a belief from afar; on a crowded map those that show from farthest for the distance that they are from the way. */
function landmarksOf(spots: readonly Spot[], start: Point, target: Point): number[] {
  const marks = spots.filter((s) => s.landmark);
  if (marks.length > MOST_TOLD_APART) {
    const beyond = ({ x, y, halfLow, halfHigh }: Spot) =>
      Math.sqrt(squareToSegment(x - start[0], y - start[1], target[0] - start[0], target[1] - start[1])) -
      Math.max(halfLow, halfHigh);
    const order = new Map(marks.map((s) => [s, beyond(s)]));
    marks.sort((a, b) => order.get(a)! - order.get(b)! || a.index - b.index);
  }
  return marks
    .slice(0, MOST_TOLD_APART)
    .map((s) => s.index)
    .sort((a, b) => a - b);
}

/** The way back looks out for every sure line. */
function wayBack(lines: World['lines'], target: number, way: readonly Point[]): World['wayBack'] {
  const sure = lines.filter((l) => l.exists >= 0.9 && l.family !== STREAM);
  return {
    number: 0,
    technique: 'bearing',
    x: new Float64Array(1),
    y: new Float64Array(1),
    metres: 0,
    toSpot: -1,
    toTarget: false,
    line: -1,
    fromAlong: 0,
    toAlong: 0,
    wantedAlong: 0,
    offset: 0,
    ticks: [],
    catching: -1,
    fine: false,
    drawKey: 0,
    families: 0,
    lines: nearestLines(sure, way, MOST_TOLD_APART).map((l) => l.index),
    likes: [target],
    likesCairn: false,
    counts: 0,
    row: [],
  };
}
