import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toLonLat } from '../../src/terrain/projection.ts';
import { buildPage } from './built-page.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openFile, seriousFaults } from './opened.ts';
import { type JobFiles, wholeJob } from './whole-job.ts';

const DEMO = new URL('../../terrains/demo/', import.meta.url);
const HOSTILE = '<img src=x onerror="window.hit=1"></script><script>window.hit=1</script>';

describe.skipIf(chromiumPath === null)('the planning page in Chromium, opened from disk', () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    [browser, html] = await Promise.all([launch(), buildPage()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  /** An open page with its first figures. What goes through Blob URLs stays on the device and is no request. */
  async function open(context: BrowserContextOptions = {}): Promise<{ page: Page; said: string[] }> {
    const { page, said } = await openFile(browser, html, {
      viewport: { width: 1280, height: 900 },
      locale: 'en-GB',
      ...context,
    });
    await ready(page);
    return { page, said: withoutBlobs(said) };
  }

  const withoutBlobs = (said: string[]) =>
    new Proxy(said, {
      get: (list, key) =>
        Reflect.get(
          list.filter((line) => !line.includes('blob:')),
          key,
        ),
    });

  const ready = (page: Page) => page.waitForFunction(() => document.body.dataset.ready !== undefined);

  /** Does something and waits for the figures that follow from it. */
  async function figuresAfter(page: Page, action: () => Promise<unknown>): Promise<void> {
    await page.evaluate(() => {
      delete document.body.dataset.ready;
    });
    await action();
    await ready(page);
  }

  const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
  const problem = (page: Page) => page.locator('.problem').textContent();
  const found = (page: Page, route: string) =>
    page.locator(`.routes li[data-route="${route}"] .found b`).textContent();
  const choose = (page: Page, name: string, value: string) =>
    page
      .locator(`[data-control="${name}"]`)
      .fill(value)
      .then(() => page.keyboard.press('Tab'));

  async function clickMap(page: Page, x: number, y: number): Promise<void> {
    const map = page.locator('.live');
    await map.scrollIntoViewIfNeeded();
    const box = (await map.boundingBox())!;
    await page.mouse.click(box.x + box.width * x, box.y + box.height * y);
  }

  /** Longitude and latitude of the start: within the tile, which lies in EPSG:27700. */
  async function middleOf(page: Page): Promise<number[]> {
    const at = await page.evaluate(
      () =>
        (document.body as HTMLBodyElement & { mistwise?: { task: { start: { at: [number, number] } } } })
          .mistwise!.task.start.at,
    );
    return toLonLat('EPSG:27700', at).map((d) => Math.round(d * 1e6) / 1e6);
  }

  test('its program is under 500 kB packed, without the demo data', () => {
    const program = html.slice(html.indexOf('data-part='));
    expect(program.length).toBeGreaterThan(100_000);
    expect(gzipSync(program).length).toBeLessThan(500_000);
  });

  test.each([
    [1280, 'light', 'en-GB'],
    [820, 'dark', 'en-GB'],
    [390, 'light', 'de-DE'],
  ] as const)(
    'at %d px, %s, %s: quiet, nothing past the edge, no serious fault of access',
    async (width, colorScheme, locale) => {
      const { page, said } = await open({ viewport: { width, height: 900 }, colorScheme, locale });
      await button(page, locale === 'de-DE' ? 'Route zeichnen' : 'draw a route').click();
      await page.waitForSelector('.editor table');
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(await seriousFaults(page)).toEqual([]);
      expect([...said]).toEqual([]);
      await page.close();
    },
  );

  test('a route of three legs drawn by keyboard alone', async () => {
    const { page, said } = await open();
    await button(page, 'draw a route').focus();
    await figuresAfter(page, () => page.keyboard.press('Enter'));
    for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowUp');
    await figuresAfter(page, () => page.keyboard.press('Enter'));
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight');
    await figuresAfter(page, () => page.keyboard.press('Enter'));
    expect(await page.locator('.editor tbody tr').count()).toBe(3);
    expect(await page.locator('.routes li[data-route="D"]').count()).toBe(1);

    // taken up, moved and set down
    const place = page.locator('.editor tbody tr').nth(1).locator('input');
    const before = await place.inputValue();
    await page.keyboard.press('m');
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await figuresAfter(page, () => page.keyboard.press('Enter'));
    expect(await place.inputValue()).not.toBe(before);
    await figuresAfter(page, () => page.keyboard.press('Control+z'));
    expect(await place.inputValue()).toBe(before);

    await page.keyboard.press(',');
    await figuresAfter(page, () => page.keyboard.press('Delete'));
    expect(await page.locator('.editor tbody tr').count()).toBe(2);
    expect(await problem(page)).toBe('');
    expect([...said]).toEqual([]);
    await page.close();
  });

  test('a route drawn by pointer, bent by dragging its line; figures come while it is dragged', async () => {
    const { page } = await open();
    await figuresAfter(page, () => button(page, 'draw a route').click());
    const map = page.locator('.live');
    await map.scrollIntoViewIfNeeded();
    const box = (await map.boundingBox())!;
    const at = (x: number, y: number) => [box.x + box.width * x, box.y + box.height * y] as const;
    await figuresAfter(page, () => page.mouse.click(...at(0.35, 0.6)));
    await figuresAfter(page, () => page.mouse.click(...at(0.4, 0.4)));
    expect(await page.locator('.editor tbody tr').count()).toBe(3);
    const handle = (await page.locator('.handle').first().boundingBox())!;
    await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2);
    await page.mouse.down();
    for (let i = 1; i <= 6; i++) await page.mouse.move(handle.x - 8 * i, handle.y + 4);
    await page.waitForFunction(() => /of 100/.test(document.querySelector('.hint b')?.textContent ?? ''));
    await figuresAfter(page, () => page.mouse.up());
    expect(await page.locator('.editor tbody tr').count()).toBe(3);
    await page.close();
  });

  test('two points on a track: it asks, and follows the track', async () => {
    const { page } = await open();
    await figuresAfter(page, () => button(page, 'draw a route').click());
    const field = page.getByLabel('Grid reference or name');
    await field.fill('high-fold');
    await figuresAfter(page, () => button(page, 'set a point there').click());
    const ask = page.locator('.question');
    await ask.waitFor({ state: 'visible' });
    expect(await ask.textContent()).toContain('Stay on it?');
    await figuresAfter(page, () => ask.getByRole('button').first().click());
    expect(await page.locator('.editor select').first().inputValue()).toBe('0');
    const first = page.locator('.editor select').first().locator('option').first();
    expect(await first.textContent()).toContain('follow');
    expect(await problem(page)).toBe('');
    await page.close();
  });

  test('with the cloud lifted more parties find the target; a wrong word is answered and changes nothing', async () => {
    const { page } = await open();
    const before = Number(await found(page, 'A'));
    await figuresAfter(page, () => choose(page, 'cloudBase', '900'));
    expect(Number(await found(page, 'A'))).toBeGreaterThan(before);
    await choose(page, 'target', 'Nowhere at all');
    expect(await problem(page)).toContain('Nowhere at all');
    expect(await page.locator('[data-control="target"]').inputValue()).toBe('Third Kettle');
    await page.close();
  });

  test('something the map lacks: drawn, named, saved with the ground, opened again; names stay text', async () => {
    const { page, said } = await open();
    await figuresAfter(page, async () => {
      await button(page, 'missing point').click();
      await page.locator('.live').scrollIntoViewIfNeeded();
      const box = (await page.locator('.live').boundingBox())!;
      await page.mouse.click(box.x + box.width * 0.5, box.y + box.height * 0.4);
    });
    const row = page.locator('.own li');
    expect(await row.count()).toBe(1);
    await figuresAfter(page, async () => {
      await row.getByLabel('name').fill(HOSTILE);
      await page.keyboard.press('Tab');
    });
    await page.locator('.live').getByText('<img src=x', { exact: false }).first().waitFor();
    const download = page.waitForEvent('download');
    await button(page, 'save terrain and task (zip)').click();
    const zip = await (await download).path();
    await figuresAfter(page, () => button(page, 'back to the demo').click());
    expect(await row.count()).toBe(0);
    await figuresAfter(page, () =>
      page.locator('input[type=file]').setInputFiles({
        name: 'saved.zip',
        mimeType: 'application/zip',
        buffer: readFileSync(zip),
      }),
    );
    await page.locator('.live').getByText('<img src=x', { exact: false }).first().waitFor();
    expect(await problem(page)).toBe('');
    expect(await page.evaluate(() => 'hit' in window)).toBe(false);
    expect([...said]).toEqual([]);
    await page.close();
  });

  test('broken and too large files give a message and leave the work as it was', async () => {
    const { page } = await open();
    const files = page.locator('input[type=file]');
    const give = async (name: string, buffer: Buffer) => {
      await files.setInputFiles({ name, mimeType: 'application/octet-stream', buffer });
      await page.waitForFunction(() => document.querySelector('.problem')?.textContent !== '');
      return problem(page);
    };
    expect(await give('broken.tif', Buffer.from('II*\0 and nothing more'))).toMatch(/Nothing of your work/);
    expect(await give('broken.zip', Buffer.from('PK nothing'))).toMatch(/archive/);
    expect(await give('broken.task.yaml', Buffer.from('version: 1\nterain: x\n'))).toMatch(/terain/);
    expect(await give('strange.bin', Buffer.from('?'))).toMatch(/strange\.bin/);
    await page.evaluate(() => {
      const input = document.querySelector<HTMLInputElement>('input[type=file]')!;
      const list = new DataTransfer();
      list.items.add(new File([new Uint8Array(100_000_000)], 'large.tif'));
      input.files = list.files;
      input.dispatchEvent(new Event('change'));
    });
    await page.waitForFunction(() =>
      /large\.tif/.test(document.querySelector('.problem')?.textContent ?? ''),
    );
    expect(await page.locator('.routes li').count()).toBeGreaterThanOrEqual(3);
    expect(await page.locator('[data-control="target"]').inputValue()).toBe('Third Kettle');
    await page.close();
  });

  test('a tile of elevation is ground enough for a task; features come on to it; a line elsewhere is refused', async () => {
    const { page, said } = await open();
    const give = (name: string, buffer: Buffer) =>
      page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/octet-stream', buffer });
    await figuresAfter(page, () =>
      give('ny21.tif', readFileSync(new URL('../fixtures/terrain/ny21-cut.tif', import.meta.url))),
    );
    expect(await problem(page)).toBe('');
    expect(await page.locator('.kicker').textContent()).toContain('ny21');
    await figuresAfter(page, () =>
      button(page, 'set target')
        .click()
        .then(() => clickMap(page, 0.5, 0.3)),
    );
    const features = {
      type: 'FeatureCollection',
      features: [
        {
          type: 'Feature',
          properties: { id: 'split', kind: 'boulder', name: 'Split Rock' },
          geometry: { type: 'Point', coordinates: await middleOf(page) },
        },
      ],
    };
    await figuresAfter(page, () => give('own.geojson', Buffer.from(JSON.stringify(features))));
    expect(await page.locator('.own li').count()).toBe(1);
    const [lon = 0, lat = 0] = await middleOf(page);
    const points = [0, 1, 2, 3].map((k) => `<trkpt lat="${lat + 0.0005 * k}" lon="${lon + 0.001 * k}"/>`);
    const gpx = (inside: string) =>
      `<gpx version="1.1" creator="t"><trk><trkseg>${inside}</trkseg></trk></gpx>`;
    await give('walk.gpx', Buffer.from(gpx(points.join(''))));
    // a line that ends far from the target is refused in words
    await page.waitForFunction(() => /target/.test(document.querySelector('.problem')?.textContent ?? ''));
    expect([...said]).toEqual([]);
    await page.close();
  });

  test('start and target are set on the map and by grid reference', async () => {
    const { page } = await open();
    const start = page.locator('[data-control="start"]');
    await figuresAfter(page, () =>
      button(page, 'set start')
        .click()
        .then(() => clickMap(page, 0.3, 0.8)),
    );
    const reference = await start.inputValue();
    expect(reference).toMatch(/^30V VN \d{4} \d{4}$/);
    await figuresAfter(page, () => choose(page, 'start', 'Peat House'));
    await figuresAfter(page, () => choose(page, 'start', reference));
    expect(await start.inputValue()).toBe(reference);
    await figuresAfter(page, () =>
      page
        .locator('.live')
        .focus()
        .then(() => page.keyboard.press('Control+z')),
    );
    expect(await start.inputValue()).toBe('Peat House');
    await page.close();
  });

  test('closing and opening loses nothing', async () => {
    const { page } = await open();
    await figuresAfter(page, () => choose(page, 'people', '7'));
    await figuresAfter(page, () => button(page, 'draw a route').click());
    await page.waitForTimeout(300);
    await page.reload();
    await ready(page);
    expect(await page.locator('[data-control="people"]').inputValue()).toBe('7');
    expect(await page.locator('.routes li[data-route="D"] b').first().textContent()).toBe('drawn 4');
    await page.close();
  });

  test('sealed routes stay hidden until all are opened together', async () => {
    const { page } = await open();
    for (const who of ['AB', 'CD']) {
      await figuresAfter(page, () => button(page, 'draw a route').click());
      await page.getByLabel('name or initials').fill(who);
      await page.getByLabel('sure of finding it, of 100').fill('70');
      await figuresAfter(page, () => button(page, 'seal the route being changed').click());
    }
    expect(await page.locator('.routes').textContent()).not.toContain('AB');
    await figuresAfter(page, () => button(page, 'open all together').click());
    expect(await page.locator('.routes').textContent()).toContain('AB');
    const rows = page.locator('.part-group tbody tr');
    expect(await rows.count()).toBe(2);
    expect(await rows.first().textContent()).toMatch(/AB70\d+|AB70<1/);
    await page.close();
  });

  test('gives the same figures as the engine in Node for the same task and seed', async () => {
    const text = (name: string) => readFileSync(new URL(name, DEMO), 'utf8');
    const files: JobFiles = {
      terrainJson: text('terrain.json'),
      elevation: readFileSync(new URL('elevation.tif', DEMO)).toString('base64'),
      features: text('features.geojson'),
      task: text('demo.task.yaml')
        .replace('trials: 10000', 'trials: 300')
        .replace('candidates: 6', 'candidates: 3'),
    };
    const here = JSON.parse(await wholeJob(files, 300, true)) as { candidates: unknown[] };
    const { page } = await open();
    await figuresAfter(page, () =>
      page.locator('input[type=file]').setInputFiles({
        name: 'demo.task.yaml',
        mimeType: 'text/yaml',
        buffer: Buffer.from(files.task),
      }),
    );
    await page.waitForFunction(() => document.body.dataset.ready === 'refined', null, { timeout: 120_000 });
    const there = await page.evaluate(
      () =>
        (document.body as HTMLBodyElement & { mistwise?: { candidates: unknown[] } }).mistwise?.candidates,
    );
    expect(here.candidates.length).toBeGreaterThanOrEqual(3);
    expect(there).toEqual(here.candidates);
    await page.close();
  }, 300_000);
});
