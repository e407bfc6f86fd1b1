import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Round } from './bench.ts';

const PROGRAM = join(process.cwd(), 'dist', 'mistwise.js');
/** Has a process say at its end how many microseconds of a processor it took. */
const TELL =
  'data:text/javascript,process.on("exit",()=>process.stderr.write(JSON.stringify(process.cpuUsage())))';

/** The built program up to its first answer, engine not yet loaded. A bare Node takes some 40 ms of this on the same machine. */
export const bench: Bench = {
  name: 'start of the program',
  must: { most: 150, unit: 'ms' },
  rounds: 9,
  agree: 0,
  prepare: async () => ({
    data: 'mistwise --version',
    ours: () => start(),
    ...(existsSync(PROGRAM) ? {} : { peer: { missing: 'npm run build comes first' } }),
  }),
};

function start(): Round {
  const { stderr, status } = spawnSync(process.execPath, ['--import', TELL, PROGRAM, '--version'], {
    encoding: 'utf8',
  });
  const { user, system } = JSON.parse(stderr) as NodeJS.CpuUsage;
  return { amount: (user + system) / 1000, checksum: status ?? -1 };
}
