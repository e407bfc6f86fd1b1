import type { Browser, BrowserContextOptions } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Report } from '../../src/report/report.ts';
import { sampleReport } from '../figures/sample-report.ts';
import { buildRenderer, type ReportRenderer } from './built-report.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openFile, seriousFaults } from './opened.ts';

const HOSTILE =
  '<img src=x onerror="window.hit=1"></title></style></script><script>window.hit=1</script>&amp;';

describe.skipIf(chromiumPath === null)('the report in Chromium', () => {
  let browser: Browser;
  let renderer: ReportRenderer;
  /** The sample as drawn once: most tests look at the same page. */
  let sample: string;

  beforeAll(async () => {
    [browser, renderer] = await Promise.all([launch(), buildRenderer()]);
    sample = renderer.renderReport(sampleReport());
  });
  afterAll(async () => {
    await browser?.close();
  });

  const open = (html: string, context: BrowserContextOptions = {}) => openFile(browser, html, context);

  test.each([
    [1280, 'light'],
    [390, 'light'],
    [1280, 'dark'],
  ] as const)(
    'at %d px, %s: quiet, nothing past the edge, no serious fault of access',
    async (width, colorScheme) => {
      const { page, said } = await open(sample, { viewport: { width, height: 900 }, colorScheme });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(await seriousFaults(page)).toEqual([]);
      expect(said).toEqual([]);
      await page.close();
    },
  );

  test('in German it fits a phone, is as quiet, and steps through an attempt in German', async () => {
    const html = renderer.renderReport({
      ...sampleReport(),
      reading: { language: 'de', units: 'metric', bearings: 'degrees' },
    });
    const { page, said } = await open(html, { viewport: { width: 390, height: 900 } });
    expect(await page.evaluate(() => document.documentElement.lang)).toBe('de');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    expect(await seriousFaults(page)).toEqual([]);
    const walk = page.locator('.walk').first();
    for (let i = 0; i < 3; i++) await walk.getByRole('button', { name: 'weiter' }).click();
    expect(await walk.locator('output').textContent()).toMatch(
      /^3 von 5: 30 min, erkennt das Ende des Abschnitts, \d+ m neben dem vermuteten Ort$/,
    );
    expect(said).toEqual([]);
    await page.close();
  });

  test('with scripts off it is complete: drawings, tables, and the legend still switches layers', async () => {
    const { page } = await open(sample, {
      viewport: { width: 1280, height: 900 },
      javaScriptEnabled: false,
    });
    for (const id of [
      'task-map',
      'found-by-chart',
      'time-success-chart',
      'hundred-chart',
      'end-point-panels',
    ]) {
      const box = await page.locator(`#${id} svg.figure:visible`).first().boundingBox();
      expect(box!.height, id).toBeGreaterThan(150);
    }
    expect(await page.locator('#legs .route-part').count()).toBe(6);
    // a single attempt is told whole; buttons that would do nothing are not there
    expect(await page.locator('.walk tbody tr').count()).toBe(5);
    expect(await page.locator('.walk button').count()).toBe(0);
    const contours = page.locator('#task-map .wide .layer-contours');
    expect(await contours.isVisible()).toBe(true);
    await page.getByLabel('contours every 20 m').uncheck();
    expect(await contours.isVisible()).toBe(false);
    await page.close();
  });

  test('a single attempt is stepped through by keys: what happened is said and marked, what comes later is not drawn yet', async () => {
    const { page, said } = await open(sample, { viewport: { width: 1280, height: 900 } });
    const walk = page.locator('.walk').first();
    const drawn = () => walk.locator('.wide .walk-event:visible').count();
    expect(await drawn()).toBe(5);
    await walk.getByRole('button', { name: 'on' }).focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('Enter');
    // sample: the third event of five, at 30 minutes; the line has drifted there by half of its whole drift
    expect(await walk.locator('output').textContent()).toMatch(
      /^3 of 5: 30 min, recognises the end of the leg, \d+ m off/,
    );
    expect(await drawn()).toBe(3);
    expect(await walk.locator('tr.now').count()).toBe(1);
    await walk.getByRole('button', { name: 'all' }).click();
    expect(await drawn()).toBe(5);
    expect(said).toEqual([]);
    await page.close();
  });

  test('a route lit anywhere is lit everywhere; Escape lets go; keys reach it', async () => {
    const { page } = await open(sample, { viewport: { width: 1280, height: 900 } });
    const lit = () => page.evaluate(() => document.documentElement.getAttribute('data-lit'));
    const faded = (letter: string) =>
      page
        .locator(`#found-by-chart .wide .route[data-route="${letter}"]`)
        .first()
        .evaluate((e) => Number(getComputedStyle(e).opacity) < 0.5);
    await page.locator('.routes li[data-route="D"]').hover();
    expect(await lit()).toBe('D');
    expect([await faded('D'), await faded('A')]).toEqual([false, true]);
    await page.mouse.move(2, 2);
    expect(await lit()).toBe(null);
    await page.locator('.routes a.letter[data-route="B"]').focus();
    expect(await lit()).toBe('B');
    await page.keyboard.press('Escape');
    expect(await lit()).toBe(null);
    await page.close();
  });

  test('the tab key reaches every route and every layer, and shows where it is', async () => {
    const { page } = await open(sample, { viewport: { width: 1280, height: 900 } });
    const seen = new Set<string>();
    for (let i = 0; i < 40; i++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const e = document.activeElement;
        return e === null
          ? ''
          : `${e.getAttribute('data-route') ?? ''}${e.className} ${getComputedStyle(e).outlineStyle}`;
      });
      seen.add(at);
    }
    const text = [...seen].join('\n');
    for (const letter of 'ABCDEF') expect(text).toMatch(new RegExp(`^${letter}letter.* solid$`, 'm'));
    for (const layer of ['routes', 'ends', 'features', 'names', 'ground', 'contours', 'relief']) {
      expect(text).toContain(`switch-${layer}`);
    }
    await page.close();
  });

  test('whatever the data says is shown as text', async () => {
    const plain = sampleReport();
    const hostile: Report = {
      ...plain,
      task: {
        ...plain.task,
        name: HOSTILE,
        terrain: HOSTILE,
        target: { ...plain.task.target, name: HOSTILE },
        start: { ...plain.task.start, name: HOSTILE },
      },
      sentence: HOSTILE,
      verdict: [HOSTILE],
      cautions: [HOSTILE],
      notes: [HOSTILE],
      attributions: [HOSTILE],
      features: plain.features.map((f) => ({ ...f, name: HOSTILE })),
      candidates: plain.candidates.map((c) => ({
        ...c,
        name: HOSTILE,
        strategy: HOSTILE,
        legs: c.legs.map((l) => ({
          ...l,
          says: HOSTILE,
          from: HOSTILE,
          to: HOSTILE,
          ticks: [{ name: HOSTILE, atMetres: 10 }],
        })),
      })),
      assumptions: plain.assumptions.map((a) => ({ ...a, name: HOSTILE, value: HOSTILE, source: HOSTILE })),
      ground: { ...plain.ground, source: HOSTILE },
      norths: { ...plain.norths!, model: HOSTILE },
    };
    const { page, said } = await open(renderer.renderReport(hostile), {
      viewport: { width: 1280, height: 900 },
    });
    const facts = await page.evaluate(() => ({
      hit: (window as unknown as { hit?: number }).hit ?? 0,
      images: document.querySelectorAll('img').length,
      scripts: document.querySelectorAll('script').length,
      title: document.title,
      heading: document.querySelector('h1')!.textContent,
      caution: document.querySelector('#cautions li')!.textContent,
    }));
    expect(facts).toMatchObject({ hit: 0, images: 0, scripts: 1, caution: HOSTILE });
    expect(facts.title).toContain(HOSTILE);
    expect(facts.heading).toContain(HOSTILE);
    expect(said).toEqual([]);
    await page.close();
  });

  test('prints: drawings whole, no page wider than paper', async () => {
    const { page } = await open(renderer.renderReport(sampleReport({ routes: 3 })));
    const pdf = await page.pdf({ format: 'A4' });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) ?? [];
    expect(pages.length).toBeGreaterThanOrEqual(4);
    expect(pages.length).toBeLessThanOrEqual(14);
    await page.close();
  });

  test('is one light file that names nothing outside itself', () => {
    expect(sample.length).toBeLessThan(3e6);
    expect(sample).not.toMatch(/(?:src|href)="(?!#|data:)/);
  });
});
