// Bundles the table with vite and runs it: `npm run reference`, by hand, after a change of the search or of the walker.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';

const root = join(import.meta.dirname, '..', '..');
const out = mkdtempSync(join(tmpdir(), 'mistwise-reference-'));
try {
  await build({
    configFile: false,
    root,
    logLevel: 'error',
    build: {
      ssr: true,
      target: 'node20',
      outDir: out,
      minify: false,
      rollupOptions: {
        input: ['tests/reference/table.ts', 'src/cli/node/walk-worker.ts', 'src/cli/node/decode-worker.ts'],
        output: { entryFileNames: '[name].js', chunkFileNames: 'chunks/[name].js' },
      },
    },
    ssr: { noExternal: true },
  });
  // outside a package the files would not be taken for modules
  writeFileSync(join(out, 'package.json'), '{"type":"module"}');
  const { status } = spawnSync(process.execPath, [join(out, 'table.js'), ...process.argv.slice(2)], {
    cwd: root,
    stdio: 'inherit',
  });
  process.exitCode = status ?? 1;
} finally {
  rmSync(out, { recursive: true, force: true });
}
