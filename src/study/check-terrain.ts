import { type MappedGround, mapGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import type { Locate } from '../route/place.ts';
import { deriveRelief } from '../terrain/relief.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import type { Finding, Weight } from './check-finding.ts';
import { checkElevation } from './check-terrain-elevation.ts';
import { checkFeatures } from './check-terrain-features.ts';
import { checkStreams } from './check-terrain-streams.ts';
import { checkTask } from './check-terrain-task.ts';
import type { Task } from './task.ts';

const ORDER: readonly Weight[] = ['wrong', 'doubtful', 'known'];

/** Everything `check` finds in a terrain, and in a task on it when there is one: wrong first, then doubtful, then limits. */
export function checkTerrain(
  terrain: Terrain,
  mapped: readonly Feature[],
  task?: Task,
  locate?: Locate,
  relief: Relief = deriveRelief(terrain.elevation),
): Finding[] {
  const findings = [
    ...checkElevation(terrain, relief),
    ...checkFeatures(mapped, terrain.elevation),
    ...checkStreams(mapped, terrain.elevation, relief.flow).findings,
  ];
  if (task !== undefined) {
    const ground: MappedGround = mapGround(terrain, relief, task.features);
    findings.push(...checkTask(task, ground, locate));
  }
  return findings.sort((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight));
}

/** The findings as lines of text under a heading each. */
export function findingsText(findings: readonly Finding[]): string {
  const headings: Readonly<Record<Weight, string>> = {
    wrong: 'Wrong, to be put right',
    doubtful: 'Doubtful, worth a look',
    known: 'Good to know',
  };
  return ORDER.map((weight) => {
    const some = findings.filter((f) => f.weight === weight);
    if (some.length === 0) return '';
    const lines = some.map(({ says, at }) => {
      const place = at === undefined ? '' : ` [at ${Math.round(at[0])}, ${Math.round(at[1])}]`;
      return `  - ${says}${place}`;
    });
    return `${headings[weight]}\n${lines.join('\n')}\n`;
  })
    .filter((part) => part !== '')
    .join('\n');
}
