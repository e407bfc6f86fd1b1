import type { Report } from '../../src/report/report.ts';
import { maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { kindName } from '../theme/words.ts';
import { mapPages } from './map-pages.ts';
import { northsText, placeText } from './places.ts';

const LEG_LINES = 7;

/** The task to hand out: its words, its map without routes, lines to write a plan on; no figure and no answer. */
export function renderTaskSheet(report: Report, css: string): string {
  const document = newDocument();
  const make = maker(document);
  const { task, limits } = report;
  // The map pages decide which way the paper lies; the page of words follows them.
  const { pages, across } = mapPages(report, 25_000, false, document, make);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(`${task.name}, task`)),
    make('style', {}, `${css}\n@page { size: A4 ${across ? 'landscape' : 'portrait'}; margin: 10mm; }`),
  );
  const blank = () => make('td', {}, '');
  const heads = [
    '',
    'technique',
    'to',
    'bearing',
    'metres',
    'double paces',
    'minutes',
    'what tells me I am there',
    'too far when',
  ];
  const rows = Array.from({ length: LEG_LINES }, (_, i) =>
    make('tr', {}, make('th', { scope: 'row' }, String(i + 1)), ...heads.slice(1).map(blank)),
  );
  const line = (label: string) => make('p', { class: 'write' }, make('span', {}, label));
  document.body.append(
    make(
      'main',
      {},
      make(
        'section',
        { class: 'task-words' },
        make('h1', {}, task.name),
        make('p', { class: 'sentence' }, report.sentence),
        make(
          'dl',
          {},
          make('dt', {}, 'start'),
          make('dd', {}, `${task.start.name}, ${placeText(task.start.at, report)}`),
          make('dt', {}, 'target'),
          make(
            'dd',
            {},
            `${task.target.name}, ${kindName(task.target.kind)}, ${placeText(task.target.at, report)}`,
          ),
          make('dt', {}, 'allowed'),
          make(
            'dd',
            {},
            `${limits.minutes === null ? 'no time limit' : `${limits.minutes} minutes`}, ${limits.searchMinutes} minutes of search`,
          ),
          make('dt', {}, 'norths'),
          make('dd', {}, northsText(report)),
        ),
        make('h2', {}, 'My route'),
        make(
          'table',
          { class: 'plan' },
          make('caption', {}, 'One line for each leg'),
          make(
            'thead',
            {},
            make(
              'tr',
              {},
              ...heads.map((h, i) => make(i === 0 ? 'td' : 'th', { scope: i === 0 ? null : 'col' }, h)),
            ),
          ),
          make('tbody', {}, ...rows),
        ),
        line('Of 100 parties like mine, so many find it this way'),
        line('If I do not find it'),
        line('Name'),
      ),
      ...pages,
    ),
  );
  return document.toString();
}
