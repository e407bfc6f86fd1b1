import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** The planning page as it is shipped, built by its own config into a folder of the system's for temporary files. */
export async function buildPage(): Promise<string> {
  const outDir = mkdtempSync(join(tmpdir(), 'mistwise-page-'));
  await build({
    configFile: fileURLToPath(new URL('../../viz/page/vite.config.ts', import.meta.url)),
    logLevel: 'error',
    build: { outDir },
  });
  return readFileSync(join(outDir, 'mistwise.html'), 'utf8');
}
