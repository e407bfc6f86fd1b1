import { type MappedGround, mapGround } from '../cost/mapped-ground.ts';
import type { Language } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import type { Locate } from '../route/place.ts';
import { deriveRelief } from '../terrain/relief.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import type { Finding, Weight } from './check-finding.ts';
import { checkElevation } from './check-terrain-elevation.ts';
import { checkFeatures } from './check-terrain-features.ts';
import { checkStreams } from './check-terrain-streams.ts';
import { checkTask } from './check-terrain-task.ts';
import { germanFinding } from './german-findings.ts';
import type { Task } from './task.ts';

const HEADINGS: Readonly<Record<Language, Readonly<Record<Weight, string>>>> = {
  en: {
    wrong: 'Wrong, to be put right',
    doubtful: 'Doubtful, worth a look',
    known: 'Good to know',
  },
  de: {
    wrong: 'Falsch, zu berichtigen',
    doubtful: 'Zweifelhaft, einen Blick wert',
    known: 'Gut zu wissen',
  },
};

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
    const ground: MappedGround = mapGround(terrain, relief, task.features, task.overrides);
    findings.push(...checkTask(task, ground, locate));
  }
  return findings.sort((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight));
}

/** The findings as lines of text under a heading each. */
export function findingsText(findings: readonly Finding[], language: Language = 'en'): string {
  const headings = HEADINGS[language];
  const at = language === 'de' ? 'bei' : 'at';
  const said = language === 'de' ? germanFinding : (says: string) => says;
  return ORDER.map((weight) => {
    const some = findings.filter((f) => f.weight === weight);
    if (some.length === 0) return '';
    const lines = some.map(({ says, at: place }) => {
      const where = place === undefined ? '' : ` [${at} ${Math.round(place[0])}, ${Math.round(place[1])}]`;
      return `  - ${said(says)}${where}`;
    });
    return `${headings[weight]}\n${lines.join('\n')}\n`;
  })
    .filter((part) => part !== '')
    .join('\n');
}
