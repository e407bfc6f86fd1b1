import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** What a run of the program came to. */
export interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The program as it is shipped, built by its own configs into a folder of its own: path of `mistwise.js`. */
export async function buildProgram(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'mistwise-program-'));
  writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
  for (const config of ['vite.config.ts', 'viz/report/vite.config.ts']) {
    await build({ configFile: ROOT + config, logLevel: 'error', build: { outDir: folder } });
  }
  return join(folder, 'mistwise.js');
}

export function start(program: string, words: readonly string[], folder: string): ChildProcess {
  return spawn(process.execPath, [program, ...words], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
}

export function ended(child: ChildProcess): Promise<Run> {
  let out = '';
  let err = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

export function run(program: string, words: readonly string[], folder: string): Promise<Run> {
  return ended(start(program, words, folder));
}
