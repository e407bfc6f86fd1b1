import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { seriousFaults } from './opened.ts';
import { figuresAfter, openPage } from './planning-page.ts';

describe.skipIf(chromiumPath === null)('reading the planning page', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('a route lit anywhere is lit everywhere, also when the map is drawn anew; Escape lets go', async () => {
    const { page } = await openPage(browser, html);
    const opacity = (where: string) =>
      page.evaluate((s) => getComputedStyle(document.querySelector(s)!).opacity, where);
    const onMap = (route: string) => opacity(`.live .layer-routes [data-route="${route}"]`);
    expect(await onMap('A')).toBe('1');
    await page.locator('.routes li[data-route="B"] .what b').hover();
    expect([await onMap('A'), await onMap('B')]).toEqual(['0.22', '1']);
    expect(await opacity('#strips [data-route="B"] svg [data-route="B"]')).toBe('1');
    // the keyboard lights as well, and it stays while figures come
    await figuresAfter(page, () =>
      page
        .locator('[data-control="people"]')
        .fill('5')
        .then(() => page.keyboard.press('Tab')),
    );
    await page.locator('.routes li[data-route="C"] button').first().focus();
    expect([await onMap('B'), await onMap('C')]).toEqual(['0.22', '1']);
    await page.keyboard.press('Escape');
    expect(await onMap('B')).toBe('1');
    await page.close();
  });

  test('every chart says the same as a table, which stays open while figures change', async () => {
    const { page } = await openPage(browser, html);
    const rows = (part: string) => page.locator(`.part-${part} details tbody tr`);
    await page.locator('.part-time-success summary').click();
    await page.locator('.part-found-by summary').click();
    expect(await rows('time-success').count()).toBe(3);
    const row = await rows('time-success').nth(1).textContent();
    const shown = await page.locator('.routes li[data-route="B"] .found b').textContent();
    expect(row).toContain('B round by the track to High Fold');
    expect(row).toContain(shown);
    // the last row holds what the curve ends with
    const last = await rows('found-by').last().locator('td').nth(1).textContent();
    expect(Math.abs(Number(last) - Number(shown))).toBeLessThanOrEqual(3);
    expect(await seriousFaults(page)).toEqual([]);
    await figuresAfter(page, () =>
      page
        .locator('[data-control="people"]')
        .fill('5')
        .then(() => page.keyboard.press('Tab')),
    );
    await page.waitForFunction(() => document.body.dataset.shown === document.body.dataset.ready);
    expect(await page.locator('.part-time-success details').getAttribute('open')).not.toBeNull();
    await page.close();
  });
});
