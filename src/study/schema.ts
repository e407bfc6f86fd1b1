import { GROUNDS } from '../conditions/conditions.ts';
import * as s from '../door/shapes.ts';
import { FEATURE_KINDS } from '../features/kinds.ts';
import { SKILL_LEVELS } from '../party/party.ts';
import { TECHNIQUES } from '../route/leg.ts';
import { SPEED_MODELS } from '../speed/models.ts';

/* The task file as a person writes it. `mistwise schema` prints this as a JSON Schema; `read-task.ts` checks with it. */

const metres = (max: number) => s.number({ min: 0, max, unit: 'metres' });
const minutes = s.number({ above: 0, max: 10_000, unit: 'minutes' });
const id = s.text();

const PLACE_KEYS = ['feature', 'at', 'lonLat', 'grid'] as const;
const placeEntries = {
  feature: s.maybe(s.about(id, 'id of a feature of the terrain')),
  at: s.maybe(s.about(s.pair('easting, northing'), "metres in the terrain's CRS")),
  lonLat: s.maybe(s.about(s.pair('longitude, latitude'), 'degrees, WGS 84')),
  grid: s.maybe(s.about(s.text(), 'a grid reference, for example NY 213 105')),
};
const place = s.exactlyOne(s.table(placeEntries), PLACE_KEYS);

const doubtEntries = {
  exists: s.maybe(s.about(s.share(), 'chance that it is there on the day, 0 to 1')),
  positionMetres: s.maybe(s.about(metres(1000), 'SD of its place in x and in y')),
  rangeMetres: s.maybe(s.about(metres(10_000), 'distance at which it is made out in good light (R0)')),
  sweepWidthMetres: s.maybe(s.about(metres(10_000), 'sweep width, in place of what follows from the range')),
  contrast: s.maybe(s.about(s.number({ above: 0, max: 1 }), '.5 dull, .8 contrasty, 1 large masses')),
  visibility: s.maybe(s.about(s.choice(['high', 'medium', 'low']), 'class of visibility')),
  alike: s.maybe(s.about(s.share(), 'chance that it looks like something of another class')),
  extraPerGap: s.maybe(s.about(s.share(), 'chance per gap of an unmapped extra member of its row')),
  lastSeen: s.maybe(s.about(s.isoDate(), 'day it was last seen; the chance to exist decays from then')),
  head: s.maybe(s.about(s.choice(['spring-fed', 'saturation']), 'how a stream begins')),
};

const visibilityMetres = s.number({ min: 1, max: 100_000, unit: 'metres' });
const conditions = s.table({
  visibility: s.maybe(
    s.about(
      s.either(
        'a number of metres, or a table with below, above and cloudBase',
        visibilityMetres,
        s.table({
          below: visibilityMetres,
          above: visibilityMetres,
          cloudBase: s.number({ min: -500, max: 9000, unit: 'metres' }),
        }),
      ),
      'metres; with cloud, below and above its base',
    ),
  ),
  ground: s.maybe(s.choice(GROUNDS)),
  light: s.maybe(s.choice(['day', 'dark'])),
  wind: s.maybe(
    s.table({
      metresPerSecond: s.number({ min: 0, max: 60, unit: 'metres per second' }),
      fromDegrees: s.maybe(s.number({ min: 0, max: 360, unit: 'degrees' })),
    }),
  ),
  date: s.maybe(
    s.about(s.isoDate(), 'for declination and daylight; without it only grid bearings are given'),
  ),
});

const degrees = (max: number) => s.maybe(s.number({ min: 0, max, unit: 'degrees' }));
const skill = s.table({
  bearingDegrees: degrees(60),
  resightDegrees: degrees(60),
  wanderMetres: s.maybe(s.orNone(metres(100))),
  paceShare: s.maybe(s.share()),
  miscountPerKm: s.maybe(s.number({ min: 0, max: 10 })),
  timingShare: s.maybe(s.share()),
  timingBiasShare: s.maybe(s.number({ min: -0.9, max: 2 })),
  driftDegrees: degrees(90),
  reverseShare: s.maybe(s.share()),
  slipShare: s.maybe(s.share()),
  declinationShare: s.maybe(s.share()),
  contourMetres: s.maybe(s.table({ mean: s.number({ min: -50, max: 50, unit: 'metres' }), sd: metres(50) })),
  aspectDegrees: degrees(180),
  noticedShare: s.maybe(s.share()),
  recognisedShare: s.maybe(s.share()),
  overrun: s.maybe(s.number({ min: 1, max: 10 })),
  lookalikeShare: s.maybe(s.share()),
  admitsLostShare: s.maybe(s.share()),
  junctionShare: s.maybe(s.share()),
  handrailLossPerKm: s.maybe(s.number({ min: 0, max: 100 })),
  speedShare: s.maybe(s.number({ min: 0, max: 0.5 })),
  searchMetresPerMinute: s.maybe(s.number({ above: 0, max: 200, unit: 'metres per minute' })),
});

