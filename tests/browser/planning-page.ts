import { readFileSync } from 'node:fs';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { openFile } from './opened.ts';

const DEMO = new URL('../../terrains/demo/', import.meta.url);

/** The demo's task with few attempts, so that all of it is done in seconds. */
export const SHORT_TASK = readFileSync(new URL('demo.task.yaml', DEMO), 'utf8')
  .replace('trials: 10000', 'trials: 100')
  .replace('candidates: 6', 'candidates: 5');

/** An open planning page with its first figures, and what it asked of the network or said on the console; Blob URLs stay on the device. */
export async function openPage(
  browser: Browser,
  html: string,
  context: BrowserContextOptions = {},
): Promise<{ page: Page; said: () => string[] }> {
  const { page, said } = await openFile(browser, html, {
    viewport: { width: 1280, height: 900 },
    locale: 'en-GB',
    ...context,
  });
  await ready(page);
  return { page, said: () => said.filter((line) => !line.includes('blob:')) };
}

export async function ready(page: Page, how: 'any' | 'refined' = 'any'): Promise<void> {
  await page.waitForFunction(
    (wanted) => (wanted === 'any' ? document.body.dataset.ready : document.body.dataset.ready === wanted),
    how,
    { timeout: 240_000 },
  );
}

/** Does something and waits for the figures that follow from it. */
export async function figuresAfter(
  page: Page,
  action: () => Promise<unknown>,
  how: 'any' | 'refined' = 'any',
): Promise<void> {
  await page.evaluate(() => {
    delete document.body.dataset.ready;
  });
  await action();
  await ready(page, how);
}

export function button(page: Page, name: string) {
  return page.getByRole('button', { name, exact: true });
}

export function problem(page: Page) {
  return page.locator('.problem').textContent();
}

export function give(page: Page, ...files: readonly (readonly [name: string, bytes: Buffer | string])[]) {
  return page.locator('input[type=file]').setInputFiles(
    files.map(([name, bytes]) => ({
      name,
      mimeType: 'application/octet-stream',
      buffer: Buffer.from(bytes),
    })),
  );
}

/** What a button hands to the reader. */
export async function saved(page: Page, name: string): Promise<{ name: string; bytes: Buffer }> {
  const download = page.waitForEvent('download', { timeout: 240_000 });
  await button(page, name).click();
  const got = await download;
  return { name: got.suggestedFilename(), bytes: readFileSync(await got.path()) };
}
