import { measuresOf } from '../door/measures.ts';
import { PLAIN_READING, type Reading } from '../door/reading.ts';
import type { Candidate, Report } from '../report/report.ts';
import { CLI_WORDS, type CliWords } from './words.ts';

/** The result as text: for whom and in what, then a line per route. Counts of 100, minutes over all attempts. */
export function compareTable(report: Report): string {
  const { reading = PLAIN_READING } = report;
  const words = CLI_WORDS[reading.language];
  const heads = [...words.heads, reading.units === 'imperial' ? 'mi' : 'km', words.climb];
  const rows = report.candidates.map((candidate) =>
    rowOf(candidate, report.unbeaten.includes(candidate.id), words, reading),
  );
  const table = [heads, ...rows];
  const widths = heads.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  const lines = table.map((row) =>
    row
      .map((cell, column) => (column <= 1 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!)))
      .join('  ')
      .trimEnd(),
  );
  return [report.sentence, '', ...lines, '', words.key, ...report.verdict, ''].join('\n');
}

function rowOf(candidate: Candidate, unbeaten: boolean, words: CliWords, reading: Reading): string[] {
  const { height, distance } = measuresOf(reading);
  const { success, minutes, outcomes, hazard } = candidate;
  return [
    `${candidate.letter}${unbeaten ? '*' : ''}`,
    shortened(candidate.name),
    `${ofHundred(success.share)} (${ofHundred(success.low)}-${ofHundred(success.high)})`,
    String(Math.round(minutes.p50)),
    String(Math.round(minutes.p90)),
    ofHundred(outcomes.falseFind),
    ofHundred(outcomes.lost),
    hazard === 'not assessed' ? words.notAssessed : ofHundred(hazard.share),
    distance(candidate.distanceMetres),
    height(candidate.climbMetres),
  ];
}

/** Whole parties, yet never "0" for something that happened nor "100" for something that did not always. */
function ofHundred(share: number): string {
  const count = Math.round(share * 100);
  if (count === 0 && share > 0) return '<1';
  return count === 100 && share < 1 ? '>99' : String(count);
}

function shortened(name: string): string {
  return name.length > 40 ? `${name.slice(0, 39)}…` : name;
}
