import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import type { Report } from '../../src/report/report.ts';

export interface ReportRenderer {
  readonly renderReport: (report: Report) => string;
  readonly renderSheets: (report: Report) => readonly { readonly name: string; readonly html: string }[];
}

/** The renderer as it is shipped: built by its own config, into a folder of the system's for temporary files. */
export async function buildRenderer(): Promise<ReportRenderer> {
  const outDir = mkdtempSync(join(tmpdir(), 'mistwise-report-'));
  await build({
    configFile: fileURLToPath(new URL('../../viz/report/vite.config.ts', import.meta.url)),
    logLevel: 'error',
    build: { outDir },
  });
  return import(/* @vite-ignore */ pathToFileURL(join(outDir, 'report-render.js')).href);
}
