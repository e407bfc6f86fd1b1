import { PLAIN_READING } from '../../src/door/reading.ts';
import type { Report } from '../../src/report/report.ts';
import { englishPages } from './english.ts';
import { germanPages } from './german.ts';

export type ReportWords = ReturnType<typeof englishPages>;

/** The words that a report's pages are written with: its own language and units. */
export function wordsOf({ reading = PLAIN_READING }: Report): ReportWords {
  return reading.language === 'de' ? germanPages(reading) : englishPages(reading);
}
