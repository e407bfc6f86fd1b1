import type { Report } from '../report/report.ts';
import { writeReport } from '../report/write-report.ts';
import { compare } from '../study/compare.ts';
import { tell } from '../study/tell.ts';
import { compareTable } from './compare-table.ts';
import { stem } from './node/files.ts';
import { loadReportPages } from './node/report-page.ts';
import { onInterrupt, type Terminal } from './node/terminal.ts';
import { openWalkers } from './node/walkers.ts';
import { checkWritable, writeFolder } from './node/write-folder.ts';
import { openTask } from './open-task.ts';
import { readingOf, type SharedOptions } from './options.ts';
import { type Progress, progressOn } from './progress.ts';
import { jsonOf, reportFiles } from './report-files.ts';
import { storyText } from './story-text.ts';
import { GENERATOR } from './version.ts';
import { CLI_WORDS } from './words.ts';

/** `mistwise compare`: everything is read and checked first, calculated, and only then written. */
export async function runCompare(path: string, options: SharedOptions, terminal: Terminal): Promise<void> {
  // With --json the report goes to the output, and into a folder only when one is named.
  const folder = options.out ?? (options.json ? null : `reports/${stem(path)}`);
  if (folder !== null) checkWritable(folder);
  const words = CLI_WORDS[readingOf(options).language];
  const progress = progressOn(terminal);
  const forget = onInterrupt(() => {
    progress.end();
    terminal.err(`${words.stopped}\n`);
  });
  try {
    const report = await calculate(path, options, progress);
    progress.end();
    if (folder !== null) writeFolder(folder, reportFiles(report, await loadReportPages()));
    terminal.out(options.json ? jsonOf(report) : compareTable(report));
    const told = options.json ? terminal.err : terminal.out;
    if (folder !== null) told(`${words.reportIn(`${folder}/index.html`)}\n`);
  } finally {
    progress.end();
    forget();
  }
}

async function calculate(path: string, options: SharedOptions, progress: Progress): Promise<Report> {
  const reading = readingOf(options);
  const { stages } = CLI_WORDS[reading.language];
  progress.stage(stages.task);
  const walkers = openWalkers(options.workers);
  try {
    const { task, terrain, relief } = await openTask(path, { ...options, reading });
    let stage = '';
    const compared = await compare(
      { task, terrain, relief },
      {
        walkersFor: walkers.in,
        tells: true,
        progress: ({ doing, done, of }) => {
          if (doing !== stage) progress.stage(stages[doing]);
          // what draws the report is loaded while the workers walk; a fault shows when it is asked for
          if (doing === 'changes') loadReportPages().catch(() => {});
          stage = doing;
          progress.step(done, of);
        },
      },
    );
    return writeReport(compared, GENERATOR);
  } finally {
    await walkers.close();
  }
}

/** `mistwise compare --trial N`: one attempt on every route, told. */
export async function runTell(
  path: string,
  trial: number,
  options: SharedOptions,
  terminal: Terminal,
): Promise<void> {
  const reading = readingOf(options);
  const walkers = openWalkers(options.workers);
  try {
    const { task, terrain, relief } = await openTask(path, { ...options, reading });
    for (const told of await tell({ task, terrain, relief }, { walkersFor: walkers.in }, trial))
      terminal.out(`${storyText(told, reading)}\n`);
  } finally {
    await walkers.close();
  }
}
