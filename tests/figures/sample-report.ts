import type { Point } from '../../src/math/plane.ts';
import { distance, lineLength, pointAlong } from '../../src/math/plane.ts';
import { packLayer } from '../../src/report/packed-layer.ts';
import type {
  Candidate,
  Outcome,
  Report,
  ReportFeature,
  ReportLeg,
  SampleWalk,
} from '../../src/report/report.ts';
import { OUTCOMES } from '../../src/report/report.ts';
import type { Technique } from '../../src/route/leg.ts';

/**
 * A report of invented figures on invented ground, for figures and tests of the drawing alone: two knolls, a valley with a stream,
 * a wall, a track, a wood, a tarn. No figure in it was simulated.
 */

const CELL = 10;
const COLUMNS = 340;
const ROWS = 280;
const WEST = 430_000;
const NORTH = 615_000;

function bump(x: number, y: number, cx: number, cy: number, wide: number, high: number): number {
  const d2 = ((x - cx) ** 2 + (y - cy) ** 2) / wide ** 2;
  return high * Math.exp(-d2);
}

/** Height at metres east and south of the north-west corner. */
function height(x: number, y: number): number {
  const valley = 60 * Math.exp(-(((y - 1500 - 0.25 * (x - 1700)) / 420) ** 2));
  return (
    360 +
    0.03 * x -
    valley +
    bump(x, y, 900, 600, 520, 150) +
    bump(x, y, 2350, 900, 420, 120) +
    bump(x, y, 2700, 2300, 650, 170) +
    bump(x, y, 700, 2400, 600, 70) +
    6 * Math.sin(x / 130) * Math.cos(y / 170)
  );
}

function heights(): Float32Array {
  const values = new Float32Array(COLUMNS * ROWS);
  for (let r = 0; r < ROWS; r++) {
    for (let c = 0; c < COLUMNS; c++) values[r * COLUMNS + c] = height((c + 0.5) * CELL, (r + 0.5) * CELL);
  }
  return values;
}

const at = (x: number, y: number): Point => [WEST + x, NORTH - y];
const START = at(420, 1880);
const TARGET = at(2310, 1240);

const wavy = (from: Point, to: Point, swing: number, turns: number): Point[] =>
  Array.from({ length: 41 }, (_, i) => {
    const t = i / 40;
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const d = Math.sqrt(dx * dx + dy * dy);
    const s = swing * Math.sin(t * Math.PI * turns);
    return [from[0] + dx * t - (dy / d) * s, from[1] + dy * t + (dx / d) * s] as const;
  });

const STREAM = wavy(at(60, 1100), at(3380, 1930), 40, 7);
const WALL = [at(420, 1880), at(1040, 1760), at(1500, 1320), at(2210, 1180), at(2240, 820)];
const TRACK = [
  at(60, 2020),
  at(420, 1905),
  at(900, 2180),
  at(1500, 2230),
  at(2050, 2010),
  at(2700, 1900),
  at(3380, 1980),
];
const TARN = Array.from({ length: 24 }, (_, i) => {
  const a = (i / 24) * 2 * Math.PI;
  return at(1720 + 95 * Math.cos(a), 880 + 55 * Math.sin(a) + 12 * Math.sin(3 * a));
});
const ring = (x: number, y: number, rx: number, ry: number): Point[] =>
  Array.from({ length: 33 }, (_, i) => {
    const a = (i / 32) * 2 * Math.PI;
    return at(x + rx * Math.cos(a), y + ry * Math.sin(a) * (1 + 0.15 * Math.sin(4 * a)));
  });

function point(
  id: string,
  kind: ReportFeature['kind'],
  name: string | null,
  p: Point,
  exists: number,
  metres = 8,
) {
  return { id, kind, name, exists, positionMetres: metres, geometry: { type: 'point', at: p } } as const;
}

