import { PLAIN_READING } from '../door/reading.ts';
import { routeWords } from '../route/words.ts';
import type { Task } from '../study/task.ts';
import { reportSentences } from './words.ts';

/** The conditions and the party in one sentence: what every figure stands under. */
export function sentenceOf(task: Task): string {
  const { conditions, party, limits } = task;
  return reportSentences(task.reading ?? PLAIN_READING).sentence({
    start: task.start.feature,
    target: task.target.feature,
    conditions,
    party,
    limits,
  });
}

export function startName(task: Task): string {
  const { feature } = task.start;
  return routeWords(task.reading).place(feature === null ? { is: 'start' } : { is: 'feature', feature });
}

export function targetName(task: Task): string {
  return routeWords(task.reading).feature(task.target.feature);
}
