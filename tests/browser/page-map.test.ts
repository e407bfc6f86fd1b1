import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { figuresAfter, give, openPage, ready, SHORT_TASK } from './planning-page.ts';

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** The planning page's map under a hand. */
describe.skipIf(chromiumPath === null)('the map of the planning page', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  /** Where the target's sign stands on the screen. */
  const target = (page: Page) =>
    page.evaluate(() => {
      const box = [...document.querySelectorAll('.live .marks .task-end')].at(-1)!.getBoundingClientRect();
      return [box.x + box.width / 2, box.y + box.height / 2] as const;
    });

  async function middleOf(page: Page): Promise<[number, number]> {
    const map = page.locator('.live');
    await map.scrollIntoViewIfNeeded();
    const box = (await map.boundingBox())!;
    return [box.x + box.width / 2, box.y + box.height / 2];
  }

  test('a hand shifts what is drawn, and it is drawn anew only when the hand rests', async () => {
    const { page, said } = await openPage(browser, html);
    const [x, y] = await middleOf(page);
    const before = await target(page);
    await page.evaluate(() => {
      const drawn = { times: 0 };
      Object.assign(window, { drawn });
      // the names are made anew with every drawing
      new MutationObserver(() => drawn.times++).observe(
        document.querySelector('.live .layer-names')!.parentElement!,
        { childList: true },
      );
    });
    const times = () => page.evaluate(() => (window as unknown as { drawn: { times: number } }).drawn.times);
    await page.mouse.move(x, y);
    await page.mouse.down();
    // a move for every picture, whatever else the machine does
    await page.evaluate(
      async ([left, top]) => {
        const map = document.querySelector('.live')!;
        for (let i = 1; i <= 20; i++) {
          await new Promise(requestAnimationFrame);
          const at = { clientX: left! - 2 * i, clientY: top! + 3 * i, pointerId: 1, bubbles: true };
          map.dispatchEvent(new PointerEvent('pointermove', at));
        }
        await new Promise(requestAnimationFrame);
      },
      [x, y],
    );
    const moving = await target(page);
    expect(await times()).toBeLessThan(3);
    await page.waitForFunction(() => !document.querySelector<SVGElement>('.live svg')!.style.transform);
    expect(await times()).toBeGreaterThan(0);
    await page.mouse.move(x - 40, y + 60);
    await page.mouse.up();
    const after = await target(page);
    // as far as the hand went, while it moves and after it
    for (const at of [moving, after]) {
      expect(Math.abs(at[0] - before[0] + 40)).toBeLessThan(6);
      expect(Math.abs(at[1] - before[1] - 60)).toBeLessThan(6);
    }
    expect(said()).toEqual([]);
    await page.close();
  });

  test('the figures of a dragged route stay in sight until the list of routes has them', async () => {
    const { page } = await openPage(browser, html);
    await page.locator('.routes li[data-route="C"] button').first().click();
    const handle = (await page.locator('.handle').first().boundingBox())!;
    const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 30, y - 10, { steps: 4 });
    await page.waitForFunction(() => document.querySelector('.hint b') !== null);
    await page.evaluate(() => {
      const without = { times: 0 };
      Object.assign(window, { without });
      const list = document.querySelector('.routes');
      new MutationObserver(() => {
        const listed = document.querySelector('.routes') !== list;
        if (!listed && document.querySelector('.hint b') === null) without.times++;
      }).observe(document.querySelector('.hint')!, { childList: true });
    });
    await figuresAfter(page, () => page.mouse.up());
    expect(
      await page.evaluate(() => (window as unknown as { without: { times: number } }).without.times),
    ).toBe(0);
    expect(await page.locator('.hint b').count()).toBe(0);
    await page.close();
  });

  test('on a phone two fingers move and scale the map, and the page stays where it is', async () => {
    const { page } = await openPage(browser, html, PHONE);
    const [x, y] = await middleOf(page);
    const [before, scrolled] = [await target(page), await page.evaluate(() => scrollY)];
    const cdp = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', down: number) =>
      cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints:
          type === 'touchEnd'
            ? []
            : [
                { x: x - 40, y: y + down, id: 0 },
                { x: x + 40, y: y + down, id: 1 },
              ],
      });
    await touch('touchStart', 0);
    for (let i = 1; i <= 12; i++) await touch('touchMove', 5 * i);
    await touch('touchEnd', 60);
    await page.waitForFunction(() => !document.querySelector<SVGElement>('.live svg')!.style.transform);
    const after = await target(page);
    expect(await page.evaluate(() => scrollY)).toBe(scrolled);
    expect(after[1] - before[1]).toBeGreaterThan(45);
    expect(Math.abs(after[0] - before[0])).toBeLessThan(8);
    await page.close();
  });

  test('on a phone whatever is pressed is 44 px high, and nothing stands in the way of anything else', async () => {
    const { page } = await openPage(browser, html, PHONE);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, select, input:not([type=checkbox]), .legend label')]
        .filter((e) => e.checkVisibility({ contentVisibilityAuto: true }) && !e.classList.contains('unseen'))
        .filter((e) => e.getBoundingClientRect().height < 43.5)
        .map((e) => `${e.tagName} ${e.textContent} ${e.getBoundingClientRect().height}`),
    );
    expect(small).toEqual([]);
    const scale = page.locator('.live .furniture text');
    const boxes = await Promise.all((await scale.all()).map((t) => t.boundingBox()));
    const [bar, north] = boxes.slice(-2).map((b) => b!);
    expect(bar!.x + bar!.width).toBeLessThan(north!.x);
    // the name of the target is whole
    const name = (await page.locator('.live .layer-names').getByText('Third Kettle').first().boundingBox())!;
    const map = (await page.locator('.live').boundingBox())!;
    expect(name.y).toBeGreaterThan(map.y + 12);
    await page.close();
  });

  test('routes that are found later come into sight, unless the reader has looked elsewhere', async () => {
    const { page } = await openPage(browser, html);
    await figuresAfter(page, () => give(page, ['short.task.yaml', SHORT_TASK]));
    const scaleText = () => page.locator('.live .furniture').textContent();
    const inside = () =>
      page.evaluate(() => {
        const map = document.querySelector('.live .neatline')!.getBoundingClientRect();
        return [...document.querySelectorAll('.live .layer-routes path')].every((path) => {
          const box = path.getBoundingClientRect();
          return box.top >= map.top && box.bottom <= map.bottom && box.left >= map.left;
        });
      });
    await ready(page, 'refined');
    expect(await page.locator('.routes li').count()).toBe(5);
    expect(await inside()).toBe(true);
    await page.getByRole('button', { name: 'nearer', exact: true }).click();
    const chosen = await scaleText();
    await figuresAfter(
      page,
      () =>
        page
          .locator('[data-control="people"]')
          .fill('5')
          .then(() => page.keyboard.press('Tab')),
      'refined',
    );
    expect(await scaleText()).toBe(chosen);
    await page.close();
  });
});
