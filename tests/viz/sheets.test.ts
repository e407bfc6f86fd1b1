import { describe, expect, test } from 'vitest';
import { PLAIN_READING, type Reading } from '../../src/door/reading.ts';
import type { Candidate, Report } from '../../src/report/report.ts';
import { printSheets } from '../../viz/map/print-map.ts';
import { groundBounds, taskBounds } from '../../viz/map/view.ts';
import { renderCard } from '../../viz/report/card.ts';
import { notFoundText, stopByMinutes, wayOutText } from '../../viz/report/card-words.ts';
import { renderMapPrint } from '../../viz/report/map-pages.ts';
import { northsText, placeText } from '../../viz/report/places.ts';
import { renderTaskSheet } from '../../viz/report/task-sheet.ts';
import { wordsOf } from '../../viz/report/words.ts';
import { sampleReport } from '../figures/sample-report.ts';

const report = sampleReport();
const words = wordsOf(report);
const route = report.candidates[3]!;
const text = (html: string) =>
  html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('route card', () => {
  const said = text(renderCard(report, route, ''));

  test('says every leg: both bearings, metres, double paces, climb, minutes, ticks', () => {
    for (const leg of route.legs) {
      expect(said).toContain(leg.to);
      for (const degrees of [leg.gridBearingDegrees, leg.magneticBearingDegrees!]) {
        expect(said).toContain(`${String(degrees).padStart(3, '0')}°`);
      }
      for (const tick of leg.ticks) expect(said).toContain(`${tick.name} at `);
    }
    expect(said).toContain('Grid to magnetic: add 2° (WMM2025, 25 Nov 2026');
    expect(said).toContain('64 double paces to 100 m');
  });

  test('the aim-off side, what is too far and the hazard side are printed where the report has them', () => {
    const leg = {
      ...route.legs[0]!,
      aimOff: { side: 'left', metres: 60 },
      catching: { name: 'Long Dyke', beyondMetres: 120 },
      hazardSide: 'right',
    } as const;
    const c: Candidate = { ...route, hazard: { share: 0.01 }, legs: [leg, ...route.legs.slice(1)] };
    const full = text(renderCard(report, c, ''));
    expect(full).toContain('60 m left: on the line turn right');
    expect(full).toContain('Long Dyke, 120 m beyond');
    expect(full).toContain('hazard on the right');
    for (const part of ['on the line turn', 'm beyond', 'on the right']) expect(said).not.toContain(part);
    expect(said).toContain('hazard not assessed');
  });

  test('a way out only where hazards are assessed and under 1 party in 200 enters one', () => {
    const way = (hazardTrials: number, hazard: Candidate['hazard']): string =>
      wayOutText(
        report,
        {
          ...route,
          hazard,
          wayOut: { says: 'Down Cotter Beck to the track', trials: 1000, hazardTrials },
        },
        words,
      );
    expect(way(4, { share: 0.1 })).toContain('Down Cotter Beck');
    expect(way(5, { share: 0.1 })).toBe('None found: turn back to Peat House, the way you came.');
    expect(way(0, 'not assessed')).toContain('None found');
    expect(wayOutText(report, { ...route, hazard: { share: 0 } }, words)).toContain('None found');
  });

  test('stop-by times grow to the slow tenth of all attempts; the report’s own come first', () => {
    const times = stopByMinutes(route, report.limits);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times[times.length - 1]).toBeCloseTo(route.minutes.p90, 6);
    const own = { ...route, legs: route.legs.map((l, i) => ({ ...l, stopByMinutes: 10 * (i + 1) })) };
    expect(stopByMinutes(own, report.limits)).toEqual([10, 20, 30]);
    expect(stopByMinutes(own, { ...report.limits, turnRoundMinutes: 25 })).toEqual([10, 20, 25]);
  });

  test('if not found: search, second try and turn-round as the task allows them', () => {
    expect(notFoundText(report, route, words)).toBe(
      'Search for up to 10 minutes, in sight and voice of each other. Then back to the crossing of runnel and dyke and try once more. Turn round 60 minutes after setting off, found or not.',
    );
    const strict: Report = {
      ...report,
      limits: { ...report.limits, searchMinutes: 0, relaunches: 0, turnRoundMinutes: null },
    };
    expect(notFoundText(strict, route, words)).toBe('Then back to the crossing of runnel and dyke.');
  });
});

