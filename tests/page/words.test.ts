import { afterEach, describe, expect, test, vi } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Feature } from '../../src/features/feature.ts';
import { FEATURE_KINDS, type FeatureKind } from '../../src/features/kinds.ts';
import { problemSaid, problemText } from '../../viz/page/german-faults.ts';
import type { Results } from '../../viz/page/messages.ts';
import { Places } from '../../viz/page/places.ts';
import { bearingText, heightText, lengthText, shownNames, verdictLines } from '../../viz/page/said.ts';
import { LANGUAGES } from '../../viz/page/words.ts';
import { sampleReport } from '../figures/sample-report.ts';

const holes = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map((m) => m[1]).sort();

describe('the German words', () => {
  const { en, de } = LANGUAGES;

  test('say everything that the English ones say, with the same holes', () => {
    const names = Object.keys(en.texts) as (keyof typeof en.texts)[];
    expect(Object.keys(de.texts).sort()).toEqual([...names].sort());
    for (const name of names) expect(holes(de.texts[name]), name).toEqual(holes(en.texts[name]));
    for (const name of ['sentence', 'clear', 'cloud'] as const)
      expect(holes(de[name]), name).toEqual(holes(en[name]));
    expect(Object.keys(de.units)).toEqual(Object.keys(en.units));
    expect(Object.keys(de.controls).sort()).toEqual(Object.keys(en.controls).sort());
    expect(de.cautions.length).toBe(en.cautions.length);
  });

  test('are other words: nothing longer was left in English', () => {
    const left = (Object.keys(en.texts) as (keyof typeof en.texts)[]).filter(
      (name) => en.texts[name].length > 8 && en.texts[name] === de.texts[name],
    );
    expect(left).toEqual([]);
    for (const kind of FEATURE_KINDS) expect(de.kind(kind)).not.toBe('');
    expect(new Set(FEATURE_KINDS.map((k) => de.kind(k))).size).toBe(FEATURE_KINDS.length);
  });

  test('no language promises anything', () => {
    const all = JSON.stringify([en.texts, en.cautions, de.texts, de.cautions]);
    expect(all).not.toMatch(/\bsafe\b|guarantee|optimal|garantier|\bsicher\b/i);
  });
});

describe('figures as people want them', () => {
  const metric = { imperial: false, mils: false, comma: false };
  const other = { imperial: true, mils: true, comma: false };

  test('yards and feet by the international yard, 0.9144 m', () => {
    expect(lengthText(914.4, other)).toBe('1000 yd');
    expect(lengthText(1609.344 * 3, other)).toBe('3.00 mi');
    expect(heightText(304.8, other)).toBe('1000 ft');
    expect(lengthText(1500, metric)).toBe('1.50 km');
    expect(lengthText(1500, { ...metric, comma: true })).toBe('1,50 km');
  });

  test('mils of which 6400 make the circle', () => {
    expect(bearingText(90, other)).toBe('1600');
    expect(bearingText(359.99, other)).toBe('0000');
    expect(bearingText(45, other)).toBe('0800');
    expect(bearingText(7, metric)).toBe('007°');
  });
});

