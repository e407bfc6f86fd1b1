import type { Conditions } from '../conditions/conditions.ts';
import { GROUNDS } from '../conditions/conditions.ts';
import { BEARINGS, LANGUAGES, type Reading, UNITS } from '../door/reading.ts';
import { UserError } from '../door/user-error.ts';
import { FEATURE_KINDS } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party, Skill } from '../party/party.ts';
import { SKILL_LEVELS } from '../party/party.ts';
import { TECHNIQUES } from '../route/leg.ts';
import type {
  Assumption,
  Candidate,
  Changes,
  Difference,
  Leaning,
  Outcome,
  PackedLayer,
  Report,
  ReportFeature,
  ReportLeg,
  SampleWalk,
  Split,
  WalkEvent,
  WorthChecking,
} from './report.ts';
import { OUTCOMES, REASONS, REPORT_VERSION } from './report.ts';
import {
  between,
  type Check,
  either,
  type Fields,
  finite,
  list,
  object,
  oneOf,
  optional,
  orNull,
  refuse,
  some,
  text,
  truth,
  whole,
} from './shape.ts';

const MANY = 200_000;
const share = between(0, 1);
const positive = between(0, Number.MAX_VALUE);
const texts = list(text, 1000);

const pair: Check<Point> = (value, at) => {
  if (!Array.isArray(value) || value.length !== 2) return refuse(at, value, 'two numbers');
  finite(value[0], `${at}[0]`);
  finite(value[1], `${at}[1]`);
  return value as unknown as Point;
};
const line = list(pair, MANY);

const skill: Fields<Skill> = {
  bearingDegrees: finite,
  resightDegrees: finite,
  wanderMetres: orNull(finite),
  paceShare: finite,
  miscountPerKm: finite,
  timingShare: finite,
  timingBiasShare: finite,
  driftDegrees: finite,
  reverseShare: finite,
  slipShare: finite,
  declinationShare: finite,
  contourMetres: object({ mean: finite, sd: finite }),
  aspectDegrees: finite,
  noticedShare: finite,
  recognisedShare: finite,
  overrun: finite,
  lookalikeShare: finite,
  admitsLostShare: finite,
  junctionShare: finite,
  handrailLossPerKm: finite,
  speedShare: finite,
  searchMetresPerMinute: finite,
};

const party: Check<Party> = object<Party>({
  skill: oneOf(SKILL_LEVELS),
  set: object(skill),
  people: whole(1, 1000),
  altimeter: truth,
  compass: truth,
  speed: either((v) => typeof v === 'string', text, object({ metresPerSecond: positive })),
  doublePacesPer100: positive,
});

const conditions: Check<Conditions> = object<Conditions>({
  visibility: object<Conditions['visibility']>({
    below: positive,
    above: positive,
    cloudBase: orNull(finite),
  }),
  ground: oneOf(GROUNDS),
  light: oneOf(['day', 'dark']),
  wind: object<Conditions['wind']>({ metresPerSecond: positive, fromDegrees: finite }),
  date: orNull(text),
});

const limits: Check<Limits> = object<Limits>({
  minutes: orNull(positive),
  searchMinutes: positive,
  relaunches: positive,
  searchPeopleAbreast: positive,
  turnRoundMinutes: orNull(positive),
  slopeDegrees: finite,
});

const assumption: Check<Assumption> = object<Assumption>({
  name: text,
  value: text,
  mark: oneOf(['published', 'common practice', 'derived', 'given in the task']),
  source: text,
});

const leg: Check<ReportLeg> = object<ReportLeg>({
  technique: oneOf(TECHNIQUES),
  from: text,
  to: text,
  says: text,
  gridBearingDegrees: finite,
  magneticBearingDegrees: orNull(finite),
  distanceMetres: positive,
  climbMetres: positive,
  descentMetres: positive,
  doublePaces: positive,
  minutes: positive,
  lostHereShare: share,
  reasons: some(REASONS, finite),
  ticks: list(object({ name: text, atMetres: finite }), 1000),
  path: line,
  stopByMinutes: optional(positive),
  aimOff: optional(object({ side: oneOf(['left', 'right']), metres: positive })),
  catching: optional(object({ name: text, beyondMetres: positive })),
  hazardSide: optional(oneOf(['left', 'right', 'both sides'])),
});

const outcomes: Check<Readonly<Record<Outcome, number>>> = object<Record<Outcome, number>>(
  Object.fromEntries(OUTCOMES.map((o) => [o, share])) as Fields<Record<Outcome, number>>,
);

const difference: Check<Difference> = object<Difference>({ difference: finite, low: finite, high: finite });
const split: Check<Split> = object<Split>({ trials: whole(0, 1e9), share, low: share, high: share });

const changes: Check<Changes> = object<Changes>({
  looked: whole(0, 1000),
  trials: whole(0, 1e9),
  helped: list(object({ kind: text, says: text, success: difference, minutes: difference }), 100),
});

const leaning: Check<Leaning> = object<Leaning>({ name: text, exists: share, there: split, gone: split });

