import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Report } from '../../src/report/report.ts';
import { toLonLat } from '../../src/terrain/projection.ts';
import { unzipped } from '../../viz/page/zip.ts';
import { buildPage } from './built-page.ts';
import { buildRenderer, type ReportRenderer } from './built-report.ts';
import { chromiumPath, launch } from './chromium.ts';
import { seriousFaults } from './opened.ts';
import { button, figuresAfter, give, openPage, problem, ready, SHORT_TASK, saved } from './planning-page.ts';
import { wholeJob } from './whole-job.ts';

const fixture = (name: string) => readFileSync(new URL(`../fixtures/page/${name}`, import.meta.url));

describe.skipIf(chromiumPath === null)('files that a planning page takes and gives', () => {
  let browser: Browser;
  let html: string;
  let renderer: ReportRenderer;

  beforeAll(async () => {
    [browser, html, renderer] = await Promise.all([launch(), buildPage(), buildRenderer()]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  test('a map picture as PNG lies where its world file puts it', async () => {
    const { page, said } = await openPage(browser, html);
    await give(page, ['picture.png', fixture('picture.png')], ['picture.pgw', fixture('picture.pgw')]);
    const picture = page.locator('.live image.own-picture');
    await picture.waitFor({ state: 'attached' });
    // 2000 m by 1000 m, from GDAL's own world file
    const box = (await picture.boundingBox())!;
    expect(box.width / box.height).toBeCloseTo(2, 1);
    expect(said()).toEqual([]);
    await page.close();
  }, 60_000);

  // The pictures are GDAL's: 2000 m east to west, red in the western half and blue in the eastern (fixtures/page/make.sh).
  test('a map picture as GeoTIFF lies where GDAL put it, is kept on the device and is in nothing saved', async () => {
    const { page, said } = await openPage(browser, html);
    const picture = page.locator('.live image.own-picture');
    await give(page, ['picture.tif', fixture('picture.tif')]);
    await picture.waitFor({ state: 'attached' });
    const colours = async () => {
      const url = await picture.getAttribute('href');
      return page.evaluate(async (at) => {
        const image = new Image();
        image.src = at!;
        await image.decode();
        const canvas = new OffscreenCanvas(image.width, image.height);
        const pen = canvas.getContext('2d', { willReadFrequently: true })!;
        pen.drawImage(image, 0, 0);
        const at2 = (x: number) => [...pen.getImageData(x, 10, 1, 1).data];
        return { size: [image.width, image.height], west: at2(2), east: at2(37) };
      }, url);
    };
    const seen = { size: [40, 20], west: [200, 0, 0, 255], east: [0, 0, 200, 255] };
    expect(await colours()).toEqual(seen);
    // twice as wide as tall, as 2000 m to 1000 m are
    const box = (await picture.boundingBox())!;
    expect(box.width / box.height).toBeCloseTo(2, 1);

    // and it is to be seen: the western half of it is red on the screen
    const map = page.locator('.live');
    await map.scrollIntoViewIfNeeded();
    const shot = await page.screenshot({
      clip: { x: box.x + box.width / 4, y: box.y + box.height / 2, width: 30, height: 30 },
      fullPage: true,
    });
    const [red = 0, , blue = 0] = await page.evaluate(async (png) => {
      const image = new Image();
      image.src = `data:image/png;base64,${png}`;
      await image.decode();
      const pen = new OffscreenCanvas(1, 1).getContext('2d')!;
      pen.drawImage(image, 0, 0, 1, 1);
      return [...pen.getImageData(0, 0, 1, 1).data];
    }, shot.toString('base64'));
    expect(red - blue).toBeGreaterThan(80);

    await page.reload();
    await ready(page);
    await picture.waitFor({ state: 'attached' });
    expect(await colours()).toEqual(seen);

    await give(page, ['elsewhere.tif', fixture('elsewhere.tif')]);
    await page.waitForFunction(() =>
      /EPSG:27700/.test(document.querySelector('.problem')?.textContent ?? ''),
    );
    expect(await picture.count()).toBe(1);
    // a lossy one needs a part of the program that is read only now
    const first = await picture.getAttribute('href');
    await give(page, ['lossy.tif', fixture('lossy.tif')]);
    await page.waitForFunction(
      (before) => document.querySelector('.live image.own-picture')?.getAttribute('href') !== before,
      first,
    );
    expect((await colours()).size).toEqual([40, 20]);
    const zip = await saved(page, 'save terrain and task (zip)');
    expect(unzipped(zip.bytes, zip.name).filter((f) => /picture|png/i.test(f.name))).toEqual([]);
    await button(page, 'take the picture away').click();
    expect(await picture.count()).toBe(0);
    await page.reload();
    await ready(page);
    expect(await picture.count()).toBe(0);
    expect(said()).toEqual([]);
    await page.close();
  });

  test('an ASCII grid lies where the .prj beside it says; without it the page asks for one', async () => {
    const { page } = await openPage(browser, html);
    await give(page, ['grid.asc', fixture('grid.asc')]);
    await page.waitForFunction(() => /\.prj/.test(document.querySelector('.problem')?.textContent ?? ''));
    await figuresAfter(page, () =>
      give(page, ['grid.asc', fixture('grid.asc')], ['grid.prj', fixture('grid.prj')]),
    );
    expect(await problem(page)).toBe('');
    const crs = await page.evaluate(
      () =>
        (document.body as HTMLBodyElement & { mistwise?: { ground: { crs: string } } }).mistwise?.ground.crs,
    );
    expect(crs).toBe('EPSG:27700');
    await page.close();
  });

  test('a hole in an area is still there when the ground is saved', async () => {
    const { page } = await openPage(browser, html);
    const ring = (half: number): [number, number][] => [
      [441500 - half, 6704000 - half],
      [441500 + half, 6704000 - half],
      [441500 + half, 6704000 + half],
      [441500 - half, 6704000 + half],
      [441500 - half, 6704000 - half],
    ];
    const marsh = {
      type: 'FeatureCollection',
      features: [
        {
          type: 'Feature',
          properties: { id: 'ring-marsh', kind: 'marsh', name: 'Ring Marsh' },
          geometry: {
            type: 'Polygon',
            coordinates: [ring(200), ring(60).reverse()].map((r) => r.map((p) => toLonLat('EPSG:32630', p))),
          },
        },
      ],
    };
    await give(page, ['marsh.geojson', JSON.stringify(marsh)]);
    await page.locator('.own li').waitFor();
    expect(await problem(page)).toBe('');
    const zip = await saved(page, 'save terrain and task (zip)');
    const text = unzipped(zip.bytes, zip.name).find((f) => f.name === 'features.geojson')!;
    const { features } = JSON.parse(new TextDecoder().decode(text.bytes)) as {
      features: { properties: { id: string }; geometry: { coordinates: number[][][] } }[];
    };
    const kept = features.find((f) => f.properties.id === 'ring-marsh')!;
    expect(kept.geometry.coordinates.map((r) => r.length)).toEqual([5, 5]);
    const easts = kept.geometry.coordinates[1]!.map(([e]) => Math.round(e!));
    expect([Math.min(...easts), Math.max(...easts)]).toEqual([441440, 441560]);
    await page.close();
  });

  test('places are pasted as grid reference, kind and name, and may be the target', async () => {
    const { page } = await openPage(browser, html);
    const target = page.locator('[data-control="target"]');
    await page.locator('#lacks summary').click();
    const at = await page.locator('#lacks textarea').getAttribute('placeholder');
    const [reference] = at!.split(',');
    await page.locator('#lacks textarea').fill(`${reference}, boulder, Lone Stone`);
    await figuresAfter(page, () => button(page, 'take them over').click());
    expect(await page.locator('.own li input[type=text]').first().inputValue()).toBe('Lone Stone');
    await figuresAfter(page, () => target.fill('Lone Stone').then(() => page.keyboard.press('Tab')));
    expect(await target.inputValue()).toBe('Lone Stone');
    await page.close();
  });

  test('a date is said so that nobody reads it the wrong way round', async () => {
    for (const [locale, said] of [
      ['en-US', '25 Nov 2026'],
      ['de-DE', '25. Nov. 2026'],
    ] as const) {
      const { page } = await openPage(browser, html, { locale });
      expect(await page.locator('.sentence .said-date').textContent()).toBe(said);
      await page.close();
    }
  });

  test('while routes are sealed nothing that was found or walked is to be seen; opened, they stand beside the found ones', async () => {
    const { page, said } = await openPage(browser, html);
    await figuresAfter(page, () => give(page, ['short.task.yaml', SHORT_TASK]), 'refined');
    const routes = page.locator('.routes li');
    expect(await routes.count()).toBe(5);
    await figuresAfter(page, () => button(page, 'draw a route').click());
    await page.getByLabel('name or initials').fill('AB');
    await page.getByLabel('sure of finding it, of 100').fill('70');
    await figuresAfter(page, () => button(page, 'seal the route being changed').click(), 'refined');
    await page.locator('#found .note', { hasText: 'Hidden until' }).waitFor({ state: 'attached' });
    expect(await routes.count()).toBe(3);
    expect(await page.locator('.routes .found').count()).toBe(0);
    expect(await page.locator('.live .end-dot').count()).toBe(0);
    expect(await page.locator('.drawing').count()).toBe(0);
    expect(await page.locator('.verdict').textContent()).toContain('sealed');
    expect(await page.locator('main').textContent()).not.toMatch(/\d of 100 such parties/);
    await button(page, 'save the report (one page)').click();
    expect(await problem(page)).toContain('Hidden until');
    expect(await seriousFaults(page)).toEqual([]);

    await figuresAfter(page, () => button(page, 'open all together').click(), 'refined');
    await page.locator('.drawing').first().waitFor({ state: 'attached' });
    expect(await page.locator('.routes').textContent()).toContain('AB');
    expect(await page.locator('.routes .how', { hasText: / · found$/ }).count()).toBeGreaterThan(0);
    expect(await page.locator('.part-group tbody tr').first().textContent()).toMatch(/AB70(\d+|<1)/);
    expect(said()).toEqual([]);
    await page.close();
  });

  test('the saved report is the one that the program writes, with cards and maps beside it', async () => {
    const { page, said } = await openPage(browser, html);
    await figuresAfter(page, () => give(page, ['short.task.yaml', SHORT_TASK]), 'refined');
    const one = await saved(page, 'save the report (one page)');
    const all = await saved(page, 'save report, route cards and maps (zip)');
    const files = new Map(
      unzipped(all.bytes, all.name).map((f) => [f.name, new TextDecoder().decode(f.bytes)]),
    );
    const report = JSON.parse(files.get('report.json')!) as Report;
    expect([...files.keys()]).toEqual(
      expect.arrayContaining([
        'index.html',
        'card-a.html',
        'map-25000.html',
        'task-sheet.html',
        'routes.gpx',
      ]),
    );
    expect(files.get('index.html')).toBe(one.bytes.toString());
    // the program's renderer writes with a library, the page with the browser: the same document for whoever reads it, but
    // for the order of attributes and the spaces at their ends
    const parsed = (text: string) =>
      page.evaluate((t) => {
        const said = (node: Node): string => {
          if (node.nodeType === Node.TEXT_NODE) return node.textContent ?? '';
          if (!(node instanceof Element)) return '';
          const attributes = [...node.attributes].map((a) => `${a.name}=${a.value.trim()}`).sort();
          return `<${node.tagName} ${attributes.join(' ')}>${[...node.childNodes].map(said).join('')}</>`;
        };
        return said(new DOMParser().parseFromString(t, 'text/html').documentElement);
      }, text);
    for (const [name, text] of [
      ['index.html', renderer.renderReport(report)],
      ...renderer.renderSheets(report).map((s) => [s.name, s.html] as const),
    ] as const) {
      expect((await parsed(files.get(name)!)) === (await parsed(text)), name).toBe(true);
    }
    // and what is in it is what the engine gives in Node, told attempts and all
    const text = (name: string) => readFileSync(new URL(`../../terrains/demo/${name}`, import.meta.url));
    const here = JSON.parse(
      await wholeJob(
        {
          terrainJson: text('terrain.json').toString(),
          elevation: text('elevation.tif').toString('base64'),
          features: text('features.geojson').toString(),
          task: SHORT_TASK,
        },
        100,
        true,
      ),
    ) as Report;
    expect({ ...report, generator: '' }).toEqual({ ...here, generator: '' });
    expect(said()).toEqual([]);
    await page.close();
  }, 300_000);

  test('work that an older page has kept and nobody can read gives way to the demo', async () => {
    const { page, said } = await openPage(browser, html);
    await page.waitForTimeout(300);
    await page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('mistwise');
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            const shelf = opening.result.transaction('work', 'readwrite').objectStore('work');
            shelf.put({ version: 1, task: { version: 99 }, own: [], suggestions: [] }, 'work');
            const folder = { terrainJson: '{"version":1}', files: [], features: null };
            const last = shelf.put(folder, 'folder');
            last.onsuccess = () => resolve();
            last.onerror = () => reject(last.error);
          };
        }),
    );
    await page.reload();
    await ready(page);
    expect(await page.locator('[data-control="target"]').inputValue()).toBe('Third Kettle');
    expect(await problem(page)).toBe('');
    expect(said()).toEqual([]);
    await page.close();
  });

  test('a GPX line from the start to the target becomes a route; a broken one is refused and changes nothing', async () => {
    const { page, said } = await openPage(browser, html);
    const ends = await page.evaluate(() => {
      const { task } = (
        document.body as HTMLBodyElement & {
          mistwise?: { task: Record<'start' | 'target', { at: [number, number] }> };
        }
      ).mistwise!;
      return [task.start.at, task.target.at] as const;
    });
    const [from, to] = ends;
    const middle: [number, number] = [(from[0] + to[0]) / 2 + 150, (from[1] + to[1]) / 2];
    const points = [from, middle, to].map((p) => toLonLat('EPSG:32630', p));
    const inside = points.map(([lon, lat]) => `<trkpt lat="${lat}" lon="${lon}"/>`).join('');
    const gpx = `<gpx version="1.1" creator="t"><trk><trkseg>${inside}</trkseg></trk></gpx>`;
    await figuresAfter(page, () => give(page, ['by-hand.gpx', gpx]));
    const drawn = page.locator('.routes li', { hasText: 'by-hand' });
    await drawn.waitFor();
    expect(await problem(page)).toBe('');
    await give(page, ['broken.gpx', gpx.replace('</trkseg>', '')]);
    await page.waitForFunction(() => /GPX/.test(document.querySelector('.problem')?.textContent ?? ''));
    expect(await drawn.count()).toBe(1);
    expect(said()).toEqual([]);
    await page.close();
  });
});
