import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from '../browser/built-page.ts';
import { chromiumPath, launch } from '../browser/chromium.ts';
import { openFile } from '../browser/opened.ts';

/** Milliseconds from the pointer's event to the picture that shows what follows from it, and of every picture. */
interface Timed {
  probes: number[];
  dropped: number[];
  frames: number[];
}

const DESK: BrowserContextOptions = { viewport: { width: 1280, height: 900 }, locale: 'en-GB' };
const PHONE: BrowserContextOptions = {
  viewport: { width: 390, height: 844 },
  locale: 'en-GB',
  deviceScaleFactor: 2,
};

/**
 * Speed of the page on the demo, on a machine that does nothing else: of several rounds the quickest counts, for what others do at the
 * same time is no fault of the page. Run by hand.
 */
describe.skipIf(chromiumPath === null)('the page answers quickly', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('first figures within 3 s; a dragged route within 100 ms at the 95th percentile, above 50 pictures a second', async () => {
    const { page } = await openFile(browser, html, DESK);
    const first = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const look = () =>
            document.body.dataset.ready ? resolve(performance.now()) : setTimeout(look, 10);
          look();
        }),
    );
    await refined(page);
    await page.evaluate(listen);
    // the demo's longest drawn route, of five legs
    await page.locator('.routes li[data-route="C"] button').first().click();
    const rounds: { drag: number; frames: number }[] = [];
    for (let round = 0; round < 3; round++) {
      const { x, y } = await takenUp(page);
      await forget(page);
      // other places in every round: what has been walked once is known
      const aside = 7 * round;
      for (let i = 1; i <= 60; i++)
        await moved(page, 'probes', x + aside + 40 * Math.sin(i / 6), y + aside / 2 - 1.5 * i);
      const { probes, frames } = await timed(page);
      await page.mouse.move(x, y);
      await page.mouse.up();
      expect(probes.length).toBeGreaterThan(50);
      rounds.push({ drag: at(probes, 0.95), frames: perSecond(frames) });
      console.log(
        `dragged: middle ${at(probes, 0.5)} ms, 95th percentile ${at(probes, 0.95)} ms; ${perSecond(frames)} pictures a second`,
      );
      await page.waitForTimeout(500);
    }
    // set down: the figures of the list of routes
    await forget(page);
    for (let i = 0; i < 15; i++) {
      const { x, y } = await takenUp(page);
      for (let k = 1; k <= 6; k++) await page.mouse.move(x + (i % 2 ? -4 : 4) * k, y - ((i % 3) - 1) * 3 * k);
      await page.mouse.up();
      await page.waitForFunction((n) => (window as unknown as { timed: Timed }).timed.dropped.length > n, i, {
        timeout: 3000,
      });
      await page.waitForTimeout(250);
    }
    const { dropped } = await timed(page);
    console.log(
      `first figures ${Math.round(first)} ms; set down: middle ${at(dropped, 0.5)} ms, 95th percentile ${at(dropped, 0.95)} ms`,
    );
    expect(first).toBeLessThan(3000);
    expect(Math.min(...rounds.map((r) => r.drag))).toBeLessThan(100);
    expect(Math.max(...rounds.map((r) => r.frames))).toBeGreaterThan(50);
    await page.close();
  }, 300_000);

  test.each([
    ['a desk', DESK],
    ['a phone', PHONE],
  ] as const)(
    'on %s the map moves at more than 50 pictures a second, also while all attempts are walked',
    async (_, context) => {
      const { page } = await openFile(browser, html, context);
      await page.waitForFunction(() => document.body.dataset.ready !== undefined);
      const best: number[] = [];
      for (const state of ['while it computes', 'at rest']) {
        if (state === 'at rest') await refined(page);
        else await page.waitForTimeout(1200);
        await page.evaluate(listen);
        await page.locator('.live').scrollIntoViewIfNeeded();
        const box = (await page.locator('.live').boundingBox())!;
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
        await page.mouse.move(x, y);
        await page.mouse.down();
        await forget(page);
        for (let i = 1; i <= 60; i++) {
          await page.mouse.move(x + 30 * Math.sin(i / 6), y - i);
          await page.waitForTimeout(16);
        }
        const { frames } = await timed(page);
        await page.mouse.up();
        console.log(
          `map moved ${state}: ${perSecond(frames)} pictures a second, slow tenth ${at(frames, 0.9)} ms`,
        );
        best.push(perSecond(frames));
      }
      expect(Math.min(...best)).toBeGreaterThan(50);
      await page.close();
    },
    300_000,
  );
});

const at = (list: number[], share: number) =>
  Math.round([...list].sort((a, b) => a - b)[Math.floor(list.length * share)] ?? Number.NaN);

const perSecond = (frames: number[]) =>
  Math.round((1000 * frames.length) / frames.reduce((sum, f) => sum + f, 0));

const refined = (page: Page) =>
  page.waitForFunction(() => document.body.dataset.ready === 'refined', null, { timeout: 240_000 });

const timed = (page: Page) => page.evaluate(() => (window as unknown as { timed: Timed }).timed);

const forget = (page: Page) =>
  page.evaluate(() => {
    Object.assign((window as unknown as { timed: Timed }).timed, { probes: [], dropped: [], frames: [] });
  });

async function takenUp(page: Page): Promise<{ x: number; y: number }> {
  const handle = (await page.locator('.handle').first().boundingBox())!;
  const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  return { x, y };
}

/** Moves the pointer, and waits until the figures under the map are others and painted, or half a second is over. */
async function moved(page: Page, what: 'probes', x: number, y: number): Promise<void> {
  const before = (await timed(page))[what].length;
  await page.mouse.move(x, y);
  await page
    .waitForFunction((n) => (window as unknown as { timed: Timed }).timed.probes.length > n, before, {
      timeout: 500,
    })
    .catch(() => {});
}

/** Notes when figures that follow from the pointer have been painted, and every picture. Runs in the page. */
function listen(): void {
  const timed: Timed = { probes: [], dropped: [], frames: [] };
  const heard = 'timed' in window;
  Object.assign(window, { timed });
  if (heard) return;
  let moved = 0;
  let up = 0;
  addEventListener('pointermove', (event) => (moved = event.timeStamp), true);
  addEventListener('pointerup', (event) => (up = event.timeStamp), true);
  const all = () => (window as unknown as { timed: Timed }).timed;
  const painted = (list: 'probes' | 'dropped', since: number) =>
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => all()[list].push(performance.now() - since);
      port2.postMessage(null);
    });
  const hint = document.querySelector('.hint')!;
  let said = '';
  new MutationObserver(() => {
    const now = hint.querySelector('b')?.textContent ?? '';
    if (now === said || now === '') return;
    said = now;
    painted('probes', moved);
  }).observe(hint, { childList: true, subtree: true, characterData: true });
  new MutationObserver(() => {
    if (up > 0) painted('dropped', up);
    up = 0;
  }).observe(document.querySelector('.part-routes')!, { childList: true });
  let last = performance.now();
  const frame = (t: number) => {
    all().frames.push(t - last);
    last = t;
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}
