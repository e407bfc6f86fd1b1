import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Bench, BenchFile, Round } from './bench.ts';

const [program, file] = process.argv.slice(1);
const { bench, environment = {} } = (await import(
  /* @vite-ignore */ pathToFileURL(join(program!, '..', file!)).href
)) as BenchFile;

const [unset] = Object.entries(environment).filter(([name, value]) => process.env[name] !== value);
if (unset === undefined) {
  for (const one of [bench].flat()) if (!(await conduct(one))) process.exitCode = 1;
} else {
  // what must be set before a process starts
  const again = { stdio: 'inherit', env: { ...process.env, ...environment } } as const;
  process.exitCode = spawnSync(process.execPath, [program!, file!], again).status ?? 1;
}

/** True when the figure holds or its peer is absent. */
async function conduct(bench: Bench): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'mistwise-bench-data-'));
  try {
    const { data, ours, peer } = await bench.prepare(folder);
    if (peer !== undefined && 'missing' in peer) {
      console.log(`skipped  ${bench.name}: ${peer.missing}`);
      return true;
    }
    const mine: Round[] = [];
    const theirs: Round[] = [];
    // the first round of each side only warms up
    for (let round = 0; round <= bench.rounds; round++) {
      mine.push(await ours());
      if (peer !== undefined) theirs.push(await peer.round());
    }
    peer?.stop();
    const our = median(mine.slice(-bench.rounds));
    const sum = mine.at(-1)!.checksum;
    if ('most' in bench.must) {
      const holds = our <= bench.must.most;
      console.log(
        `${mark(holds)}  ${bench.name}: ${figure(our)} ${bench.must.unit}, at most ${bench.must.most}; ${data}; sum ${sum}`,
      );
      return holds;
    }
    const their = median(theirs.slice(-bench.rounds));
    const theirSum = theirs.at(-1)!.checksum;
    const apart = Math.abs(sum - theirSum) / Math.abs(theirSum);
    const holds = their / our >= bench.must.ratio && apart <= bench.agree;
    console.log(
      `${mark(holds)}  ${bench.name}: ${figure(their / our)}× (at least ${bench.must.ratio}×), ` +
        `${figure(our * 1000)} ms against ${figure(their * 1000)} ms of ${peer?.version}; ${data}; ` +
        `sums ${sum} and ${theirSum}, ${apart.toExponential(1)} apart (at most ${bench.agree})`,
    );
    return holds;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function median(rounds: readonly Round[]): number {
  const sorted = rounds.map((r) => r.amount).sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}

function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}

function mark(holds: boolean): string {
  return holds ? 'holds   ' : 'MISSED  ';
}
