import type { Assumption } from '../../../src/report/report.ts';
import { table } from '../../theme/table.ts';
import type { Writing } from '../page-parts.ts';
import { paragraph, section } from '../page-parts.ts';

const HAZARD_KINDS: readonly string[] = ['cliff', 'crag', 'scree', 'steep-ground'];

export function assumptionsSection({ report, make, words }: Writing): HTMLElement {
  const { basis: say } = words;
  // the source, without what the mark beside it says already
  const source = (a: Assumption) =>
    a.mark === 'common practice' ? a.source.replace(say.practice, '') : a.source;
  return section(
    make,
    'assumptions',
    say.assumptions,
    paragraph(make, say.note),
    table(
      make,
      say.caption,
      say.heads.map((head) => ({ head })),
      report.assumptions.map((a) => [
        a.name,
        a.value,
        make('span', { class: `mark-of ${a.mark.replaceAll(' ', '-')}` }, say.marks[a.mark]),
        source(a),
      ]),
      { blocks: true },
    ),
  );
}

export function cautionsSection({ report, make, words }: Writing): HTMLElement {
  return section(
    make,
    'cautions',
    words.basis.cautions,
    make('ul', { class: 'plain' }, ...report.cautions.map((c) => make('li', {}, c))),
  );
}

export function dataSection({ report, make, words }: Writing): HTMLElement {
  const { ground, task, norths } = report;
  const { basis: say } = words;
  const hazards = ground.lacking.filter((k) => HAZARD_KINDS.includes(k));
  const lines = [
    say.source(ground.source, ground.terrainCell, ground.crs),
    ground.lacking.length > 0 ? say.lacking(ground.lacking) : null,
    hazards.length > 0 ? say.noHazards(hazards) : null,
    task.mapDate === null ? say.noMapDate : say.mapDate(task.mapDate),
    norths === null ? say.noNorths : say.norths(norths.date, norths.model),
  ];
  return section(
    make,
    'data',
    say.data,
    make('ul', { class: 'plain' }, ...lines.filter((l) => l !== null).map((l) => make('li', {}, l))),
    ...report.notes.map((n) => paragraph(make, n)),
  );
}

export function closing({ report, make, words }: Writing): HTMLElement {
  return make(
    'footer',
    {},
    ...report.attributions.map((a) => paragraph(make, a)),
    paragraph(make, words.basis.closing(report.generator, report.seed, report.task.trials)),
  );
}
