import { expect, test } from 'vitest';
import type { Reading } from '../../src/door/reading.ts';
import type { Candidate, Report } from '../../src/report/report.ts';
import { renderCard } from '../../viz/report/card.ts';
import { englishPages } from '../../viz/report/english.ts';
import { germanPages } from '../../viz/report/german.ts';
import { renderMapPrint } from '../../viz/report/map-pages.ts';
import { renderReport } from '../../viz/report/render.ts';
import { renderTaskSheet } from '../../viz/report/task-sheet.ts';
import { sampleReport } from '../figures/sample-report.ts';
import { englishIn, saidOn } from './said.ts';

const GERMAN: Reading = { language: 'de', units: 'metric', bearings: 'degrees' };
const sample = sampleReport({ varied: true, trials: 200 });
/** The sample's own sentences are English; those of a German document are looked at elsewhere. */
const plain: Report = {
  ...sample,
  sentence: 'Von A nach B.',
  candidates: sample.candidates.map((c) => ({ ...c, strategy: 'über A' })),
};

/** Everything that a page may have to say, whatever the document's own sentences. */
const change = {
  success: { difference: 0.07, low: 0.04, high: 0.1 },
  minutes: { difference: -3, low: -5, high: -1 },
};
const split = { trials: 100, share: 0.4, low: 0.3, high: 0.5 };
const full: Report = {
  ...plain,
  reading: GERMAN,
  worthChecking: [
    {
      name: 'Long Dyke',
      exists: 0.8,
      ifThere: plain.candidates[0]!.id,
      ifGone: plain.candidates[1]!.id,
      unknowing: plain.candidates[0]!.id,
      gain: change.success,
    },
  ],
  candidates: plain.candidates.map(
    (c): Candidate => ({
      ...c,
      hazard: { share: 0.03 },
      wayOut: { says: 'Long Dyke', trials: 1000, hazardTrials: 1 },
      alike: ['Long Dyke'],
      changes: {
        looked: 4,
        trials: 100,
        helped: c.letter === 'A' ? [{ kind: 'aim off', says: 'Long Dyke', ...change }] : [],
      },
      leansOn: [{ name: 'Long Dyke', exists: 0.8, there: split, gone: split }],
      legs: c.legs.map((l) => ({
        ...l,
        aimOff: { side: 'left', metres: 60 },
        catching: { name: 'Long Dyke', beyondMetres: 120 },
        hazardSide: 'both sides',
      })),
    }),
  ),
};
const bare: Report = {
  ...plain,
  reading: GERMAN,
  norths: null,
  task: { ...plain.task, mapDate: null },
  conditions: {
    ...plain.conditions,
    light: 'dark',
    visibility: { below: 1500, above: 1500, cloudBase: null },
  },
  party: { ...plain.party, people: 1 },
  limits: { ...plain.limits, minutes: null, searchMinutes: 0, relaunches: 0, turnRoundMinutes: null },
  candidates: plain.candidates.map(({ assumption: _, ...c }) => c),
};

/** Every text of the document itself: of the sample they are English. */
function textsOf(value: unknown): string[] {
  if (typeof value === 'string') return value.length > 1 ? [value] : [];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsOf) : [];
}

const pages = (report: Report): string[] => [
  renderReport(report, { css: '', script: '' }),
  ...report.candidates.slice(0, 2).map((c) => renderCard(report, c, '')),
  renderMapPrint(report, 25_000, ''),
  renderTaskSheet(report, ''),
];

test.each([
  ['everything', full, GERMAN],
  ['as little as there may be', bare, { ...GERMAN, units: 'imperial', bearings: 'mils' } as const],
])('German pages of a report with %s hold no English', (_, report, reading) => {
  const own = { ...report, reading };
  // what the document says is not the pages' to translate; its marks and kinds are
  const given = textsOf({ ...own, reading: null, conditions: null, party: null }).filter(
    (t) => !/^(common practice|published|not assessed|left|both sides)$/.test(t),
  );
  for (const page of pages(own)) {
    expect(page).toMatch(/<html lang="de">/);
    expect(englishIn(saidOn(page), given)).toEqual([]);
  }
});

test('feet, yards and mils are on every page that has figures', () => {
  const own: Report = { ...full, reading: { language: 'en', units: 'imperial', bearings: 'mils' } };
  const [report = '', card = ''] = pages(own).map((page) => saidOn(page).join('\n'));
  const leg = own.candidates[0]!.legs[0]!;
  // international yard, 0.9144 m; 6400 mils to the circle
  const yards = String(Math.round(leg.distanceMetres / 0.9144)).replace(/\B(?=(\d{3})+$)/g, '\u202f');
  const mils = String(Math.round((leg.gridBearingDegrees * 6400) / 360)).padStart(4, '0');
  for (const page of [report, card]) {
    expect(page.split('\n')).toContain(yards);
    expect(page.split('\n')).toContain(mils);
  }
  expect(card).toContain('66 yd left: on the line turn right');
  expect(card).toContain('Long Dyke, 131 yd beyond');
  expect(report).toContain(`${Math.round(own.conditions.visibility.cloudBase! / 0.3048)} ft`);
});

test('names on a map are German where the program gave them, and stay where people did', () => {
  const { shownName } = germanPages(GERMAN).figures;
  expect(shownName('end of Oskle Sike', 'stream-end')).toBe('Ende von Oskle Sike');
  expect(shownName('head of Oskle Sike')).toBe('Ursprung von Oskle Sike');
  expect(shownName('end of the world', 'post')).toBe('end of the world');
  expect(englishPages(GERMAN).figures.shownName('end of Oskle Sike')).toBe('end of Oskle Sike');
});

test('German and English say different things under every key', () => {
  const same: string[] = [];
  const look = (en: unknown, de: unknown, path: string): void => {
    if (typeof en === 'string' && en === de && en.length > 4 && !/^(Route|metric)$/i.test(en))
      same.push(`${path}: ${en}`);
    if (typeof en !== 'object' || en === null || en instanceof RegExp) return;
    for (const key of Object.keys(en))
      look((en as Record<string, unknown>)[key], (de as Record<string, unknown>)[key], `${path}.${key}`);
  };
  const plainEnglish = { ...GERMAN, language: 'en' } as const;
  look({ ...englishPages(plainEnglish), reading: null }, { ...germanPages(GERMAN), reading: null }, '');
  expect(same).toEqual([]);
});
