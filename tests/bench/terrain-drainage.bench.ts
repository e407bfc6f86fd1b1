import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drainage } from '../../src/terrain/drainage.ts';
import { type Bench, type Prepared, timed } from './bench.ts';
import { ground } from './ground.ts';

const SIDE = 2000;

export const bench: Bench = {
  name: `fill, D8 and accumulation ${SIDE} × ${SIDE}, against a binary heap in C`,
  // at most 1.5 times the peer's time
  must: { ratio: 1 / 1.5 },
  rounds: 5,
  // filled heights; ours are right to 1 cm
  agree: 1e-6,
  async prepare(folder) {
    const raster = ground(SIDE);
    writeFileSync(join(folder, 'ground.f32'), raster.data);
    return {
      data: 'seed 1',
      ours: () =>
        timed(
          () => drainage(raster),
          ({ filled }) => filled.data.reduce((sum, z) => sum + z, 0),
        ),
      peer: compiled(folder),
    };
  },
};

/** `peers/flood.c`, built here; it prints its seconds and its checksum. */
function compiled(folder: string): NonNullable<Prepared['peer']> {
  const program = join(folder, 'flood');
  const source = join(import.meta.dirname, 'peers', 'flood.c');
  const cc = spawnSync('cc', ['-O2', '-o', program, source], { stdio: 'ignore' });
  if (cc.status !== 0) return { missing: 'no C compiler here (cc)' };
  const version = spawnSync('cc', ['--version'], { encoding: 'utf8' }).stdout.split('\n')[0]!;
  return {
    version: `flood.c, ${version}, -O2`,
    round: async () => {
      const { stdout } = spawnSync(program, [join(folder, 'ground.f32'), String(SIDE)], { encoding: 'utf8' });
      const [seconds, checksum] = stdout.trim().split(' ').map(Number);
      return { amount: seconds!, checksum: checksum! };
    },
    stop: () => {},
  };
}
