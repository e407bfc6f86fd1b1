import type { Assumption } from '../../../src/report/report.ts';
import { table } from '../../theme/table.ts';
import { kindPlural, listed, thousands } from '../../theme/words.ts';
import type { Writing } from '../page-parts.ts';
import { paragraph, section } from '../page-parts.ts';

const HAZARD_KINDS: readonly string[] = ['cliff', 'crag', 'scree', 'steep-ground'];

export function assumptionsSection({ report, make }: Writing): HTMLElement {
  return section(
    make,
    'assumptions',
    'Assumptions',
    paragraph(
      make,
      'Every figure above rests on these. Common practice is what instructors use and nobody has published: change it in the task where you know better.',
    ),
    table(
      make,
      'Assumptions and their marks',
      [{ head: 'assumption' }, { head: 'value' }, { head: 'mark' }, { head: 'source' }],
      report.assumptions.map((a) => [
        a.name,
        a.value,
        make('span', { class: `mark-of ${a.mark.replaceAll(' ', '-')}` }, a.mark),
        sourceText(a),
      ]),
      { blocks: true },
    ),
  );
}

/** The source, without what the mark beside it says already. */
function sourceText(a: Assumption): string {
  return a.mark === 'common practice'
    ? a.source.replace(/;?\s*common practice, no (?:published )?source/, '')
    : a.source;
}

export function cautionsSection({ report, make }: Writing): HTMLElement {
  return section(
    make,
    'cautions',
    'Cautions',
    make('ul', { class: 'plain' }, ...report.cautions.map((c) => make('li', {}, c))),
  );
}

export function dataSection({ report, make }: Writing): HTMLElement {
  const { ground, task } = report;
  const lacking = ground.lacking.map(kindPlural);
  const hazards = ground.lacking.filter((k) => HAZARD_KINDS.includes(k));
  const lines = [
    `Heights: ${ground.source}, one every ${ground.terrainCell} m, ${ground.crs}. What is smaller than ${2 * ground.terrainCell} m is not in them.`,
    lacking.length > 0
      ? `Kinds that the data lack: ${listed(lacking)}. What is absent from the data may still be there.`
      : null,
    hazards.length > 0 ? `No ${listed(hazards.map(kindPlural))} mapped here: hazards not assessed.` : null,
    task.mapDate === null ? 'The map carries no date.' : `Map of ${task.mapDate}.`,
    report.norths === null
      ? 'No date in the task, so grid bearings only.'
      : `Magnetic bearings for ${report.norths.date} by ${report.norths.model}.`,
  ];
  return section(
    make,
    'data',
    'Limits of the data',
    make('ul', { class: 'plain' }, ...lines.filter((l) => l !== null).map((l) => make('li', {}, l))),
    ...report.notes.map((n) => paragraph(make, n)),
  );
}

export function closing({ report, make }: Writing): HTMLElement {
  return make(
    'footer',
    {},
    ...report.attributions.map((a) => paragraph(make, a)),
    paragraph(
      make,
      `${report.generator}, seed ${report.seed}, ${thousands(report.task.trials)} attempts per route. The same task and seed give the same figures.`,
    ),
  );
}
