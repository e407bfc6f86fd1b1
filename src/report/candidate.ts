import { magneticBearingDegrees, type Norths, northsAt } from '../conditions/norths.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { PLAIN_READING } from '../door/reading.ts';
import { sample } from '../grid/raster.ts';
import { degreesOf } from '../math/bearing.ts';
import type { Point } from '../math/plane.ts';
import { wilson } from '../math/proportion.ts';
import { countOf, type Histogram, meanSeconds, percentileSeconds } from '../math/quantile.ts';
import { figuresOf, profileOf, routeFigures, type Walking, walkingOf } from '../route/figures.ts';
import type { Leg } from '../route/leg.ts';
import { simplified } from '../route/line-steps.ts';
import { endText, routeLine, saysOf, startText } from '../route/says.ts';
import { whyOf } from '../route/why.ts';
import { routeWords } from '../route/words.ts';
import type { Walked } from '../study/compare.ts';
import type { Told } from '../study/sample-walks.ts';
import type { Task } from '../study/task.ts';
import type { WayOut } from '../study/way-out.ts';
import { REASON_ORDER, type ReasonTally } from '../walk/reasons.ts';
import type { Story } from '../walk/story.ts';
import { hitsOf, type Tally } from '../walk/tally.ts';
import { legNotes } from './leg-notes.ts';
import {
  type Candidate,
  OUTCOMES,
  type Outcome,
  type Reason,
  type ReportLeg,
  type SampleWalk,
} from './report.ts';
import { reportSentences } from './words.ts';

/** Places in the report are kept to a decimetre, shares to 1e-6. */
const DECIMETRE = 10;

/** What was walked beside the counted attempts. */
export interface Beside {
  readonly told?: Told | undefined;
  readonly wayOut?: WayOut | null | undefined;
}

/** Everything that the report says of one route. */
export function candidateOf(
  walked: Walked,
  place: number,
  task: Task,
  ground: MappedGround,
  { told, wayOut }: Beside = {},
): Candidate {
  const { route, tally } = walked;
  const walking = walkingOf(ground, task);
  const norths = northsOf(task, ground);
  const trials = tally.to - tally.from;
  const hits = hitsOf(tally);
  const { low, high } = wilson(hits, trials);
  const whole = routeFigures(route.legs, walking);
  const legs = route.legs.map((leg, i) => ({
    ...legOf(walked, leg, i, task, ground, walking, norths),
    ...legNotes(leg, ground, told?.legSeconds[i], routeWords(task.reading)),
  }));
  const outcomes = outcomesOf(tally);
  return {
    id: route.id,
    letter: String.fromCharCode(65 + (place % 26)),
    name: route.name,
    origin: route.origin,
    strategy: route.strategy,
    why: whyOf(
      route,
      { share: hits / trials, falseFindShare: outcomes.falseFind, lateShare: outcomes.late, legs },
      ground,
      task,
    ),
    distanceMetres: Math.round(whole.distanceMetres),
    climbMetres: Math.round(whole.climbMetres),
    descentMetres: Math.round(whole.descentMetres),
    minutes: {
      p10: minutesAt(tally.allSeconds, 0.1),
      p50: minutesAt(tally.allSeconds, 0.5),
      p90: minutesAt(tally.allSeconds, 0.9),
      mean: decimal(meanSeconds(tally.allSeconds) / 60, 100),
    },
    success: { trials, hits, share: hits / trials, low, high },
    outcomes,
    // the setting as it stands is one of the sample, seen with fewer attempts: the range never excludes the share itself
    assumption: {
      low: Math.min(walked.range.low, hits / trials),
      high: Math.max(walked.range.high, hits / trials),
    },
    foundBy: foundByCurve(tally),
    legs,
    line: points(routeLine(route.legs)),
    profile: thinned(profileOf(route.legs, walking)),
    endPoints: endPointsOf(tally),
    hazard: ground.hazardsMapped ? { share: tally.hazard / trials } : 'not assessed',
    ...(wayOut === undefined || wayOut === null ? {} : { wayOut: wayOutIn(wayOut, ground, task, walking) }),
    ...(told === undefined || told.walks.length === 0 ? {} : { walks: told.walks.map(walkIn) }),
  };
}

function wayOutIn(
  { route, trials, hazardTrials }: WayOut,
  ground: MappedGround,
  task: Task,
  walking: Walking,
): NonNullable<Candidate['wayOut']> {
  const { distanceMetres } = routeFigures(route.legs, walking);
  const minutes = route.legs.reduce((sum, leg) => sum + figuresOf(leg, walking).minutes, 0);
  const back = { ...task, start: task.target, target: { at: task.start.at, feature: task.start.feature! } };
  // each leg is a sentence; here they are parts of one
  const steps = route.legs.map((leg) =>
    saysOf(leg, figuresOf(leg, walking), ground, back).replace(/\.$/, ''),
  );
  const { wayOut } = reportSentences(task.reading ?? PLAIN_READING);
  return {
    says: wayOut(task.start.feature, distanceMetres, Math.round(minutes), steps),
    trials,
    hazardTrials,
  };
}

/** Tracks keep what matters at 3 m, which no map here shows. */
const TRACK_METRES = 3;

