import { copyTo, planningPage } from './node/planning-page.ts';
import type { Terminal } from './node/terminal.ts';
import { readingOf, type SharedOptions } from './options.ts';
import { CLI_WORDS } from './words.ts';

/** `mistwise page`: where the planning page is, or a copy of it. */
export function runPage(options: SharedOptions, terminal: Terminal): void {
  const page = planningPage();
  const { out } = options;
  terminal.out(
    `${CLI_WORDS[readingOf(options).language].pageIn(out === undefined ? page : copyTo(page, out))}\n`,
  );
}
