import type { Command } from 'commander';
import type { HelpWords } from '../help-words.ts';
import type { Terminal } from '../node/terminal.ts';
import { addShared } from '../options.ts';
import type { PrepareOptions } from '../run-prepare.ts';

export function addPrepare(program: Command, terminal: Terminal, say: HelpWords): void {
  const command = program
    .command('prepare')
    .description(say.prepare.about)
    .argument('<files...>', say.prepare.files)
    .requiredOption('--out <folder>', say.prepare.out)
    .option('--name <name>', say.prepare.name)
    .option('--box <w,s,e,n>', say.prepare.box)
    .option('--around <track>', say.prepare.around)
    .option('--margin <metres>', say.prepare.margin, '1500')
    .option('--crs <code>', say.prepare.crs)
    .option('--cell <metres>', say.prepare.cell)
    .option('--no-landforms', say.prepare.noLandforms)
    .option('--map-date <date>', say.prepare.mapDate)
    .option('--attribution <text>', say.prepare.attribution)
    .option('--licence <text>', say.prepare.licence);
  addShared(command, ['language'], say).action(async (files: string[], options: PrepareOptions) => {
    const { runPrepare } = await import('../run-prepare.ts');
    await runPrepare(files, options, terminal);
  });
}
