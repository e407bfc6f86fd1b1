import { spawnSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromiumPath, launch } from '../browser/chromium.ts';

/*
 * Remakes the example reports under reports/examples/ and the README's picture of the first: `npm run examples`, after a
 * change that shows in a report. The picture needs a Chromium.
 */
const FOLDER = 'reports/examples';
const EXAMPLES = ['demo/demo', 'demo/gauge-three', 'langeberg/flag'];

/** `reports/examples/gauge-three` of `demo/gauge-three`. */
const folderOf = (example: string) => join(FOLDER, example.split('/')[1]!);

for (const example of EXAMPLES) {
  const words = ['dist/mistwise.js', 'compare', `terrains/${example}.task.yaml`, '--out', folderOf(example)];
  const { status } = spawnSync(process.execPath, words, { stdio: 'inherit' });
  if (status !== 0) throw new Error(`${example} has no report`);
}

if (chromiumPath === null) throw new Error('no Chromium for the picture');
const browser = await launch();
const page = await browser.newPage({ viewport: { width: 1100, height: 1400 } });
const first = folderOf(EXAMPLES[0]!);
await page.goto(pathToFileURL(resolve(first, 'index.html')).href);
await page.screenshot({ path: `${first}.png` });
await browser.close();
