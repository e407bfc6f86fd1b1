import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';

/*
 * What people put on this ground, and the names they gave: metres from the south-west corner. Streams are not here: they
 * are traced from the heights. Doubt is stated only where it differs from what is usual for the kind.
 */

export interface Drawn {
  readonly id: string;
  readonly kind: FeatureKind;
  readonly name?: string;
  readonly doubt?: Readonly<Record<string, number | string>>;
  readonly row?: string;
  readonly rowPlace?: number;
}
export interface DrawnPoint extends Drawn {
  readonly at: Point;
  /** Two lines: the point is where they cross nearest to `at`. */
  readonly where?: readonly [string, string];
}
export interface DrawnLine extends Drawn {
  readonly line: readonly Point[];
  /** Rounded off as feet and wheels do; walls and fences keep their corners. */
  readonly soft?: boolean;
}
export interface DrawnArea extends Drawn {
  readonly outline: readonly Point[];
}

export const LINES: readonly DrawnLine[] = [
  {
    id: 'cotter-track',
    kind: 'track',
    name: 'Cotter Track',
    soft: true,
    line: [
      [1500, 0],
      [1620, 500],
      [1760, 950],
      [1790, 1500],
      [1700, 1950],
      [1560, 2200],
      [1500, 2480],
      [1600, 2700],
      [1480, 2830],
      [1330, 2850],
      [1230, 2900],
      [1100, 3010],
      [980, 3180],
      [960, 3420],
      [1080, 3600],
      [1300, 3640],
      [1480, 3700],
      [1600, 3850],
      [1690, 4010],
      [1730, 4150],
      [1700, 4330],
      [1660, 4560],
      [1740, 4800],
      [1960, 4960],
      [2080, 5150],
      [2400, 5290],
      [2800, 5330],
      [3150, 5300],
      [3500, 5150],
      [3900, 4950],
      [4300, 5000],
      [4800, 4850],
    ],
  },
  {
    id: 'turf-road',
    kind: 'path',
    name: 'Turf Road',
    soft: true,
    line: [
      [3640, 3090],
      [3600, 3400],
      [3450, 3700],
      [3250, 3900],
      [3060, 3900],
      [2960, 3790],
      [2900, 4050],
      [2840, 4300],
      [2700, 4560],
      [2420, 4760],
      [2150, 4900],
      [1960, 4960],
    ],
  },
  {
    id: 'hask-path',
    kind: 'path',
    name: 'Hask Path',
    soft: true,
    doubt: { exists: 0.8 },
    line: [
      [1790, 1500],
      [2000, 1640],
      [2190, 1760],
      [2600, 1700],
      [2980, 1850],
      [3170, 1860],
      [3420, 2050],
      [3480, 2350],
      [3420, 2650],
      [3470, 2900],
      [3640, 3090],
    ],
  },
  {
    id: 'packers-way',
    kind: 'right-of-way',
    name: "Packers' Way",
    line: [
      [1700, 1960],
      [2120, 2150],
      [2520, 2280],
      [2900, 2270],
      [3200, 2330],
      [3400, 2640],
    ],
  },
  {
    id: 'long-dyke',
    kind: 'wall',
    name: 'Long Dyke',
    line: [
      [0, 4560],
      [420, 4480],
      [1000, 4640],
      [1400, 4800],
      [1700, 4900],
      [1960, 4960],
      [2500, 4920],
      [3050, 4860],
      [3030, 5120],
      [3010, 5310],
      [2990, 5450],
      [3020, 5750],
    ],
  },
  {
    id: 'intake-wall',
    kind: 'wall',
    name: 'Intake Wall',
    line: [
      [900, 2080],
      [1350, 2010],
      [1700, 1960],
      [2130, 2030],
      [2600, 1980],
      [3150, 1990],
      [3300, 1700],
    ],
  },
  {
    id: 'tumbled-dyke',
    kind: 'ruined-wall',
    name: 'Tumbled Dyke',
    line: [
      [1740, 2560],
      [1760, 2700],
      [1800, 3050],
      [1830, 3400],
      [1865, 3690],
    ],
  },
  {
    id: 'kettle-fence',
    kind: 'fence',
    name: 'Kettle Fence',
    doubt: { lastSeen: '2024-06-10' },
    line: [
      [1700, 4330],
      [1990, 4312],
      [2230, 4250],
      [2450, 4190],
      [2720, 4260],
    ],
  },
  {
    id: 'stone-fence',
    kind: 'fence',
    line: [
      [2960, 3790],
      [2720, 3700],
      [2700, 3380],
      [2690, 3060],
    ],
    doubt: { exists: 0.7 },
  },
  {
    id: 'larch-edge',
    kind: 'forest-edge',
    name: 'Larch Edge',
    line: [
      [3820, 3060],
      [4060, 2985],
      [4330, 3060],
      [4620, 2960],
      [4850, 2870],
      [5200, 2780],
    ],
  },
  {
    id: 'tavel-scar',
    kind: 'cliff',
    name: 'Tavel Scar',
    line: [
      [2620, 3010],
      [2760, 2960],
      [2930, 2990],
      [3090, 2950],
    ],
  },
  {
    id: 'main-ridge',
    kind: 'ridge',
    name: 'Stone Ridge',
    line: [
      [2740, 3130],
      [2760, 3350],
      [2740, 3600],
      [2790, 3850],
      [2860, 4060],
    ],
  },
];

