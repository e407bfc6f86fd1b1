import type { Reading } from '../../src/door/reading.ts';
import { englishFigures } from '../theme/english-figures.ts';
import { germanFigures } from '../theme/german.ts';
import type { Figures } from './said.ts';
import { remembered } from './store.ts';
import { LANGUAGES, type Language, type Words } from './words.ts';

/* What the reader has chosen about the page itself, as the browser remembers it. */

export function wishedLanguage(): Language {
  // a worker's or a test's world may have no navigator
  const own = globalThis.navigator?.language ?? 'en';
  const wanted = remembered('language', own.startsWith('de') ? 'de' : 'en');
  return wanted === 'de' ? 'de' : 'en';
}

export function wishedFigures(): Figures {
  return {
    imperial: remembered('units', 'metric') === 'imperial',
    mils: remembered('angles', 'degrees') === 'mils',
    comma: wishedLanguage() === 'de',
  };
}

/** How a report is to be written for this reader. */
export function wishedReading(): Reading {
  const { imperial, mils } = wishedFigures();
  return {
    language: wishedLanguage(),
    units: imperial ? 'imperial' : 'metric',
    bearings: mils ? 'mils' : 'degrees',
  };
}

export function showWishedLight(): void {
  const theme = remembered('theme', 'system');
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

/** Every word of the page in the reader's language, those inside of drawings in the reader's units too. */
export function wishedWords(): Words {
  const reading = wishedReading();
  const figures = reading.language === 'de' ? germanFigures(reading) : englishFigures(reading);
  return { ...LANGUAGES[reading.language], figures };
}
