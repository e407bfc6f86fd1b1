import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath, launch } from './chromium.ts';
import { type JobFiles, wholeJob } from './whole-job.ts';

const DEMO = new URL('../../terrains/demo/', import.meta.url);
const TRIALS = 100;

function demo(): JobFiles {
  const text = (name: string) => readFileSync(new URL(name, DEMO), 'utf8');
  return {
    terrainJson: text('terrain.json'),
    elevation: readFileSync(new URL('elevation.tif', DEMO)).toString('base64'),
    features: text('features.geojson'),
    task: text('demo.task.yaml'),
  };
}

describe.skipIf(chromiumPath === null)('the whole job', () => {
  let browser: Browser;
  let folder = '';

  beforeAll(async () => {
    browser = await launch();
    folder = mkdtempSync(join(tmpdir(), 'mistwise-job-'));
    await build({
      configFile: false,
      logLevel: 'error',
      build: {
        outDir: folder,
        minify: false,
        lib: {
          entry: fileURLToPath(new URL('./whole-job.ts', import.meta.url)),
          formats: ['iife'],
          name: 'job',
          fileName: () => 'job.js',
        },
      },
    });
  });
  afterAll(async () => {
    await browser?.close();
    if (folder !== '') rmSync(folder, { recursive: true });
  });

  test('gives the same bytes in Chromium as in Node: heights, routes, walks and report', async () => {
    const files = demo();
    const here = await wholeJob(files, TRIALS);
    const page = await browser.newPage();
    await page.addScriptTag({ content: readFileSync(join(folder, 'job.js'), 'utf8') });
    const there = await page.evaluate(
      ([given, trials]) =>
        (window as unknown as { job: { wholeJob: typeof wholeJob } }).job.wholeJob(given, trials),
      [files, TRIALS] as const,
    );
    expect(there.length).toBeGreaterThan(10_000);
    expect(differences(JSON.parse(here), JSON.parse(there))).toEqual([]);
    expect(there === here).toBe(true);
  }, 300_000);
});

/** Where two documents differ, to be read by whoever has to find out why. */
function differences(a: unknown, b: unknown, path = ''): string[] {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) {
    return Object.is(a, b) ? [] : [`${path}: ${String(a).slice(0, 40)} and ${String(b).slice(0, 40)}`];
  }
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].flatMap((key) =>
    differences((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], `${path}/${key}`),
  );
}