const speed = s.either(
  `${s.listed(SPEED_MODELS.map((model) => model.name))}, or a table with metresPerSecond`,
  s.choice(SPEED_MODELS.map((model) => model.name)),
  s.table({ metresPerSecond: s.number({ min: 0.1, max: 5, unit: 'metres per second' }) }),
);

const party = s.table({
  skill: s.maybe(s.choice(SKILL_LEVELS)),
  people: s.maybe(s.whole({ min: 1, max: 8 })),
  altimeter: s.maybe(s.flag()),
  compass: s.maybe(s.flag()),
  speed: s.maybe(s.about(speed, 'a travel-time model by name, or a speed on level ground')),
  doublePacesPer100: s.maybe(s.about(s.number({ min: 30, max: 120 }), 'double paces per 100 m')),
  set: s.maybe(s.about(skill, 'single parameters in place of those of the skill')),
});

const limits = s.table({
  minutes: s.maybe(s.orNone(minutes)),
  searchMinutes: s.maybe(s.number({ min: 0, max: 1000, unit: 'minutes' })),
  relaunches: s.maybe(s.whole({ min: 0, max: 10 })),
  searchPeopleAbreast: s.maybe(s.whole({ min: 1, max: 8 })),
  turnRoundMinutes: s.maybe(s.orNone(minutes)),
  slopeDegrees: s.maybe(s.number({ above: 0, max: 90, unit: 'degrees' })),
});

const leg = s.table({
  technique: s.choice(TECHNIQUES),
  to: s.maybe(
    s.either('start, target, or a table with a place', s.literal('start'), s.literal('target'), place),
  ),
  along: s.maybe(s.about(id, 'id of the line followed')),
  line: s.maybe(s.about(id, 'id of the line aimed at')),
  towards: s.maybe(
    s.about(s.text(), 'an end of the line followed: mouth, head, a compass point or a feature'),
  ),
  metres: s.maybe(metres(50_000)),
  side: s.maybe(s.about(s.choice(['left', 'right']), 'side of the target, facing the way one walks')),
  ticks: s.maybe(s.list(id, { max: 100 })),
  catching: s.maybe(s.about(id, 'id of the line behind the end that stops an overrun')),
  counting: s.maybe(s.about(s.flag(), 'the members of the row that ends this leg are counted on the way')),
});

const route = s.exactlyOne(
  s.table({
    name: s.text(),
    legs: s.maybe(s.list(leg, { min: 1, max: 100 })),
    line: s.maybe(s.about(s.text({ max: 1000 }), 'a .gpx or .geojson file beside the task')),
  }),
  ['legs', 'line'],
);

export const TASK_SHAPE = s.table({
  version: s.about(s.whole({ min: 1, max: 1_000_000 }), 'version of the task file; this is 1'),
  name: s.maybe(s.text()),
  terrain: s.about(s.text({ max: 1000 }), 'folder of the terrain, relative to this file'),
  start: place,
  target: s.exactlyOne(
    s.table({
      ...placeEntries,
      name: s.maybe(s.text()),
      kind: s.maybe(s.choice(FEATURE_KINDS)),
      ...doubtEntries,
    }),
    PLACE_KEYS,
  ),
  conditions: s.maybe(conditions),
  party: s.maybe(party),
  limits: s.maybe(limits),
  features: s.maybe(
    s.about(s.named(s.table(doubtEntries)), 'doubt about single features on this day, by their id'),
  ),
  routes: s.maybe(s.list(route, { max: 50 })),
  find: s.maybe(s.table({ candidates: s.maybe(s.whole({ min: 0, max: 20 })) })),
  seeing: s.maybe(s.about(s.choice(['definite', 'lateral']), 'law of detection')),
  trials: s.maybe(s.whole({ min: 1, max: 10_000_000 })),
  seed: s.maybe(s.whole({ min: 0, max: 4_294_967_295 })),
});

/** A task as written: checked in shape, nothing looked up, no default filled in. */
export type WrittenTask = s.Infer<typeof TASK_SHAPE>;
