// Bundles the benches with vite (no TypeScript loader is needed to run them) and runs them on one core.
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';

const here = import.meta.dirname;
const wanted = process.argv.slice(2);
const files = readdirSync(here)
  .filter((name) => name.endsWith('.bench.ts'))
  .filter((name) => wanted.length === 0 || wanted.some((word) => name.includes(word)));
const out = mkdtempSync(join(tmpdir(), 'mistwise-bench-'));

try {
  await build({
    configFile: false,
    root: here,
    logLevel: 'error',
    build: {
      ssr: true,
      target: 'node20',
      outDir: out,
      minify: false,
      rollupOptions: {
        input: ['conduct.ts', ...files].map((name) => join(here, name)),
        // beside the peers' scripts nothing is looked up by place
        output: { entryFileNames: '[name].mjs', chunkFileNames: 'chunks/[name].mjs' },
      },
    },
    ssr: { noExternal: true },
    define: { 'import.meta.dirname': JSON.stringify(here) },
  });
  // the demo's elevation is decoded by the built program's child
  if (existsSync('dist')) {
    // beside the benches, and beside what several of them share
    for (const folder of [out, join(out, 'chunks')].filter(existsSync))
      for (const name of readdirSync('dist').filter((n) => n.endsWith('.js')))
        copyFileSync(join('dist', name), join(folder, name));
    writeFileSync(join(out, 'package.json'), '{"type":"module"}');
  }
  const names = files.map((name) => name.replace(/\.ts$/, '.mjs'));
  const pinned = spawnSync('taskset', ['--version'], { stdio: 'ignore' }).status === 0;
  console.log(
    `node ${process.version}, ${cpus()[0]?.model.trim()}, ${pinned ? 'one core' : 'not pinned to a core: no taskset here'}; ` +
      'processor time, medians of interleaved rounds',
  );
  // a process for every file: the peak memory of one is not that of another, nor what the compiler has learnt
  for (const name of names) {
    const node = [process.execPath, join(out, 'conduct.mjs'), name];
    const [program, ...rest] = pinned ? ['taskset', '--cpu-list', String(cpus().length - 1), ...node] : node;
    if (spawnSync(program, rest, { stdio: 'inherit' }).status !== 0) process.exitCode = 1;
  }
} finally {
  rmSync(out, { recursive: true, force: true });
}