const worthChecking: Check<WorthChecking> = object<WorthChecking>({
  name: text,
  exists: share,
  ifThere: text,
  ifGone: text,
  unknowing: text,
  gain: difference,
});

const walk: Check<SampleWalk> = object<SampleWalk>({
  trial: whole(0, 1e9),
  outcome: oneOf(OUTCOMES),
  minutes: positive,
  events: list(
    object<WalkEvent>({
      kind: text,
      leg: whole(1, 1000),
      minutes: positive,
      at: pair,
      believed: pair,
      sdMetres: positive,
    }),
    10_000,
  ),
  track: line,
  believedTrack: line,
});

const candidate: Check<Candidate> = object<Candidate>({
  id: text,
  letter: text,
  name: text,
  origin: oneOf(['drawn', 'found']),
  strategy: text,
  why: optional(text),
  distanceMetres: positive,
  climbMetres: positive,
  descentMetres: positive,
  minutes: object({ p10: positive, p50: positive, p90: positive, mean: positive }),
  success: object({ trials: whole(1, 1e9), hits: whole(0, 1e9), share, low: share, high: share }),
  outcomes,
  assumption: optional(object({ low: share, high: share })),
  foundBy: list(pair, MANY),
  legs: list(leg, 1000),
  line,
  profile: list(pair, MANY),
  endPoints: list(object({ at: pair, outcome: oneOf(OUTCOMES) }), 50),
  hazard: either((v) => typeof v === 'string', oneOf(['not assessed']), object({ share })),
  wayOut: optional(object({ says: text, trials: whole(1, 1e9), hazardTrials: whole(0, 1e9) })),
  walks: optional(list(walk, 10)),
  alike: optional(texts),
  changes: optional(changes),
  leansOn: optional(list(leaning, 100)),
});

const layer: Check<PackedLayer> = object<PackedLayer>({
  name: oneOf(['elevation']),
  scale: between(1e-6, 1e6),
  data: text,
});

const geometry: Check<ReportFeature['geometry']> = (value, at) => {
  const type = (value as { type?: unknown } | null)?.type;
  if (type === 'point') return object({ type: oneOf(['point']), at: pair })(value, at);
  if (type === 'line') return object({ type: oneOf(['line']), points: line })(value, at);
  return object({ type: oneOf(['area']), rings: list(line, MANY) })(value, at);
};

const feature: Check<ReportFeature> = object<ReportFeature>({
  id: text,
  kind: oneOf(FEATURE_KINDS),
  name: orNull(text),
  exists: share,
  positionMetres: positive,
  geometry,
});

const report: Check<Report> = object<Report>({
  version: oneOf([REPORT_VERSION]),
  generator: text,
  reading: optional(
    object<Reading>({ language: oneOf(LANGUAGES), units: oneOf(UNITS), bearings: oneOf(BEARINGS) }),
  ),
  task: object<Report['task']>({
    name: text,
    terrain: text,
    invented: truth,
    start: object({ name: text, at: pair, grid: orNull(text) }),
    target: object<Report['task']['target']>({
      name: text,
      at: pair,
      grid: orNull(text),
      kind: oneOf(FEATURE_KINDS),
      findRadiusMetres: positive,
    }),
    trials: whole(1, 1e9),
    mapDate: orNull(text),
  }),
  seed: finite,
  conditions,
  party,
  limits,
  sentence: text,
  verdict: texts,
  assumptions: list(assumption, 1000),
  cautions: texts,
  candidates: list(candidate, 26),
  unbeaten: texts,
  worthChecking: optional(list(worthChecking, 100)),
  notes: texts,
  ground: object<Report['ground']>({
    crs: text,
    origin: pair,
    cell: between(0.01, 1e6),
    columns: whole(1, 8000),
    rows: whole(1, 8000),
    layers: list(layer, 10),
    source: text,
    terrainCell: between(0.01, 1e6),
    lacking: list(oneOf(FEATURE_KINDS), 100),
  }),
  norths: orNull(object({ declinationDegrees: finite, convergenceDegrees: finite, model: text, date: text })),
  features: list(feature, MANY),
  attributions: texts,
});

/** From the version in the key to the next one. */
const MIGRATIONS: Readonly<Record<number, (old: object) => object>> = {};

/**
 * A report as read from a file, brought to the present version and checked field by field.
 * @throws UserError for a version that no released program wrote, or for the first field that is wrong.
 */
export function checkReport(value: unknown): Report {
  let document = value;
  for (;;) {
    const version = (document as { version?: unknown } | null)?.version;
    if (version === REPORT_VERSION) return report(document, '');
    const step = typeof version === 'number' ? MIGRATIONS[version] : undefined;
    if (step === undefined) {
      throw new UserError({
        what: 'report of a version that this program does not know',
        where: 'version',
        got: version === undefined ? 'none' : JSON.stringify(version),
        expected: `${REPORT_VERSION} or older`,
      });
    }
    document = step(document as object);
  }
}
