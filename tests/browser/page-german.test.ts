import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { englishIn } from '../viz/said.ts';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { button, give, openPage, problem } from './planning-page.ts';

const DEMO = new URL('../../terrains/demo/', import.meta.url);

describe.skipIf(chromiumPath === null)('the planning page, read in German, feet and yards', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('a fault met in a worker or on the page is said in German', async () => {
    const { page, said } = await openPage(browser, html, { locale: 'de-DE' });
    const answer = async (has: string) => {
      await page.waitForFunction(
        (text) => document.querySelector('.problem')?.textContent?.includes(text),
        has,
      );
      return problem(page);
    };
    await give(page, ['broken.tif', 'II*\0 no picture']);
    expect(englishIn([(await answer('GeoTIFF'))!], [])).toEqual([]);
    await give(page, ['wrong.task.yaml', 'version: 1\ntarget: x\nstrat: y\n']);
    expect(await answer('strat')).toContain(
      'dieser Schlüssel ist hier nicht bekannt; gemeint war vielleicht start?',
    );
    await page.getByLabel('Koordinate oder Name').fill('nirgendwo');
    await button(page, 'dorthin').click();
    expect(await answer('nirgendwo')).toContain('Gitterkoordinate in EPSG:32630 nicht verstanden');
    expect(said()).toEqual([]);
    await page.close();
  });

  test('nothing is English but names, and those of the program are German', async () => {
    const { page } = await openPage(browser, html, { locale: 'de-DE' });
    const texts = await page.evaluate(() => {
      const shown = [...document.querySelectorAll('[aria-label], [title], [placeholder]')].flatMap((e) =>
        ['aria-label', 'title', 'placeholder'].map((name) => e.getAttribute(name) ?? ''),
      );
      const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walk.nextNode(); node !== null; node = walk.nextNode())
        if (node.parentElement?.closest('script, style, noscript') === null)
          shown.push(node.textContent ?? '');
      return shown.filter((text) => text.trim() !== '');
    });
    expect(texts).toContain('Ursprung von House Sike');
    const { features } = JSON.parse(readFileSync(new URL('features.geojson', DEMO), 'utf8')) as {
      features: { properties: { name?: string } }[];
    };
    const names = features.flatMap((f) => f.properties.name ?? []).filter((n) => !n.includes(' of '));
    const drawn = [
      'over the Lawns on one bearing',
      'round by the track to High Fold',
      'up the old dyke, off to the sike',
    ];
    expect(englishIn(texts, [...names, ...drawn, 'The Third Kettle'])).toEqual([]);
    await page.close();
  });

  test('in feet, yards and miles an hour the task stays in metres', async () => {
    const { page } = await openPage(browser, html);
    const field = (name: string) => page.locator(`[data-control="${name}"]`);
    const units = page.locator('select', { hasText: 'feet and yards' });
    const shown = () => page.locator('body').textContent();
    expect(await field('cloudBase').inputValue()).toBe('525');
    expect(await shown()).toMatch(/Heights every 10 m: .*contours every \d+ m/s);
    await units.selectOption('imperial');
    // 525 m / 0.3048, 90 m and 1500 m / 0.9144, 9 m/s × 3600 / 1609.344
    const values = ['cloudBase', 'above', 'below', 'wind'].map((name) => field(name).inputValue());
    expect(await Promise.all(values)).toEqual(['1722', '98', '1640', '20']);
    expect(await page.locator('.sentence').textContent()).toMatch(
      / ft, .* yd to be seen in it, .* yd below it.* mph/,
    );
    expect(await field('cloudBase').getAttribute('aria-label')).toBe('cloud base, feet');
    expect(await shown()).toMatch(/Heights every 11 yd: relief smaller than 22 yd.*contours every \d+ ft/s);
    expect(await page.locator('.live .furniture').textContent()).toMatch(/\d (yd|mi)/);
    await field('cloudBase').fill('1700');
    await page.keyboard.press('Tab');
    expect(await field('cloudBase').inputValue()).toBe('1700');
    await units.selectOption('metric');
    // 1700 ft are 518.16 m
    expect(await field('cloudBase').inputValue()).toBe('518.16');
    await page.close();
  });
});
