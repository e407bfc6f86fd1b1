import type { Report } from '../../src/report/report.ts';
import type { Make } from '../theme/element.ts';
import { kilometres, thousands } from '../theme/words.ts';

/** For whom and in what, short: stands under every heading whose section gives shares. */
export function conditionsShort(report: Report): string[] {
  const { conditions: c, party } = report;
  const { below, above, cloudBase } = c.visibility;
  const sight =
    cloudBase === null
      ? `visibility ${kilometres(below)}`
      : `cloud base ${Math.round(cloudBase)} m, visibility ${kilometres(above)} in it`;
  const people = party.people === 1 ? 'one person' : `party of ${party.people}`;
  return [
    `${party.skill} ${people}`,
    sight,
    `ground ${c.ground}`,
    c.light === 'dark' ? 'in the dark' : 'by day',
    `${thousands(report.task.trials)} attempts per route`,
    'modelled, not observed',
  ];
}

/** The same as a line that breaks only between its parts. */
export function conditionsLine({ report, make }: { report: Report; make: Make }): HTMLElement {
  return make('p', { class: 'given' }, ...conditionsShort(report).map((part) => make('span', {}, part)));
}

/** The sentence cut at the words that say something of this task, which are set in bold. */
export function emphasised(report: Report): { text: string; strong: boolean }[] {
  const { task, party, conditions } = report;
  const sentence = report.sentence.includes(task.target.name)
    ? report.sentence
    : `From ${task.start.name} to ${task.target.name}: ${report.sentence}`;
  const names = [task.start.name, task.target.name].filter((n) => n !== '');
  const words = [party.skill, conditions.ground, conditions.light].map((w) => `\\b${w}\\b`);
  const figures = '\\d+(?:[.,\\u202f]\\d+)*(?:\\s?(?:km|m/s|m|minutes|min|°|%)(?![\\p{L}]))?';
  const pattern = new RegExp([...names.map(literal), ...words, figures].join('|'), 'gu');
  const parts: { text: string; strong: boolean }[] = [];
  let at = 0;
  for (const hit of sentence.matchAll(pattern)) {
    if (hit.index > at) parts.push({ text: sentence.slice(at, hit.index), strong: false });
    parts.push({ text: hit[0], strong: true });
    at = hit.index + hit[0].length;
  }
  if (at < sentence.length) parts.push({ text: sentence.slice(at), strong: false });
  return parts;
}

function literal(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
}
