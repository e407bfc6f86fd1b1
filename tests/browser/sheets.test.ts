import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sampleReport } from '../figures/sample-report.ts';
import { buildRenderer } from './built-report.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openFile, seriousFaults } from './opened.ts';

const HOSTILE = '<img src=x onerror="window.hit=1"></title></style></script><script>window.hit=1</script>';
const MM = 96 / 25.4;

describe.skipIf(chromiumPath === null)('cards, maps and task sheets in Chromium', () => {
  let browser: Browser;
  let sheets: ReadonlyMap<string, string>;
  let hostile: ReadonlyMap<string, string>;
  let wordy: ReadonlyMap<string, string>;

  beforeAll(async () => {
    const [started, renderer] = await Promise.all([launch(), buildRenderer()]);
    browser = started;
    const all = (report: ReturnType<typeof sampleReport>) =>
      new Map(renderer.renderSheets(report).map((s) => [s.name, s.html]));
    const sample = sampleReport({ routes: 4 });
    sheets = all(sample);
    wordy = all({
      ...sample,
      reading: { language: 'de', units: 'imperial', bearings: 'mils' },
      attributions: ["A long name of a ground: heights and features by somebody's own script, of a year"],
      // as much ground as fills the paper
      ground: { ...sample.ground, cell: 4 * sample.ground.cell },
    });
    hostile = all({
      ...sample,
      task: {
        ...sample.task,
        name: HOSTILE,
        terrain: HOSTILE,
        start: { ...sample.task.start, name: HOSTILE },
        target: { ...sample.task.target, name: HOSTILE },
      },
      sentence: HOSTILE,
      attributions: [HOSTILE],
      features: sample.features.map((f) => ({ ...f, name: HOSTILE })),
      candidates: sample.candidates.slice(0, 1).map((c) => ({
        ...c,
        name: HOSTILE,
        legs: c.legs.map((l) => ({ ...l, says: HOSTILE, from: HOSTILE, to: HOSTILE })),
      })),
    });
  });
  afterAll(() => browser?.close());

  test('there is a card for each route, the map at two scales, and the task', () => {
    expect([...sheets.keys()]).toEqual([
      'card-a.html',
      'card-b.html',
      'card-c.html',
      'card-d.html',
      'map-25000.html',
      'map-10000.html',
      'task-sheet.html',
    ]);
  });

  test.each([
    ['card-d.html', 'light'],
    ['card-d.html', 'dark'],
    ['task-sheet.html', 'light'],
    ['map-10000.html', 'light'],
  ] as const)('%s, %s: quiet, no serious fault of access', async (name, colorScheme) => {
    const { page, said } = await openFile(browser, sheets.get(name)!, {
      viewport: { width: 390, height: 800 },
      colorScheme,
    });
    expect(await seriousFaults(page)).toEqual([]);
    expect(said).toEqual([]);
    await page.close();
  });

  test('on a phone each leg is a screen, large, and the thumb goes on to the next', async () => {
    const { page } = await openFile(browser, sheets.get('card-d.html')!, {
      viewport: { width: 390, height: 800 },
    });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    const screens = await page
      .locator('.screen')
      .evaluateAll((all) => all.map((e) => e.getBoundingClientRect().height));
    expect(screens).toHaveLength(5);
    for (const tall of screens) expect(tall).toBeGreaterThanOrEqual(800);
    const size = await page
      .locator('#leg-1 .fact.large dd')
      .first()
      .evaluate((e) => parseFloat(getComputedStyle(e).fontSize));
    expect(size).toBeGreaterThanOrEqual(48);
    const thumb = await page.locator('#leg-1 .steps a').last().boundingBox();
    expect(thumb!.height).toBeGreaterThanOrEqual(44);
    await page.locator('#leg-1 .steps a').last().click();
    await expect
      .poll(() => page.locator('#leg-2').evaluate((e) => Math.abs(e.getBoundingClientRect().top)))
      .toBeLessThan(40);
    await page.close();
  });

  test('the box on the card turns day into night', async () => {
    const { page } = await openFile(browser, sheets.get('card-d.html')!, { colorScheme: 'light' });
    const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    expect(await paper()).toBe('rgb(250, 250, 247)');
    await page.locator('#other-light').check();
    expect(await paper()).toBe('rgb(20, 24, 28)');
    await page.close();
  });

  test.each([
    ['map-25000.html', 1000, 25_000],
    ['map-10000.html', 500, 10_000],
  ] as const)('%s is at its true scale on paper', async (name, metres, scale) => {
    const { page } = await openFile(browser, sheets.get(name)!);
    await page.emulateMedia({ media: 'print' });
    const bar = await page
      .locator('.print-map .scale-line')
      .first()
      .evaluate((e) => (e as SVGPathElement).getBBox().width * (e as SVGPathElement).getScreenCTM()!.a);
    expect(bar / MM).toBeCloseTo((metres / scale) * 1000, 1);
    // And two grid ticks lie as far apart as their kilometres say.
    const ticks = await page
      .locator('.print-map')
      .first()
      .evaluate((svg) =>
        [...svg.querySelectorAll('line.grid-tick')]
          .filter((l) => l.getAttribute('y1') === '0')
          .map((l) => l.getBoundingClientRect().x),
      );
    expect((ticks[1]! - ticks[0]!) / MM).toBeCloseTo((metres / scale) * 1000, 1);
    await page.close();
  });

  test.each([
    ['card-d.html', 419.5, 595.2, 3],
    ['map-25000.html', 595.2, 841.9, 1],
    ['task-sheet.html', 595.2, 841.9, 2],
  ] as const)('%s prints on its own paper', async (name, wide, tall, pages) => {
    const { page } = await openFile(browser, sheets.get(name)!);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    const boxes = [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map((m) => [
      Number(m[1]),
      Number(m[2]),
    ]);
    expect(boxes.length).toBeGreaterThan(0);
    for (const [w, h] of boxes) {
      expect(Math.abs(w! - wide)).toBeLessThan(2);
      expect(Math.abs(h! - tall)).toBeLessThan(2);
    }
    expect(pdf.match(/\/Type\s*\/Page[^s]/g)!.length).toBeLessThanOrEqual(pages);
    await page.close();
  });

  test.each(['map-25000.html', 'map-10000.html'])(
    '%s in German, feet and mils, with its longest words below, is one sheet of paper for each of its own',
    async (name) => {
      const html = wordy.get(name)!;
      const { page } = await openFile(browser, html);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page[^s]/g)).toHaveLength(html.match(/class="map-page"/g)!.length);
      await page.close();
    },
  );

  test('whatever the data says is shown as text', async () => {
    for (const name of ['card-a.html', 'map-25000.html', 'task-sheet.html']) {
      const { page, said } = await openFile(browser, hostile.get(name)!);
      const facts = await page.evaluate(() => ({
        hit: (window as unknown as { hit?: number }).hit ?? 0,
        images: document.querySelectorAll('img').length,
        scripts: document.querySelectorAll('script').length,
      }));
      expect(facts, name).toEqual({ hit: 0, images: 0, scripts: 0 });
      expect(await page.title()).toContain('<img');
      expect(said).toEqual([]);
      await page.close();
    }
  });
});
