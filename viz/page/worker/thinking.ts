import { type MappedGround, mapGround } from '../../../src/cost/mapped-ground.ts';
import { UserError } from '../../../src/door/user-error.ts';
import type { Route } from '../../../src/route/leg.ts';
import { readTaskDocument, type TaskDocument } from '../../../src/study/read-task.ts';
import { resolveTask } from '../../../src/study/resolve-task.ts';
import type { WrittenTask } from '../../../src/study/schema.ts';
import type { Task } from '../../../src/study/task.ts';
import { parseGridReference } from '../../../src/terrain/grid-reference.ts';
import { fromLonLat } from '../../../src/terrain/projection.ts';
import type { FromThinker } from '../messages.ts';
import type { OpenedGround } from './open-files.ts';
import { Superseded } from './pool.ts';

/** A document that could not be read at all, as work that an older page has kept. */
export class Unreadable extends Error {
  readonly why: unknown;

  constructor(why: unknown) {
    super(why instanceof Error ? why.message : String(why));
    this.why = why;
  }
}

/** A task of the page, read through the same door as a file. */
export function taskOn(opened: OpenedGround, written: WrittenTask): Task {
  let read: TaskDocument;
  try {
    read = readTaskDocument(JSON.stringify(written), 'task');
  } catch (error) {
    throw new Unreadable(error);
  }
  return resolveTask(read, opened);
}

/** Mapped ground, made again only when the features or their doubts are others. */
export function groundKeeper(): (opened: OpenedGround, task: Task) => MappedGround {
  let key = '';
  let from: OpenedGround | null = null;
  let kept: MappedGround | null = null;
  return (opened, task) => {
    const own = JSON.stringify([task.overrides, task.conditions.date, task.target.feature]);
    if (kept !== null && from === opened && own === key) return kept;
    [key, from] = [own, opened];
    kept = mapGround(opened.terrain, opened.relief, task.features, task.overrides);
    return kept;
  };
}

/** Everything of a task that walking rests on but the routes. */
export function worldKey(task: Task, groundNumber: number): string {
  const { conditions, party, limits, overrides, seed, seeing, start, target } = task;
  return JSON.stringify([
    groundNumber,
    conditions,
    party,
    limits,
    overrides,
    seed,
    seeing,
    start.at,
    target.at,
    target.feature,
  ]);
}

export function locateOn(crs: string) {
  return (name: { lonLat: readonly [number, number] } | { grid: string }) =>
    'grid' in name ? parseGridReference(name.grid, crs) : fromLonLat(crs, name.lonLat);
}

export function tell(message: FromThinker, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}

/** One clear message; a fault of ours is named as one. */
export function tellProblem(state: number, thrown: unknown): void {
  const unreadable = thrown instanceof Unreadable;
  const error = unreadable ? thrown.why : thrown;
  const ours = !(error instanceof UserError);
  const message = error instanceof Error ? error.message : String(error);
  tell({ tells: 'problem', state, message: message.replace(/^task(:\d+:\d+)?: /, ''), ours, unreadable });
}

/** Drawn routes, then those found before, as many as the task shows. */
export function withoutTwins(drawn: readonly Route[], found: readonly Route[], wanted: number): Route[] {
  return [...drawn, ...found.slice(0, Math.max(0, wanted - drawn.length))];
}

/** Work that was dropped leaves promises behind that nobody waits for; they are no fault. */
export function dropQuietly(): void {
  self.addEventListener('unhandledrejection', (event) => {
    if (event.reason instanceof Superseded) event.preventDefault();
  });
}
