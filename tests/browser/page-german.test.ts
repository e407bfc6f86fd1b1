import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openFile } from './opened.ts';
import { button, give, openPage, problem, ready } from './planning-page.ts';

describe.skipIf(chromiumPath === null)(
  'the planning page for readers of German, of feet and of yards',
  () => {
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
      expect(await answer('GeoTIFF')).toMatch(/das GeoTIFF .*(?<! is .*)$/);
      await give(page, ['wrong.task.yaml', 'version: 1\ntarget: x\nstrat: y\n']);
      expect(await answer('strat')).toContain(
        'dieser Schlüssel ist hier nicht bekannt; gemeint war vielleicht start?',
      );
      expect(said()).toEqual([]);
      await page.close();
    });

    test('the sentence is in feet, yards and miles an hour, and the task stays in metres', async () => {
      const { page } = await openFile(browser, html, {
        viewport: { width: 1280, height: 900 },
        locale: 'en-GB',
      });
      await ready(page);
      const field = (name: string) => page.locator(`[data-control="${name}"]`);
      expect(await field('cloudBase').inputValue()).toBe('525');
      await page.evaluate(() => localStorage.setItem('mistwise units', 'imperial'));
      await page.reload();
      await ready(page);
      // 525 m / 0.3048, 90 m and 1500 m / 0.9144, 9 m/s × 3600 / 1609.344
      const shown = ['cloudBase', 'above', 'below', 'wind'].map((name) => field(name).inputValue());
      expect(await Promise.all(shown)).toEqual(['1722', '98', '1640', '20']);
      expect(await page.locator('.sentence').textContent()).toMatch(
        / ft, .* yd to be seen in it, .* yd below it.* mph/,
      );
      expect(await field('cloudBase').getAttribute('aria-label')).toBe('cloud base, feet');
      await field('cloudBase').fill('1700');
      await page.keyboard.press('Tab');
      expect(await field('cloudBase').inputValue()).toBe('1700');
      await page.evaluate(() => localStorage.setItem('mistwise units', 'metric'));
      await button(page, 'undo').waitFor();
      await page.reload();
      await ready(page);
      // 1700 ft are 518.16 m
      expect(await field('cloudBase').inputValue()).toBe('518.16');
      await page.close();
    });
  },
);