test('places and norths', () => {
  // Ordnance Survey, "A guide to coordinate systems in Great Britain": letters of the 100 km square, then eastings and northings.
  expect(placeText([432310, 613760], report)).toBe('NU 3231 1376');
  expect(northsText({ ...report, norths: { ...report.norths!, declinationDegrees: 3.4 } }, words)).toContain(
    'take off 3°',
  );
  expect(northsText({ ...report, norths: { ...report.norths!, declinationDegrees: 0.5 } }, words)).toContain(
    'the same to half a degree',
  );
  expect(northsText({ ...report, norths: null }, words)).toContain('no date');
});

test('the task sheet gives nothing away: no route, no figure, no bearing, nothing drawn but the map', () => {
  const html = renderTaskSheet(report, '');
  const said = text(html);
  for (const c of report.candidates) {
    expect(said).not.toContain(c.name);
    expect(said).not.toContain(c.strategy);
    for (const leg of c.legs) expect(said).not.toContain(leg.says);
  }
  for (const verdict of report.verdict) expect(said).not.toContain(verdict);
  expect(html).not.toMatch(/data-route|route-line|end-dot|badge/);
  expect(said).not.toMatch(/\d+ of 100 such/);
  expect(said).toContain('Peat House, NU 3042 1312');
});

describe('sheets of paper', () => {
  const paper = { upright: { widthMm: 188, heightMm: 250 }, across: { widthMm: 275, heightMm: 163 } };

  test.each([25_000, 10_000, 5_000, 2_500])(
    'at 1:%d they hold the whole task, each at the scale it says',
    (scale) => {
      const sheets = printSheets(report, taskBounds(report), scale, paper);
      for (const s of sheets) {
        expect(((s.bounds.east - s.bounds.west) / s.widthMm) * 1000).toBeCloseTo(scale, 3);
        expect(((s.bounds.north - s.bounds.south) / s.heightMm) * 1000).toBeCloseTo(scale, 3);
        expect(s.widthMm).toBeLessThanOrEqual(275);
      }
      for (const p of report.candidates.flatMap((c) => c.line)) {
        const held = sheets.some(
          ({ bounds: b }) => p[0] >= b.west && p[0] <= b.east && p[1] >= b.south && p[1] <= b.north,
        );
        expect(held, `${p}`).toBe(true);
      }
    },
  );

  test('no sheet is larger than the ground, and a large scale takes several', () => {
    const ground = groundBounds(report);
    const [only, ...more] = printSheets(report, taskBounds(report), 25_000, paper);
    expect(more).toEqual([]);
    expect(only!.bounds.east - only!.bounds.west).toBeLessThanOrEqual(ground.east - ground.west + 1e-6);
    expect(printSheets(report, taskBounds(report), 5_000, paper).length).toBeGreaterThan(2);
  });
});

describe('a printed map says in which units its contours are, and draws them so', () => {
  const printed = (reading: Reading) => renderMapPrint({ ...report, reading }, 25_000, '');
  const numbers = (html: string) =>
    [...html.matchAll(/<text[^>]*class="name on-paper height"[^>]*>(\d+)</g)].map((m) => Number(m[1]));

  test('metres', () => {
    const html = printed(PLAIN_READING);
    const interval = Number(/Contours every (\d+) m\./.exec(html)?.[1]);
    expect(numbers(html).length).toBeGreaterThan(0);
    for (const height of numbers(html)) expect(height % (5 * interval)).toBe(0);
    expect(html).toContain('if the bar measures 40 mm');
  });

  test('feet, with a bar of half a mile: 804.672 m are 32.19 mm, 1.27 in of paper at 1:25 000', () => {
    const html = printed({ ...PLAIN_READING, units: 'imperial' });
    const interval = Number(/Contours every (\d+) ft\./.exec(html)?.[1]);
    expect(numbers(html).length).toBeGreaterThan(0);
    for (const height of numbers(html)) expect(height % (5 * interval)).toBe(0);
    expect(html).toContain('if the bar measures 1.27 in');
    expect(html).toContain('½ mi');
  });
});
