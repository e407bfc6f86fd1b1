import type { Report } from '../report/report.ts';
import { writeReport } from '../report/write-report.ts';
import { compare } from '../study/compare.ts';
import { tell } from '../study/tell.ts';
import { compareTable } from './compare-table.ts';
import { stem } from './node/files.ts';
import { loadReportPages } from './node/report-page.ts';
import { onInterrupt, type Terminal } from './node/terminal.ts';
import { walkersFor } from './node/walkers.ts';
import { checkWritable, writeFolder } from './node/write-folder.ts';
import { openTask } from './open-task.ts';
import type { SharedOptions } from './options.ts';
import { type Progress, progressOn } from './progress.ts';
import { jsonOf, reportFiles } from './report-files.ts';
import { storyText } from './story-text.ts';
import { GENERATOR } from './version.ts';

const STAGES = {
  ground: 'Reading the ground',
  routes: 'Finding routes',
  walks: 'Walking them',
  changes: 'Trying changes',
} as const;

/** `mistwise compare`: everything is read and checked first, calculated, and only then written. */
export async function runCompare(path: string, options: SharedOptions, terminal: Terminal): Promise<void> {
  // With --json the report goes to the output, and into a folder only when one is named.
  const folder = options.out ?? (options.json ? null : `reports/${stem(path)}`);
  if (folder !== null) checkWritable(folder);
  const progress = progressOn(terminal);
  const forget = onInterrupt(() => {
    progress.end();
    terminal.err('Stopped; nothing was written.\n');
  });
  try {
    const report = await calculate(path, options, progress);
    progress.end();
    if (folder !== null) writeFolder(folder, reportFiles(report, await loadReportPages()));
    terminal.out(options.json ? jsonOf(report) : compareTable(report));
    const told = options.json ? terminal.err : terminal.out;
    if (folder !== null) told(`The report is in ${folder}/index.html\n`);
  } finally {
    progress.end();
    forget();
  }
}

async function calculate(path: string, options: SharedOptions, progress: Progress): Promise<Report> {
  progress.stage('Reading the task');
  const { task, terrain, relief } = await openTask(path, options);
  let stage = '';
  const compared = await compare(
    { task, terrain, relief },
    {
      walkersFor: walkersFor(options.workers),
      tells: true,
      progress: ({ doing, done, of }) => {
        if (doing !== stage) progress.stage(STAGES[doing]);
        stage = doing;
        progress.step(done, of);
      },
    },
  );
  return writeReport(compared, GENERATOR);
}

/** `mistwise compare --trial N`: one attempt on every route, told. */
export async function runTell(
  path: string,
  trial: number,
  options: SharedOptions,
  terminal: Terminal,
): Promise<void> {
  const { task, terrain, relief } = await openTask(path, options);
  const means = { walkersFor: walkersFor(options.workers) };
  for (const { name, story } of await tell({ task, terrain, relief }, means, trial))
    terminal.out(`${storyText(name, story)}\n`);
}