const row = (
  id: string,
  kind: FeatureKind,
  name: string,
  from: Point,
  step: Point,
  count: number,
): DrawnPoint[] =>
  Array.from({ length: count }, (_, i) => ({
    id: `${id}-${i + 1}`,
    kind,
    name: `${name} ${i + 1}`,
    at: [from[0] + i * step[0], from[1] + i * step[1]] as Point,
    row: id,
    rowPlace: i + 1,
  }));

export const POINTS: readonly DrawnPoint[] = [
  { id: 'peat-house', kind: 'ruin', name: 'Peat House', at: [1588, 2728] },
  { id: 'high-fold', kind: 'fold', name: 'High Fold', at: [1736, 4136] },
  { id: 'oskle-fold', kind: 'fold', name: 'Oskle Fold', at: [2215, 2085] },
  { id: 'hathen-hut', kind: 'building', name: 'Hathen Hut', at: [3120, 1905] },
  { id: 'tarn-ruin', kind: 'ruin', name: 'Drift House', at: [2560, 4690] },
  { id: 'scar-fold', kind: 'fold', name: 'Scar Fold', at: [2880, 2830], doubt: { exists: 0.8 } },

  { id: 'kettle-1', kind: 'sinkhole', name: 'First Kettle', at: [1868, 4036], doubt: { rangeMetres: 35 } },
  { id: 'kettle-2', kind: 'sinkhole', name: 'Second Kettle', at: [1842, 4190], doubt: { rangeMetres: 35 } },
  { id: 'kettle-3', kind: 'sinkhole', name: 'Third Kettle', at: [1955, 4197], doubt: { rangeMetres: 35 } },
  { id: 'kettle-4', kind: 'sinkhole', name: 'Fourth Kettle', at: [2098, 4262], doubt: { rangeMetres: 35 } },
  { id: 'kettle-5', kind: 'sinkhole', name: 'Fifth Kettle', at: [2190, 4166], doubt: { rangeMetres: 35 } },

  { id: 'gauge-one', kind: 'post', name: 'Gauge One', at: [1690, 2905] },
  { id: 'gauge-two', kind: 'post', name: 'Gauge Two', at: [3700, 2890] },
  { id: 'gauge-three', kind: 'post', name: 'Gauge Three', at: [3132, 4822], doubt: { exists: 0.97 } },
  {
    id: 'lichen-frame',
    kind: 'other',
    name: 'Lichen Frame',
    at: [1905, 4690],
    doubt: { exists: 0.97, rangeMetres: 20 },
  },
  { id: 'snow-stake', kind: 'post', name: 'Snow Stake', at: [5080, 2480], doubt: { exists: 0.97 } },
  ...row('rime-row', 'post', 'Rime Post', [2300, 5030], [39.4, 7], 8),
  ...row('ridge-stone', 'boundary-stone', 'Ridge Stone', [2752, 3180], [0, 92], 7),

  { id: 'ulvarrow-cairn', kind: 'cairn', name: 'Ulvarrow Cairn', at: [2742, 3600], doubt: { exists: 0.95 } },
  { id: 'scar-cairn', kind: 'cairn', name: 'Scar Cairn', at: [2790, 3020] },
  { id: 'hask-cairn', kind: 'cairn', name: 'Hask Cairn', at: [3652, 3098], doubt: { exists: 0.9 } },
  { id: 'norrow-cairn', kind: 'cairn', name: 'Norrow Cairn', at: [1350, 5150] },
  { id: 'turf-cairn', kind: 'cairn', name: 'Turf Cairn', at: [2966, 3778], doubt: { exists: 0.9 } },

  {
    id: 'grey-ewe',
    kind: 'boulder',
    name: 'Grey Ewe',
    at: [1705, 3480],
    doubt: { exists: 0.98, alike: 0.1 },
  },
  {
    id: 'split-stone',
    kind: 'boulder',
    name: 'Split Stone',
    at: [2352, 4108],
    doubt: { exists: 0.98, alike: 0.1 },
  },
  { id: 'rocking-stone', kind: 'boulder', name: 'Nodding Stone', at: [2640, 4960] },
  { id: 'boulder-4', kind: 'boulder', at: [1540, 3960] },
  { id: 'boulder-5', kind: 'boulder', at: [2050, 4070] },
  { id: 'boulder-6', kind: 'boulder', at: [3310, 4930] },
  { id: 'boulder-7', kind: 'boulder', at: [4760, 2640] },

  { id: 'ember-well', kind: 'spring', name: 'Ember Well', at: [1925, 3935] },
  { id: 'hask-well', kind: 'spring', name: 'Hask Well', at: [3560, 3180] },
  { id: 'scar-spring', kind: 'spring', at: [2850, 2905] },
  { id: 'dyke-spring', kind: 'spring', at: [2330, 4870] },
  { id: 'larch-spring', kind: 'spring', at: [4420, 2890] },

  { id: 'oskle-crag', kind: 'crag', name: 'Oskle Crag', at: [2190, 3560] },
  { id: 'step-crag', kind: 'crag', at: [1450, 4230] },
  { id: 'turf-crag', kind: 'crag', at: [3160, 4020] },

  {
    id: 'dyke-gate',
    kind: 'gate',
    name: 'Dyke Gate',
    at: [1960, 4960],
    where: ['cotter-track', 'long-dyke'],
    doubt: { exists: 0.97 },
  },
  {
    id: 'north-gate',
    kind: 'gate',
    name: 'North Gate',
    at: [3010, 5312],
    where: ['cotter-track', 'long-dyke'],
  },
  {
    id: 'intake-gate',
    kind: 'gate',
    name: 'Intake Gate',
    at: [1700, 1960],
    where: ['cotter-track', 'intake-wall'],
  },
  { id: 'packers-stile', kind: 'stile', at: [1700, 1960] },
  { id: 'dyke-corner', kind: 'wall-corner', name: 'Dyke Corner', at: [3050, 4860] },
  { id: 'fence-corner-1', kind: 'fence-corner', at: [2720, 3700] },

  { id: 'pale-knoll', kind: 'knoll', name: 'Pale Knoll', at: [4320, 2730] },
  { id: 'rime-knoll', kind: 'knoll', name: 'Rime Knoll', at: [2870, 4420] },
  { id: 'little-rime', kind: 'knoll', name: 'Little Rime', at: [3060, 4520] },
  { id: 'west-knoll', kind: 'knoll', at: [1560, 3890] },
  { id: 'hask-saddle', kind: 'col', name: 'Hask Saddle', at: [3680, 3090] },
  { id: 'ulvarrow-top', kind: 'flat-summit', name: 'Ulvarrow', at: [2745, 3615] },
  { id: 'ember-hollow', kind: 're-entrant', name: 'Ember Hollow', at: [2130, 3860] },
  { id: 'house-hollow', kind: 're-entrant', at: [1290, 3420] },
  { id: 'scar-hollow', kind: 're-entrant', at: [2790, 2560] },
  { id: 'larch-hollow', kind: 're-entrant', at: [4680, 2400] },
  { id: 'house-spur', kind: 'spur', name: 'House Spur', at: [1660, 3120] },
];