function walkIn(story: Story): SampleWalk {
  const line = (track: Story['track']) =>
    simplified(track, TRACK_METRES).map((p): Point => [Math.round(p[0]), Math.round(p[1])]);
  return {
    trial: story.trial,
    outcome: OUTCOMES[story.outcome]!,
    minutes: decimal(story.seconds / 60, 10),
    events: story.events.map((e) => ({
      kind: e.kind,
      leg: e.leg + 1,
      minutes: decimal(e.seconds / 60, 10),
      at: e.at,
      believed: e.believed,
      sdMetres: e.sdMetres,
    })),
    track: line(story.track),
    believedTrack: line(story.believedTrack),
  };
}

/** The norths at the start of the task; null without a date. */
export function northsOf(task: Task, ground: MappedGround): Norths | null {
  const { date } = task.conditions;
  if (date === null) return null;
  const [east, north] = task.start.at;
  const height = sample(ground.terrain.elevation, east, north);
  return northsAt(ground.terrain.crs, task.start.at, height, date);
}

function legOf(
  walked: Walked,
  leg: Leg,
  i: number,
  task: Task,
  ground: MappedGround,
  walking: Walking,
  norths: Norths | null,
): ReportLeg {
  const { tally, reasons, route } = walked;
  const figures = figuresOf(leg, walking);
  const grid = degreesOf(figures.gridBearing);
  const trials = tally.to - tally.from;
  return {
    technique: leg.technique,
    from: startText(route.legs[i - 1], ground, task),
    to: endText(leg, ground, task),
    says: saysOf(leg, figures, ground, task),
    gridBearingDegrees: decimal(grid, 10),
    magneticBearingDegrees: norths === null ? null : decimal(magneticBearingDegrees(grid, norths), 10),
    distanceMetres: Math.round(figures.distanceMetres),
    climbMetres: Math.round(figures.climbMetres),
    descentMetres: Math.round(figures.descentMetres),
    doublePaces: figures.doublePaces,
    minutes: decimal(figures.minutes, 10),
    lostHereShare: tally.lostOnLeg[i]! / trials,
    reasons: reasonsOf(reasons, i),
    ticks: leg.ticks.map((t) => {
      const feature = ground.byId.get(t.feature);
      return {
        name: feature === undefined ? t.feature : routeWords(task.reading).feature(feature),
        atMetres: Math.round(t.atMetres),
      };
    }),
    path: points(leg.path),
  };
}

/** Shares of the lost attempts that were walked again, by reason, for one leg. */
function reasonsOf(reasons: ReasonTally, leg: number): Partial<Record<Reason, number>> {
  const of: Partial<Record<Reason, number>> = {};
  if (reasons.looked === 0) return of;
  REASON_ORDER.forEach((reason, k) => {
    const count = reasons.counts[leg * REASON_ORDER.length + k]!;
    if (count > 0) of[reason] = count / reasons.looked;
  });
  return of;
}

function outcomesOf(tally: Tally): Record<Outcome, number> {
  const trials = tally.to - tally.from;
  return Object.fromEntries(OUTCOMES.map((o, k) => [o, tally.outcomes[k]! / trials])) as Record<
    Outcome,
    number
  >;
}

/** Share of all attempts that have found the target within so many whole minutes. */
function foundByCurve(tally: Tally): [number, number][] {
  const trials = tally.to - tally.from;
  const curve: [number, number][] = [];
  let found = 0;
  const total = countOf(tally.foundSeconds);
  const started = tally.foundSeconds.findIndex((n) => n > 0);
  if (started < 0) return [[0, 0]];
  const from = Math.max(0, Math.floor(started / 60) - 1);
  curve.push([from, 0]);
  let second = from * 60 + 1;
  for (let minute = from + 1; found < total; minute++) {
    for (; second <= minute * 60; second++) found += tally.foundSeconds[second] ?? 0;
    curve.push([minute, found / trials]);
  }
  return curve;
}

function endPointsOf(tally: Tally): Candidate['endPoints'] {
  const ends: { at: [number, number]; outcome: Outcome }[] = [];
  for (let k = 0; k + 2 < tally.ends.length; k += 3) {
    const at: [number, number] = [decimal(tally.ends[k]!, DECIMETRE), decimal(tally.ends[k + 1]!, DECIMETRE)];
    ends.push({ at, outcome: OUTCOMES[tally.ends[k + 2]!]! });
  }
  return ends;
}

function minutesAt(histogram: Histogram, p: number): number {
  return decimal(percentileSeconds(histogram, p) / 60, 100);
}

function points(line: readonly (readonly [number, number])[]): [number, number][] {
  return line.map((p) => [decimal(p[0], DECIMETRE), decimal(p[1], DECIMETRE)]);
}

/** At most about 200 places of a profile, its ends among them. */
function thinned(profile: readonly (readonly [number, number])[]): [number, number][] {
  const every = Math.max(1, Math.ceil(profile.length / 200));
  return profile
    .filter((_, i) => i % every === 0 || i === profile.length - 1)
    .map(([d, z]) => [Math.round(d), decimal(z, 10)]);
}

function decimal(value: number, unit: number): number {
  return Math.round(value * unit) / unit;
}
