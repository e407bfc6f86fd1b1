import { UserError } from '../door/user-error.ts';
import { checkTerrain, findingsText } from '../study/check-terrain.ts';
import { germanFinding } from '../study/german-findings.ts';
import { isFolder } from './node/files.ts';
import type { Terminal } from './node/terminal.ts';
import { openTask } from './open-task.ts';
import { openTerrain } from './open-terrain.ts';
import { readingOf, type SharedOptions } from './options.ts';

/** `mistwise check`: exit 2 when something is wrong, 0 when it is only doubtful or limited. */
export async function runCheck(path: string, options: SharedOptions, terminal: Terminal): Promise<void> {
  const { terrain, features, relief, task } = (await isFolder(path))
    ? { ...(await openTerrain(path)), task: undefined }
    : await openTask(path);
  const { language } = readingOf(options);
  const findings = checkTerrain(terrain, features, task, undefined, relief);
  terminal.out(options.json ? `${JSON.stringify(findings, null, 2)}\n` : findingsText(findings, language));
  const wrong = findings.filter((f) => f.weight === 'wrong');
  if (wrong.length > 0) {
    throw new UserError({
      what: wrong.length === 1 ? 'one thing is wrong' : `${wrong.length} things are wrong`,
      where: path,
      got: language === 'de' ? germanFinding(wrong[0]!.says) : wrong[0]!.says,
    });
  }
}
