import type { WrittenTask } from '../../src/study/schema.ts';
import type { Legs } from './drawing-board.ts';

type Routes = NonNullable<WrittenTask['routes']>;
type WrittenLegs = NonNullable<Routes[number]['legs']>;

/** Legs of the board as the task file holds them. */
export function asWritten(legs: Legs): WrittenLegs {
  return JSON.parse(JSON.stringify(legs)) as WrittenLegs;
}

/** The task with another shape of one of its routes. */
export function withLegs(task: WrittenTask, index: number, legs: Legs): WrittenTask {
  const routes = [...(task.routes ?? [])];
  const route = routes[index];
  if (route === undefined) return task;
  routes[index] = { name: route.name, legs: asWritten(legs) };
  return { ...task, routes };
}

/** The task with a route more, and the name it got: names stay apart. */
export function withRoute(
  task: WrittenTask,
  wanted: string,
  legs: Legs,
): { task: WrittenTask; name: string } {
  const routes = task.routes ?? [];
  const taken = new Set(routes.map((r) => r.name));
  let name = wanted.slice(0, 180);
  for (let n = 2; taken.has(name); n++) name = `${wanted.slice(0, 180)} ${n}`;
  return { task: { ...task, routes: [...routes, { name, legs: asWritten(legs) }] }, name };
}

export function withoutRoute(task: WrittenTask, index: number): WrittenTask {
  return { ...task, routes: (task.routes ?? []).filter((_, i) => i !== index) };
}

export function renamed(task: WrittenTask, index: number, wanted: string): WrittenTask {
  const name = wanted.trim().slice(0, 180);
  const taken = (task.routes ?? []).some((r, i) => i !== index && r.name === name);
  if (name === '' || taken) return task;
  return { ...task, routes: (task.routes ?? []).map((r, i) => (i === index ? { ...r, name } : r)) };
}
