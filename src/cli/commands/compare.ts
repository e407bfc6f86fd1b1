import type { Command } from 'commander';
import type { HelpWords } from '../help-words.ts';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addCompare(program: Command, terminal: Terminal, say: HelpWords): void {
  const command = program.command('compare').description(say.compare).argument('<task>', say.task);
  addShared(
    command,
    ['out', 'trials', 'seed', 'workers', 'json', 'trial', 'language', 'units', 'bearings'],
    say,
  ).action(async (task: string, options: SharedOptions) => {
    // Loaded when it is wanted, so that help and version are there at once.
    const { runCompare, runTell } = await import('../run-compare.ts');
    if (options.trial === undefined) await runCompare(task, options, terminal);
    else await runTell(task, options.trial, options, terminal);
  });
}