/** Painted in this order: a later one lies over an earlier one. */
export const AREAS: readonly DrawnArea[] = [
  {
    id: 'heather-plateau',
    kind: 'heather',
    outline: [
      [600, 4500],
      [900, 5300],
      [1500, 5500],
      [2300, 5500],
      [3200, 5450],
      [3900, 5200],
      [4200, 4700],
      [3700, 4450],
      [3350, 4100],
      [3150, 3500],
      [3100, 2900],
      [2600, 2750],
      [2450, 3200],
      [2350, 3600],
      [2050, 3700],
      [1950, 3200],
      [1750, 2900],
      [1500, 2950],
      [1450, 3400],
      [1000, 3750],
      [1300, 4100],
      [1500, 4500],
    ],
  },
  {
    id: 'heather-east',
    kind: 'heather',
    outline: [
      [3500, 3050],
      [3550, 2600],
      [3900, 2350],
      [4500, 2450],
      [4750, 1950],
      [5300, 1800],
      [5500, 2300],
      [5250, 2750],
      [4600, 2850],
      [3900, 3050],
    ],
  },
  {
    id: 'house-grass',
    kind: 'grass',
    name: 'the Lawns',
    outline: [
      [1560, 2700],
      [1760, 2720],
      [1810, 3050],
      [1830, 3400],
      [1850, 3750],
      [1700, 3800],
      [1600, 3450],
      [1580, 3050],
    ],
  },
  {
    id: 'ridge-grass',
    kind: 'grass',
    outline: [
      [2680, 3150],
      [2820, 3150],
      [2830, 3500],
      [2850, 3900],
      [2720, 3880],
      [2660, 3500],
    ],
  },
  {
    id: 'kettle-tussock',
    kind: 'tussock',
    name: 'Kettle Moss',
    outline: [
      [1800, 3990],
      [1960, 3960],
      [2150, 4020],
      [2300, 4110],
      [2330, 4230],
      [2100, 4310],
      [1900, 4290],
      [1790, 4170],
    ],
  },
  {
    id: 'drift-hags',
    kind: 'hag',
    name: 'Drift Hags',
    outline: [
      [2080, 4560],
      [2250, 4480],
      [2520, 4490],
      [2680, 4640],
      [2560, 4820],
      [2300, 4860],
      [2100, 4790],
    ],
  },
  {
    id: 'norrow-hags',
    kind: 'hag',
    name: 'Norrow Hags',
    outline: [
      [1050, 4850],
      [1350, 4900],
      [1560, 5050],
      [1400, 5250],
      [1080, 5180],
    ],
  },
  {
    id: 'dyke-tussock',
    kind: 'tussock',
    outline: [
      [2500, 5000],
      [2900, 4960],
      [3350, 4950],
      [3400, 5180],
      [3000, 5240],
      [2600, 5220],
    ],
  },
  {
    id: 'threll-marsh',
    kind: 'marsh',
    name: 'Threll Moss',
    outline: [
      [1840, 4440],
      [2000, 4400],
      [2120, 4470],
      [2110, 4590],
      [1970, 4640],
      [1850, 4580],
    ],
  },
  {
    id: 'oskle-marsh',
    kind: 'marsh',
    outline: [
      [2320, 950],
      [2440, 900],
      [2560, 1250],
      [2500, 1400],
      [2380, 1300],
    ],
  },
  {
    id: 'saddle-tussock',
    kind: 'tussock',
    outline: [
      [3500, 3050],
      [3700, 2980],
      [3860, 3120],
      [3760, 3260],
      [3560, 3260],
    ],
  },
  {
    id: 'scar-scree',
    kind: 'scree',
    outline: [
      [2660, 2950],
      [2780, 2930],
      [2930, 2960],
      [3060, 2930],
      [3040, 2890],
      [2900, 2900],
      [2740, 2880],
    ],
  },
  {
    id: 'scar-boulders',
    kind: 'boulder-field',
    outline: [
      [2740, 2880],
      [2900, 2900],
      [2960, 2850],
      [2860, 2790],
      [2740, 2810],
    ],
  },
  {
    id: 'larch-wood',
    kind: 'forest',
    name: 'Larch Plantation',
    outline: [
      [3820, 3060],
      [4060, 2985],
      [4330, 3060],
      [4620, 2960],
      [4850, 2870],
      [5200, 2780],
      [5260, 3080],
      [4900, 3320],
      [4400, 3360],
      [3930, 3260],
    ],
  },
];

/** Names of the streams, by a place near the middle of each. */
export const STREAM_NAMES: readonly { readonly id: string; readonly name: string; readonly near: Point }[] = [
  { id: 'oskle-sike', name: 'Oskle Sike', near: [2190, 3930] },
  { id: 'oskle-beck', name: 'Oskle Beck', near: [2130, 2500] },
  { id: 'hathen-sike', name: 'Hathen Sike', near: [3290, 3400] },
  { id: 'hathen-beck', name: 'Hathen Beck', near: [3150, 1900] },
  { id: 'house-sike', name: 'House Sike', near: [1230, 2900] },
  { id: 'house-beck', name: 'House Beck', near: [710, 1400] },
  { id: 'ullin-sike', name: 'Ullin Sike', near: [1280, 4230] },
  { id: 'ullin-beck', name: 'Ullin Beck', near: [560, 3820] },
  { id: 'turf-beck', name: 'Turf Beck', near: [4200, 3850] },
  { id: 'larch-sike', name: 'Larch Sike', near: [4500, 2080] },
  { id: 'saddle-sike', name: 'Saddle Sike', near: [4200, 3400] },
  { id: 'norrow-sike', name: 'Norrow Sike', near: [1030, 5300] },
];
