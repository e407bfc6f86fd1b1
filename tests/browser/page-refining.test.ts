import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { button, figuresAfter, give, openPage, problem, ready, SHORT_TASK } from './planning-page.ts';

describe.skipIf(chromiumPath === null)('all attempts are walked in the end, whatever came between', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('another ground, a change in the midst of the work, a drag that is called off', async () => {
    const { page, said } = await openPage(browser, html);
    await figuresAfter(page, () => give(page, ['short.task.yaml', SHORT_TASK]));
    // another ground: the map has a boulder more
    await figuresAfter(page, async () => {
      await button(page, 'missing point').click();
      const box = (await page.locator('.live').boundingBox())!;
      await page.mouse.click(box.x + box.width * 0.5, box.y + box.height * 0.4);
    });
    // a change while the whole is being worked out
    await page.waitForTimeout(1000);
    await figuresAfter(page, async () => {
      await page.locator('[data-control="people"]').fill('5');
      await page.keyboard.press('Tab');
    });
    // a point is taken up and carried about, and let go again
    await page.locator('.routes li[data-route="C"] button').first().click();
    for (const key of ['.', 'm', 'ArrowUp', 'ArrowUp', 'Escape']) await page.keyboard.press(key);
    await ready(page, 'refined');
    expect(await page.locator('[data-control="people"]').inputValue()).toBe('5');
    expect(await page.locator('.own li').count()).toBe(1);
    expect(await problem(page)).toBe('');
    expect(said()).toEqual([]);
    await page.close();
  });
});
