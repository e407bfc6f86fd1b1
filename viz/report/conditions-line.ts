import type { Report } from '../../src/report/report.ts';
import type { Writing } from './page-parts.ts';
import type { ReportWords } from './words.ts';

/** For whom and in what, short: stands under every heading whose section gives shares. */
export function conditionsShort(report: Report, { given: say }: ReportWords): string[] {
  const { conditions: c, party } = report;
  const { below, above, cloudBase } = c.visibility;
  return [
    say.party(party.skill, party.people),
    cloudBase === null ? say.clear(below) : say.cloud(cloudBase, above),
    say.ground(c.ground),
    say.light(c.light),
    say.trials(report.task.trials),
    say.modelled,
  ];
}

/** The same as a line that breaks only between its parts. */
export function conditionsLine({ report, make, words }: Writing): HTMLElement {
  return make(
    'p',
    { class: 'given' },
    ...conditionsShort(report, words).map((part) => make('span', {}, part)),
  );
}

/** The sentence cut at the words that say something of this task, which are set in bold. */
export function emphasised(
  report: Report,
  { given, reading }: ReportWords,
): { text: string; strong: boolean }[] {
  const { task, party, conditions } = report;
  // other languages decline the names
  const named = reading.language !== 'en' || report.sentence.includes(task.target.name);
  const sentence = named
    ? report.sentence
    : `From ${task.start.name} to ${task.target.name}: ${report.sentence}`;
  const names = [task.start.name, task.target.name].filter((n) => n !== '');
  const words = given.strong(party.skill, conditions).map((w) => `(?<!\\p{L})${literal(w)}(?!\\p{L})`);
  const figures =
    '\\d+(?:[.,\\u202f]\\d+)*(?:\\s?(?:km|m/s|mph|m|mi|yd|ft|minutes|Minuten|min|°|%)(?![\\p{L}]))?';
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