const FEATURES: readonly ReportFeature[] = [
  {
    id: 'wood',
    kind: 'forest',
    name: 'Larch Edge',
    exists: 0.95,
    positionMetres: 15,
    geometry: {
      type: 'area',
      rings: [[at(2480, 1900), at(3300, 1850), at(3390, 2700), at(2300, 2760), at(2480, 1900)]],
    },
  },
  {
    id: 'mire',
    kind: 'marsh',
    name: null,
    exists: 0.9,
    positionMetres: 30,
    geometry: { type: 'area', rings: [ring(1250, 1900, 260, 120)] },
  },
  {
    id: 'heather-1',
    kind: 'heather',
    name: null,
    exists: 0.95,
    positionMetres: 30,
    geometry: { type: 'area', rings: [ring(2250, 1150, 520, 260)] },
  },
  {
    id: 'tarn',
    kind: 'lake',
    name: 'Threll Water',
    exists: 0.99,
    positionMetres: 8,
    geometry: { type: 'area', rings: [[...TARN, TARN[0]!]] },
  },
  {
    id: 'beck',
    kind: 'stream',
    name: 'Cotter Beck',
    exists: 0.99,
    positionMetres: 6,
    geometry: { type: 'line', points: STREAM },
  },
  {
    id: 'runnel',
    kind: 'small-stream',
    name: null,
    exists: 0.75,
    positionMetres: 12,
    geometry: { type: 'line', points: wavy(at(2040, 1000), at(2180, 1640), 18, 4) },
  },
  {
    id: 'dyke',
    kind: 'wall',
    name: 'Long Dyke',
    exists: 0.97,
    positionMetres: 5,
    geometry: { type: 'line', points: WALL },
  },
  {
    id: 'track',
    kind: 'track',
    name: 'Cotter Track',
    exists: 0.97,
    positionMetres: 6,
    geometry: { type: 'line', points: TRACK },
  },
  {
    id: 'trod',
    kind: 'right-of-way',
    name: null,
    exists: 0.5,
    positionMetres: 25,
    geometry: { type: 'line', points: wavy(at(1500, 2230), at(2310, 1300), 60, 1) },
  },
  {
    id: 'fence',
    kind: 'fence',
    name: null,
    exists: 0.85,
    positionMetres: 10,
    geometry: { type: 'line', points: [at(2210, 1180), at(2600, 1320), at(3380, 1200)] },
  },
  point('peat-house', 'ruin', 'Peat House', START, 0.97, 6),
  point('gauge-3', 'post', 'Gauge Three', TARGET, 0.9, 10),
  point('gauge-2', 'post', 'Gauge Two', at(2190, 1360), 0.9, 10),
  point('corner', 'wall-corner', null, at(2210, 1180), 0.93, 6),
  point('cairn', 'cairn', 'Pale Knoll', at(2350, 900), 0.75, 8),
  point('boulder', 'boulder', null, at(1660, 1500), 0.8, 10),
  point('pool', 'pool', null, at(1980, 1420), 0.5, 8),
  point('spring', 'spring', 'Hask Well', at(2080, 1010), 0.85, 12),
  point('knoll', 'knoll', 'Hask Saddle', at(900, 600), 0.95, 15),
];

