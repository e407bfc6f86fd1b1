import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Opens a page from disk; what it asks of the network or says on the console is collected. */
export async function openFile(
  browser: Browser,
  html: string,
  context: BrowserContextOptions = {},
): Promise<{ page: Page; said: string[] }> {
  const file = join(mkdtempSync(join(tmpdir(), 'mistwise-look-')), 'page.html');
  writeFileSync(file, html);
  const page = await browser.newPage(context);
  const said: string[] = [];
  page.on('request', (r) => {
    if (!r.url().startsWith('data:') && !r.url().startsWith('file:')) said.push(`asked for ${r.url()}`);
  });
  page.on('console', (m) => said.push(`console ${m.type()}: ${m.text()}`));
  page.on('pageerror', (e) => said.push(`error: ${e.message}`));
  await page.goto(pathToFileURL(file).href);
  return { page, said };
}

interface Violation {
  readonly id: string;
  readonly impact: string;
  readonly at: string | undefined;
}

/** Faults of access that axe calls serious or critical. */
export async function seriousFaults(page: Page): Promise<Violation[]> {
  await page.evaluate(axe);
  const found: Violation[] = await page.evaluate(async () => {
    // @ts-expect-error axe is put into the page above
    const result = await window.axe.run();
    return result.violations.map((v: { id: string; impact: string; nodes: { html: string }[] }) => ({
      id: v.id,
      impact: v.impact,
      at: v.nodes[0]?.html,
    }));
  });
  return found.filter((v) => v.impact === 'serious' || v.impact === 'critical');
}
