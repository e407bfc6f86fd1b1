import type { Command } from 'commander';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addCompare(program: Command, terminal: Terminal): void {
  const command = program
    .command('compare')
    .description('find routes, walk each many times, and write a report')
    .argument('<task>', 'task file, YAML or JSON');
  addShared(command, [
    'out',
    'trials',
    'seed',
    'workers',
    'json',
    'trial',
    'language',
    'units',
    'bearings',
  ]).action(async (task: string, options: SharedOptions) => {
    // Loaded when it is wanted, so that help and version are there at once.
    const { runCompare, runTell } = await import('../run-compare.ts');
    if (options.trial === undefined) await runCompare(task, options, terminal);
    else await runTell(task, options.trial, options, terminal);
  });
}
