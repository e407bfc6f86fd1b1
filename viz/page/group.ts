import { withoutRoute } from './task-routes.ts';
import type { Suggestion, Work } from './work.ts';

/** Found routes that stay beside the people's once they are opened. */
const FOUND_BESIDE = 3;

/** The work with one of its drawn routes sealed under somebody's name. */
export function withSealed(work: Work, index: number, who: string, confidence: number): Work {
  const route = work.task.routes?.[index];
  if (route === undefined) return work;
  const sealed: Suggestion = {
    who,
    confidence,
    opened: false,
    route: { ...route, name: freshName(who, work.suggestions) },
  };
  return { ...work, task: withoutRoute(work.task, index), suggestions: [...work.suggestions, sealed] };
}

/** The work with every sealed route among the drawn ones, and found ones still beside them. */
export function withOpened(work: Work): Work {
  const { task, suggestions } = work;
  const drawn = task.routes ?? [];
  const routes = [...drawn, ...suggestions.filter((s) => !s.opened).map((s) => s.route)];
  const found = Math.max(FOUND_BESIDE, (task.find?.candidates ?? 6) - drawn.length);
  return {
    ...work,
    task: { ...task, routes, find: { candidates: Math.min(20, routes.length + found) } },
    suggestions: suggestions.map((s) => ({ ...s, opened: true })),
  };
}

function freshName(who: string, suggestions: readonly Suggestion[]): string {
  const taken = new Set(suggestions.map((s) => s.route.name));
  let name = who;
  for (let n = 2; taken.has(name); n++) name = `${who} ${n}`;
  return name;
}
