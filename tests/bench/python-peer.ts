import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { createInterface, type Interface } from 'node:readline';
import type { Peer, Round } from './bench.ts';

/**
 * Starts `peers/SCRIPT` with the data's folder as its argument, under the first python3 that has the module.
 * The script writes one line `{"version": …}` when it is ready and, for every line it reads, one line `{"seconds": …, "checksum": …}`.
 */
export async function pythonPeer(
  script: string,
  module: string,
  folder: string,
): Promise<Peer | { missing: string }> {
  const python = pythonWith(module);
  if (python === null) return { missing: `no python3 here has ${module}` };
  const child = spawn(python, [join(import.meta.dirname, 'peers', script), folder], {
    stdio: ['pipe', 'pipe', 'inherit'],
    env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
  });
  const lines = createInterface({ input: child.stdout! });
  const ready = (await answer(child, lines)) as { version: string };
  return {
    version: ready.version,
    round: async () => {
      child.stdin!.write('\n');
      const { seconds, checksum } = (await answer(child, lines)) as { seconds: number; checksum: number };
      return { amount: seconds, checksum } satisfies Round;
    },
    stop: () => child.stdin!.end(),
  };
}

/** Debian's own python3 first, whose packages anyone can install alike; then the others on the PATH. */
function pythonWith(module: string): string | null {
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)];
  const pythons = folders.map((folder) => join(folder, 'python3'));
  const has = (python: string) =>
    existsSync(python) && spawnSync(python, ['-c', `import ${module}`], { stdio: 'ignore' }).status === 0;
  return pythons.find(has) ?? null;
}

function answer(child: ChildProcess, lines: Interface): Promise<unknown> {
  return new Promise((resolve, reject) => {
    const died = () => reject(new Error('the peer ended before it answered'));
    child.once('exit', died);
    lines.once('line', (line) => {
      child.off('exit', died);
      resolve(JSON.parse(line));
    });
  });
}
