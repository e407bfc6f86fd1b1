import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromiumPath, launch } from '../browser/chromium.ts';

/*
 * Remakes the example reports under reports/examples/, one per task under terrains/, and the README's picture of the first:
 * `npm run examples`, after a change that shows in a report. Needs a Chromium for the picture.
 */
const FOLDER = 'reports/examples';
const PICTURED = 'demo';

for (const terrain of readdirSync('terrains').sort()) {
  for (const file of readdirSync(join('terrains', terrain)).sort()) {
    const found = /^(.*)\.task\.yaml$/.exec(file);
    if (found === null) continue;
    const name = found[1] === terrain ? terrain : `${terrain}-${found[1]}`;
    const words = [
      'dist/mistwise.js',
      'compare',
      join('terrains', terrain, file),
      '--out',
      join(FOLDER, name),
    ];
    const { status } = spawnSync(process.execPath, words, { stdio: 'inherit' });
    if (status !== 0) throw new Error(`${file} has no report`);
  }
}

if (chromiumPath === null) throw new Error('no Chromium for the picture');
const browser = await launch();
const page = await browser.newPage({ viewport: { width: 1200, height: 1500 } });
await page.goto(pathToFileURL(resolve(FOLDER, PICTURED, 'index.html')).href);
await page.screenshot({ path: join(FOLDER, `${PICTURED}.png`) });
await browser.close();