const SKETCHES: readonly {
  name: string;
  origin: 'drawn' | 'found';
  strategy: string;
  line: readonly Point[];
  breaks: readonly number[];
  techniques: readonly Technique[];
  ends: readonly string[];
  shares: Record<Outcome, number>;
  p50: number;
  spread: number;
}[] = [
  {
    name: 'along the dyke',
    origin: 'drawn',
    strategy: 'handrail Long Dyke to its corner, then a short bearing',
    line: [START, at(1040, 1760), at(1500, 1320), at(2210, 1180), TARGET],
    breaks: [0.955],
    techniques: ['handrail', 'bearing'],
    ends: ['the corner of Long Dyke', 'Gauge Three'],
    shares: {
      cleanHit: 0.71,
      foundBySearch: 0.12,
      late: 0.02,
      falseFind: 0.03,
      lost: 0.02,
      turnedBack: 0.04,
      nearMiss: 0.06,
    },
    p50: 41,
    spread: 9,
  },
  {
    name: 'by the track, then open heather',
    origin: 'drawn',
    strategy: 'Cotter Track to the wood, then one long bearing',
    line: [START, at(900, 2180), at(1500, 2230), at(2050, 2010), at(2480, 1935), TARGET],
    breaks: [0.73],
    techniques: ['handrail', 'bearing'],
    ends: ['the corner of Larch Edge', 'Gauge Three'],
    shares: {
      cleanHit: 0.31,
      foundBySearch: 0.22,
      late: 0.06,
      falseFind: 0.09,
      lost: 0.08,
      turnedBack: 0.11,
      nearMiss: 0.13,
    },
    p50: 48,
    spread: 16,
  },
  {
    name: 'straight line',
    origin: 'found',
    strategy: 'fastest line, one bearing',
    line: [START, at(1040, 1620), at(1700, 1420), TARGET],
    breaks: [],
    techniques: ['bearing'],
    ends: ['Gauge Three'],
    shares: {
      cleanHit: 0.16,
      foundBySearch: 0.2,
      late: 0.05,
      falseFind: 0.11,
      lost: 0.13,
      turnedBack: 0.17,
      nearMiss: 0.18,
    },
    p50: 36,
    spread: 21,
  },
  {
    name: 'up the beck, aim off',
    origin: 'found',
    strategy: 'aim off to the runnel, up it to its crossing, then a short bearing',
    line: [START, at(1280, 1640), at(2150, 1500), at(2110, 1260), TARGET],
    breaks: [0.74, 0.89],
    techniques: ['aim-off', 'handrail', 'bearing'],
    ends: ['the runnel, 60 m below the crossing', 'the crossing of runnel and dyke', 'Gauge Three'],
    shares: {
      cleanHit: 0.52,
      foundBySearch: 0.19,
      late: 0.04,
      falseFind: 0.06,
      lost: 0.05,
      turnedBack: 0.06,
      nearMiss: 0.08,
    },
    p50: 44,
    spread: 13,
  },
  {
    name: 'least markless distance',
    origin: 'found',
    strategy: 'beside the beck, the boulder, the pool, the gauge before',
    line: [START, at(900, 1330), at(1660, 1500), at(1980, 1420), at(2190, 1360), TARGET],
    breaks: [0.32, 0.7, 0.86, 0.94],
    techniques: ['bearing', 'handrail', 'bearing', 'bearing', 'sight'],
    ends: ['Cotter Beck', 'the boulder', 'the pool', 'Gauge Two', 'Gauge Three'],
    shares: {
      cleanHit: 0.47,
      foundBySearch: 0.2,
      late: 0.05,
      falseFind: 0.1,
      lost: 0.03,
      turnedBack: 0.06,
      nearMiss: 0.09,
    },
    p50: 46,
    spread: 14,
  },
  {
    name: 'over Pale Knoll',
    origin: 'found',
    strategy: 'contour under Hask Saddle, the cairn as attack point',
    line: [START, at(900, 1250), at(1560, 760), at(2350, 900), TARGET],
    breaks: [0.28, 0.86],
    techniques: ['timing', 'contour', 'bearing'],
    ends: ['the slope below Hask Saddle', 'the cairn on Pale Knoll', 'Gauge Three'],
    shares: {
      cleanHit: 0.44,
      foundBySearch: 0.17,
      late: 0.11,
      falseFind: 0.04,
      lost: 0.06,
      turnedBack: 0.09,
      nearMiss: 0.09,
    },
    p50: 57,
    spread: 18,
  },
];

/** A stream of numbers in [0, 1) that is the same on every machine: a plain linear congruence, modulus 2^31. */
function numbers(seed: number): () => number {
  let state = seed % 2147483648;
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor(state / 65536) / 32768;
  };
}

function wilson(share: number, n: number): { low: number; high: number } {
  const z = 1.96;
  const middle = (share + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n))) / (1 + (z * z) / n);
  return { low: middle - half, high: middle + half };
}

function profileOf(line: readonly Point[]): [number, number][] {
  const total = lineLength(line);
  const steps = 120;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const along = (total * i) / steps;
    const p = pointAlong(line, along);
    return [Math.round(along), Math.round(height(p[0] - WEST, NORTH - p[1]) * 10) / 10];
  });
}

function climbOf(profile: readonly (readonly [number, number])[]): { up: number; down: number } {
  let up = 0;
  let down = 0;
  for (let i = 1; i < profile.length; i++) {
    const d = profile[i]![1] - profile[i - 1]![1];
    if (d > 0) up += d;
    else down -= d;
  }
  return { up: Math.round(up), down: Math.round(down) };
}

function bearingDegrees(a: Point, b: Point): number {
  return (Math.round((Math.atan2(b[0] - a[0], b[1] - a[1]) * 180) / Math.PI) + 360) % 360;
}

function piece(line: readonly Point[], from: number, to: number): Point[] {
  const total = lineLength(line);
  const part = [pointAlong(line, from * total)];
  let walked = 0;
  for (let i = 1; i < line.length; i++) {
    walked += distance(line[i - 1]!, line[i]!);
    if (walked > from * total + 1 && walked < to * total - 1) part.push(line[i]!);
  }
  part.push(pointAlong(line, to * total));
  return part;
}