describe('routes that were found, on the German page', () => {
  const point = (id: string, name: string, kind: FeatureKind): Feature => ({
    id,
    name,
    kind,
    geometry: { type: 'point', at: [0, 0] },
    given: {},
    doubt: defaultDoubt(kind),
    origin: 'mapped',
  });
  const facts = {
    name: 'ground',
    grid: { crs: 'EPSG:27700', west: 0, north: 0, cell: 1, columns: 1, rows: 1 },
    heights: new Float32Array(1),
    features: [point('cotter', 'Cotter Track', 'track')],
    hazardsMapped: false,
    notes: [],
  };
  const places = new Places(facts);
  const leg = (technique: 'handrail' | 'bearing', extra: object) => ({
    technique,
    from: [0, 0] as const,
    to: [100, 0] as const,
    path: [
      [0, 0],
      [100, 0],
    ] as const,
    ticks: [],
    fine: false,
    ...extra,
  });
  const legs = [
    leg('handrail', { line: 'cotter', toFeature: 'junction:cotter+kettle' }),
    leg('bearing', { toFeature: 'target', fine: true }),
  ];
  const report = sampleReport();
  const [first, second] = report.candidates;
  const to = ['junction of Cotter Track and Kettle Fence', 'the target'];
  const found = {
    ...first!,
    origin: 'found',
    name: 'by Cotter Track',
    legs: first!.legs.slice(0, 2),
  } as const;
  const results: Results = {
    state: 1,
    coarse: false,
    report: {
      ...report,
      candidates: [{ ...found, legs: found.legs.map((l, i) => ({ ...l, to: to[i]! })) }, second!],
    },
    routes: [
      { id: found.id, name: found.name, origin: 'found', strategy: '', legs },
      { id: second!.id, name: second!.name, origin: 'drawn', strategy: '', legs: [] },
    ],
    understood: [],
  };

  test('are called after what they follow, even where only the search knows the place; drawn ones as people named them', () => {
    expect(shownNames(results, places, LANGUAGES.de)).toEqual([
      'über Cotter Track, ab der Abzweigung von Cotter Track und Kettle Fence',
      second!.name,
    ]);
    expect(shownNames(results, places, LANGUAGES.en)).toEqual(['by Cotter Track', second!.name]);
    expect(verdictLines(results, places, LANGUAGES.de).join(' ')).not.toContain('by Cotter Track');
  });
});

describe('places that the program named', () => {
  const point = (id: string, name: string, kind: FeatureKind): Feature => ({
    id,
    name,
    kind,
    geometry: { type: 'point', at: [5, -5] },
    given: {},
    doubt: defaultDoubt(kind),
    origin: 'derived',
  });
  const places = new Places({
    name: 'ground',
    grid: { crs: 'EPSG:27700', west: 0, north: 0, cell: 10, columns: 1, rows: 1 },
    heights: new Float32Array(1),
    features: [
      point('end:sike/source', 'end of Oskle Sike', 'stream-end'),
      point('junction:a+b', 'junction of Cotter Track and Kettle Fence', 'junction'),
      point('hut', 'Peat House', 'building'),
    ],
    hazardsMapped: false,
    notes: [],
  });
  const read = (language: string) => vi.stubGlobal('localStorage', { getItem: () => language });
  afterEach(() => vi.unstubAllGlobals());

  test('are offered and shown in the language of the page; names that people gave stay', () => {
    read('de');
    expect(places.offered()).toEqual([
      'Abzweigung von Cotter Track und Kettle Fence',
      'Ende von Oskle Sike',
      'Peat House',
    ]);
    expect(places.said({ feature: 'end:sike/source' })).toBe('Ende von Oskle Sike');
    read('en');
    expect(places.offered()).toContain('end of Oskle Sike');
    expect(places.said({ feature: 'end:sike/source' })).toBe('end of Oskle Sike');
  });

  test('are understood in either language, whatever the page is in', () => {
    for (const name of ['Ende von Oskle Sike', 'end of Oskle Sike', 'end:sike/source'])
      expect(places.typed(name)).toEqual({ feature: 'end:sike/source' });
  });
});

describe('what is wrong, on the page', () => {
  afterEach(() => vi.unstubAllGlobals());

  test('is said in its language, whether it was met here or in a worker', () => {
    const error = new UserError({ what: 'this archive cannot be read', where: 'a.zip', got: '3 files' });
    expect([problemText(error), problemSaid(error.message)]).toEqual([error.message, error.message]);
    vi.stubGlobal('localStorage', { getItem: () => 'de' });
    const german = 'a.zip: dieses Archiv lässt sich nicht lesen (vorgefunden: 3 Dateien)';
    expect([problemText(error), problemSaid(error.message)]).toEqual([german, german]);
    // a fault of ours is nobody's to translate
    expect(problemText(new Error('x is undefined'))).toBe('x is undefined');
  });
});
