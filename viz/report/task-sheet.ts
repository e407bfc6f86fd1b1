import type { Report } from '../../src/report/report.ts';
import { maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { mapPages } from './map-pages.ts';
import { northsText, placeText } from './places.ts';
import { wordsOf } from './words.ts';

const LEG_LINES = 7;

/** The task to hand out: its words, its map without routes, lines to write a plan on; no figure and no answer. */
export function renderTaskSheet(report: Report, css: string): string {
  const words = wordsOf(report);
  const { task: say } = words;
  const document = newDocument(words.reading.language);
  const make = maker(document);
  const { task, limits } = report;
  // The map pages decide which way the paper lies; the page of words follows them.
  const { pages, across } = mapPages(report, 25_000, false, document, make);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(say.title(task.name))),
    make('style', {}, `${css}\n@page { size: A4 ${across ? 'landscape' : 'portrait'}; margin: 10mm; }`),
  );
  const blank = () => make('td', {}, '');
  const { heads } = say;
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
          make('dt', {}, say.start),
          make('dd', {}, `${task.start.name}, ${placeText(task.start.at, report)}`),
          make('dt', {}, say.target),
          make(
            'dd',
            {},
            `${task.target.name}, ${words.kind(task.target.kind)}, ${placeText(task.target.at, report)}`,
          ),
          make('dt', {}, say.allowed),
          make('dd', {}, say.limits(limits.minutes, limits.searchMinutes)),
          make('dt', {}, say.norths),
          make('dd', {}, northsText(report, words)),
        ),
        make('h2', {}, say.myRoute),
        make(
          'table',
          { class: 'plan' },
          make('caption', {}, say.caption),
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
        line(say.confidence),
        line(say.notFound),
        line(say.name),
      ),
      ...pages,
    ),
  );
  return document.toString();
}