function candidate(index: number, trials: number, magnetic: boolean): Candidate {
  const sketch = SKETCHES[index]!;
  const letter = String.fromCharCode(65 + index);
  const random = numbers(7919 * (index + 1));
  const profile = profileOf(sketch.line);
  const total = lineLength(sketch.line);
  const climb = climbOf(profile);
  const cuts = [0, ...sketch.breaks, 1];
  const share = sketch.shares.cleanHit + sketch.shares.foundBySearch;
  const missed = 1 - share;
  const legs: ReportLeg[] = sketch.techniques.map((technique, i) => {
    const path = piece(sketch.line, cuts[i]!, cuts[i + 1]!);
    const metres = lineLength(path);
    const part = climbOf(profileOf(path));
    const grid = bearingDegrees(path[0]!, path[path.length - 1]!);
    const weight =
      i === sketch.techniques.length - 1 ? 0.62 : 0.28 / Math.max(1, sketch.techniques.length - 1);
    return {
      technique,
      from: i === 0 ? 'Peat House' : sketch.ends[i - 1]!,
      to: sketch.ends[i]!,
      says: `${technique === 'handrail' ? 'follow the line' : technique === 'aim-off' ? 'aim 60 m left' : `${grid}° grid`} to ${sketch.ends[i]!}`,
      gridBearingDegrees: grid,
      magneticBearingDegrees: magnetic ? (grid + 2) % 360 : null,
      distanceMetres: Math.round(metres),
      climbMetres: part.up,
      descentMetres: part.down,
      doublePaces: Math.round(metres * 0.64),
      minutes: Math.round((metres / total) * sketch.p50 * 0.8 * 10) / 10,
      lostHereShare: Math.round(missed * weight * 1000) / 1000,
      reasons: { 'party-day': 0.4, leg: 0.3, ground: 0.2, several: 0.1 },
      ticks:
        metres > 500
          ? [
              { name: 'the boulder', atMetres: Math.round(metres * 0.4) },
              { name: 'Cotter Beck', atMetres: Math.round(metres * 0.7) },
            ]
          : [],
      path,
    };
  });
  const foundBy: [number, number][] = Array.from({ length: 46 }, (_, i) => {
    const m = i * 2;
    const z = (m - sketch.p50) / (sketch.spread * 0.55);
    return [m, Math.round((share / (1 + Math.exp(-2 * z))) * 10000) / 10000];
  });
  const ends: Outcome[] = [];
  for (const o of OUTCOMES) for (let k = 0; k < Math.round(sketch.shares[o] * 50); k++) ends.push(o);
  const endPoints = ends.slice(0, 50).map((outcome) => {
    const far =
      outcome === 'cleanHit' || outcome === 'foundBySearch'
        ? 6
        : outcome === 'lost'
          ? 320
          : outcome === 'turnedBack'
            ? 260
            : 60;
    const angle = random() * 2 * Math.PI;
    const r = far * Math.sqrt(random()) * 1.3;
    return { at: [TARGET[0] + r * Math.cos(angle), TARGET[1] + r * Math.sin(angle)] as const, outcome };
  });
  return {
    id: `route-${letter.toLowerCase()}`,
    letter,
    name: sketch.name,
    origin: sketch.origin,
    strategy: sketch.strategy,
    distanceMetres: Math.round(total),
    climbMetres: climb.up,
    descentMetres: climb.down,
    minutes: {
      p10: Math.round(sketch.p50 - sketch.spread * 0.6),
      p50: sketch.p50,
      p90: Math.round(sketch.p50 + sketch.spread),
      mean: sketch.p50 + 2,
    },
    success: { trials, hits: Math.round(share * trials), share, ...wilson(share, trials) },
    outcomes: sketch.shares,
    foundBy,
    legs,
    line: sketch.line,
    profile,
    endPoints,
    hazard: 'not assessed',
    ...(letter === 'A' ? { walks: [sampleWalk(sketch.line)] } : {}),
  };
}

/** An attempt that drifts to the right of the plan and believes it does not. */
function sampleWalk(plan: readonly Point[]): SampleWalk {
  const track = plan.map((p, i): Point => [p[0] + 40 * i, p[1] - 25 * i]);
  const kinds = ['start', 'leg', 'confirmed', 'searches', 'gives up the search'];
  return {
    trial: 3,
    outcome: 'nearMiss',
    minutes: 71.5,
    track,
    believedTrack: plan,
    events: kinds.map((kind, i) => {
      const at = Math.round((i / (kinds.length - 1)) * (plan.length - 1));
      return { kind, leg: 1, minutes: 15 * i, at: track[at]!, believed: plan[at]!, sdMetres: 6 + 9 * i };
    }),
  };
}

export interface SampleOptions {
  readonly trials?: number;
  /** Skill and map trust varied: thin bars. */
  readonly varied?: boolean;
  /** A date in the task, so magnetic bearings. */
  readonly magnetic?: boolean;
  /** Hazards mapped by the source, so a share instead of "not assessed". */
  readonly hazards?: boolean;
  readonly routes?: number;
}

