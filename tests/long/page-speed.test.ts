import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPage } from '../browser/built-page.ts';
import { chromiumPath, launch } from '../browser/chromium.ts';
import { openFile } from '../browser/opened.ts';

/** Told by the page's workers, timed where the page hears it. */
interface Timed {
  probes: number[];
  frames: number[];
}

/** Speed of the page on the demo, on a machine that does nothing else. Run by hand. */
describe.skipIf(chromiumPath === null)('the page answers quickly', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('first figures within 3 s of opening; dragged routes within 100 ms at the 95th percentile, above 50 pictures a second', async () => {
    const { page } = await openFile(browser, html, {
      viewport: { width: 1280, height: 900 },
      locale: 'en-GB',
    });
    const first = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const look = () =>
            document.body.dataset.ready ? resolve(performance.now()) : setTimeout(look, 10);
          look();
        }),
    );
    await page.waitForFunction(() => document.body.dataset.ready === 'refined', null, { timeout: 120_000 });
    await page.evaluate(listen);
    // the demo's longest drawn route, of five legs
    await page.locator('.routes li[data-route="C"] button').first().click();
    const handle = (await page.locator('.handle').first().boundingBox())!;
    const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 60; i++) await moved(page, x + 40 * Math.sin(i / 6), y - 1.5 * i);
    const { probes, frames } = await page.evaluate(() => (window as unknown as { timed: Timed }).timed);
    await page.mouse.up();
    const at = (list: number[], share: number) =>
      [...list].sort((a, b) => a - b)[Math.floor(list.length * share)] ?? Number.NaN;
    const persecond = (1000 * frames.length) / frames.reduce((sum, f) => sum + f, 0);
    console.log(
      `first figures ${Math.round(first)} ms; ${probes.length} drags: middle ${Math.round(at(probes, 0.5))} ms, ` +
        `95th percentile ${Math.round(at(probes, 0.95))} ms; ${persecond.toFixed(0)} pictures a second`,
    );
    expect(probes.length).toBeGreaterThan(30);
    expect(first).toBeLessThan(3000);
    expect(at(probes, 0.95)).toBeLessThan(100);
    expect(persecond).toBeGreaterThan(50);
    await page.close();
  }, 300_000);
});

/** Moves the pointer, and waits until the bold figures under the map are others or half a second is over. */
async function moved(page: Page, x: number, y: number): Promise<void> {
  await page.evaluate(() => {
    (window as unknown as { since: number }).since = performance.now();
  });
  await page.mouse.move(x, y);
  const before = await page.evaluate(() => (window as unknown as { timed: Timed }).timed.probes.length);
  await page
    .waitForFunction((n) => (window as unknown as { timed: Timed }).timed.probes.length > n, before, {
      timeout: 500,
    })
    .catch(() => {});
}

/** Notes when the line of the sketch follows the pointer with figures, and every picture. Runs in the page. */
function listen(): void {
  const timed: Timed = { probes: [], frames: [] };
  Object.assign(window, { timed, since: 0 });
  const hint = document.querySelector('.hint')!;
  let said = '';
  new MutationObserver(() => {
    const now = hint.querySelector('b')?.textContent ?? '';
    if (now === said || now === '') return;
    said = now;
    timed.probes.push(performance.now() - (window as unknown as { since: number }).since);
  }).observe(hint, { childList: true, subtree: true, characterData: true });
  let last = performance.now();
  const frame = (t: number) => {
    timed.frames.push(t - last);
    last = t;
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}
