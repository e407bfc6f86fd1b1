import type { PlannedLeg } from './planned-leg.ts';
import { UNSET } from './unset.ts';
import type { Air, Line, Navigator, Spot, World } from './world.ts';

/*
 * The engine compiles a walk for the shapes of the objects that it meets. Lines that came by message, from the map and under other
 * assumptions are different to it, and each new sort throws compiled code away; so what a walk reads is copied here, by one literal each.
 */

export function lineInShape(l: Line): Line {
  return {
    index: l.index,
    feature: l.feature,
    key: l.key,
    family: l.family,
    x: l.x,
    y: l.y,
    along: l.along,
    unitX: l.unitX,
    unitY: l.unitY,
    boxes: l.boxes,
    gradient: l.gradient,
    mapStart: l.mapStart,
    mapEnd: l.mapEnd,
    startShift: l.startShift,
    endShift: l.endShift,
    downSense: l.downSense,
    exists: l.exists,
    sd: l.sd,
    lossPerKm: l.lossPerKm,
    isPath: l.isPath,
    forks: l.forks,
    noticedLow: l.noticedLow,
    noticedHigh: l.noticedHigh,
  };
}

function spotInShape(s: Spot): Spot {
  return {
    index: s.index,
    feature: s.feature,
    key: s.key,
    x: s.x,
    y: s.y,
    exists: s.exists,
    sd: s.sd,
    halfLow: s.halfLow,
    halfHigh: s.halfHigh,
    hiddenByGround: s.hiddenByGround,
    recognised: s.recognised,
    line: s.line,
    lineAlong: s.lineAlong,
    shift: s.shift,
    branches: s.branches,
    landmark: s.landmark,
    unmapped: s.unmapped,
  };
}

function airInShape(a: Air): Air {
  return {
    visibility: a.visibility,
    speedOn: a.speedOn,
    speedOff: a.speedOff,
    bearingOn: a.bearingOn,
    bearingOff: a.bearingOff,
    paceOn: a.paceOn,
    paceOff: a.paceOff,
    detection: a.detection,
    handrail: a.handrail,
    junction: a.junction,
  };
}

function navigatorInShape(n: Navigator): Navigator {
  return {
    bearing: n.bearing,
    wander: n.wander,
    wanderBlind: n.wanderBlind,
    pace: n.pace,
    miscountPerMetre: n.miscountPerMetre,
    timing: n.timing,
    timingBias: n.timingBias,
    drift: n.drift,
    reverse: n.reverse,
    slip: n.slip,
    declination: n.declination,
    contourMean: n.contourMean,
    contourSd: n.contourSd,
    aspect: n.aspect,
    noticed: n.noticed,
    overrun: n.overrun,
    lookalike: n.lookalike,
    admitsLost: n.admitsLost,
    junction: n.junction,
    handrailLoss: n.handrailLoss,
    speedSd: n.speedSd,
    searchSpeed: n.searchSpeed,
    sweepSpeed: n.sweepSpeed,
    compass: n.compass,
    altimeter: n.altimeter,
  };
}

export function legInShape(p: PlannedLeg): PlannedLeg {
  return {
    number: p.number,
    technique: p.technique,
    x: p.x,
    y: p.y,
    metres: p.metres,
    toSpot: p.toSpot,
    toTarget: p.toTarget,
    line: p.line,
    fromAlong: p.fromAlong,
    toAlong: p.toAlong,
    wantedAlong: p.wantedAlong,
    offset: p.offset,
    ticks: p.ticks,
    catching: p.catching,
    fine: p.fine,
    drawKey: p.drawKey,
    families: p.families,
    lines: p.lines,
    likes: p.likes,
    likesCairn: p.likesCairn,
    counts: p.counts,
    row: p.row,
  };
}

/** A copy in which these properties hold a fraction: the first of its kind tells the engine to expect them. */
function withFractions<T extends object>(source: T, names: readonly (keyof T)[]): T {
  const copy = { ...source };
  for (const name of names) (copy as Record<keyof T, unknown>)[name] = UNSET;
  return copy;
}

/** The same world; its arrays and features are shared, not copied. */
export function worldInShape(w: World): World {
  const { lines, spots, navigator, low, high } = w;
  if (lines[0] !== undefined) lineInShape(withFractions(lines[0], LINE_FRACTIONS));
  spotInShape(withFractions(spots[0]!, SPOT_FRACTIONS));
  navigatorInShape(withFractions(navigator, numbersOf(navigator)));
  airInShape(withFractions(low, numbersOf(low)));
  return {
    seed: w.seed,
    grid: w.grid,
    elevation: w.elevation,
    cells: w.cells,
    paceOff: w.paceOff,
    paceOn: w.paceOn,
    slowness: w.slowness,
    roughWander: w.roughWander,
    roughPace: w.roughPace,
    roughDetection: w.roughDetection,
    sideSpeed: w.sideSpeed,
    sidePace: w.sidePace,
    low: airInShape(low),
    high: airInShape(high),
    cloudBase: w.cloudBase,
    cloudBaseSd: w.cloudBaseSd,
    windEast: w.windEast,
    windNorth: w.windNorth,
    wind: w.wind,
    navigator: navigatorInShape(navigator),
    lines: lines.map(lineInShape),
    spots: spots.map(spotInShape),
    lineById: w.lineById,
    spotById: w.spotById,
    landmarks: w.landmarks,
    target: w.target,
    targetLikes: w.targetLikes,
    onlyTarget: w.onlyTarget,
    wayBack: w.wayBack,
    startX: w.startX,
    startY: w.startY,
    startSpot: w.startSpot,
    rivuletsPer100: w.rivuletsPer100,
    rivuletsAlike: w.rivuletsAlike,
    trodsPerM2: w.trodsPerM2,
    cairnsPerM2: w.cairnsPerM2,
    cairnHalfLow: w.cairnHalfLow,
    cairnHalfHigh: w.cairnHalfHigh,
    lateralLaw: w.lateralLaw,
    declinationAngle: w.declinationAngle,
    limitSeconds: w.limitSeconds,
    turnRoundSeconds: w.turnRoundSeconds,
    searchSeconds: w.searchSeconds,
    relaunches: w.relaunches,
    abreast: w.abreast,
    stepMetres: w.stepMetres,
  };
}

const LINE_FRACTIONS = [
  'mapStart',
  'mapEnd',
  'exists',
  'sd',
  'lossPerKm',
  'noticedLow',
  'noticedHigh',
] as const;
const SPOT_FRACTIONS = ['x', 'y', 'exists', 'sd', 'halfLow', 'halfHigh', 'recognised', 'lineAlong'] as const;

function numbersOf<T extends object>(source: T): (keyof T)[] {
  return (Object.keys(source) as (keyof T)[]).filter((key) => typeof source[key] === 'number');
}