export function sampleReport(options: SampleOptions = {}): Report {
  const { trials = 10_000, varied = false, magnetic = true, hazards = false, routes = 6 } = options;
  const candidates = SKETCHES.slice(0, routes).map((_, i) => {
    const c = candidate(i, trials, magnetic);
    return {
      ...c,
      ...(varied
        ? {
            assumption: {
              low: Math.max(0, c.success.share - 0.17),
              high: Math.min(1, c.success.share + 0.11),
            },
          }
        : {}),
      hazard: hazards ? { share: i === 5 ? 0.031 : 0.004 } : c.hazard,
    };
  });
  return {
    version: 1,
    generator: 'mistwise 0.1.0',
    task: {
      name: 'Gauge Three',
      terrain: 'Sample ground',
      invented: true,
      start: { name: 'Peat House', at: START, grid: null },
      target: { name: 'Gauge Three', at: TARGET, grid: null, kind: 'post', findRadiusMetres: 12 },
      trials,
      mapDate: '2024-05-01',
    },
    seed: 1,
    conditions: {
      visibility: { below: 5000, above: 150, cloudBase: 420 },
      ground: 'wet',
      light: 'day',
      wind: { metresPerSecond: 8, fromDegrees: 240 },
      date: magnetic ? '2026-11-25' : null,
    },
    party: {
      skill: 'competent',
      set: {
        bearingDegrees: 2.5,
        resightDegrees: 3.2,
        wanderMetres: null,
        paceShare: 0.05,
        miscountPerKm: 0.03,
        timingShare: 0.12,
        timingBiasShare: 0,
        driftDegrees: 7,
        reverseShare: 0.004,
        slipShare: 0.01,
        declinationShare: 0.03,
        contourMetres: { mean: -2, sd: 3 },
        aspectDegrees: 10,
        noticedShare: 0.92,
        recognisedShare: 0.9,
        overrun: 1.2,
        lookalikeShare: 0.25,
        admitsLostShare: 0.4,
        junctionShare: 0.03,
        handrailLossPerKm: 1,
        speedShare: 0.1,
        searchMetresPerMinute: 25,
      },
      people: 4,
      altimeter: false,
      compass: true,
      speed: 'irmischer-clarke',
      doublePacesPer100: 64,
    },
    limits: {
      minutes: 90,
      searchMinutes: 10,
      relaunches: 1,
      searchPeopleAbreast: 1,
      turnRoundMinutes: 60,
      slopeDegrees: 35,
    },
    sentence:
      'From Peat House to Gauge Three: a competent party of 4 by day, cloud base at 420 m, 150 m of visibility in the cloud, ground wet, wind 8 m/s, within 90 minutes.',
    verdict: [
      'About 83 of 100 such parties find Gauge Three by route A, along the dyke, in about 41 minutes, under these assumptions.',
      'The straight line C is 5 minutes quicker and finds it in 36 of 100.',
      'No other route is at once as quick and as certain as A.',
    ],
    assumptions: [
      {
        name: 'bearing error',
        value: '2.5° (1 SD)',
        mark: 'common practice',
        source: 'common practice, no source',
      },
      {
        name: 'pace error',
        value: '5 % of the distance',
        mark: 'common practice',
        source: 'common practice, no source',
      },
      {
        name: 'travel time',
        value: 'Irmischer–Clarke, off path',
        mark: 'published',
        source: 'Irmischer & Clarke 2018',
      },
      {
        name: 'sweep width of the target',
        value: '24 m',
        mark: 'given in the task',
        source: 'the task file',
      },
      { name: 'side step along a bearing', value: 'closed form', mark: 'derived', source: 'mathematics' },
    ],
    cautions: [
      'For learning and planning: ground and weather decide.',
      'A legal way may be no path and a path no legal way.',
      'What is absent from the data may still be there.',
      'If lost: stop, shelter, think; call the local emergency number.',
    ],
    candidates,
    unbeaten: ['route-a', 'route-c'].filter((id) => candidates.some((c) => c.id === id)),
    notes: ['The figures of this sample are invented: they test the drawing, not the model.'],
    ground: {
      crs: 'EPSG:27700',
      origin: [WEST, NORTH],
      cell: CELL,
      columns: COLUMNS,
      rows: ROWS,
      layers: [packLayer('elevation', heights(), 0.1)],
      source: 'an invented surface of six hills',
      terrainCell: 10,
      lacking: ['cliff', 'crag', 'scree'],
    },
    norths: magnetic
      ? { declinationDegrees: -1.4, convergenceDegrees: 0.4, model: 'WMM2025', date: '2026-11-25' }
      : null,
    features: FEATURES,
    attributions: ['Invented ground; nobody to thank.'],
  };
}
