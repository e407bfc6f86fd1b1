import { nearestOnLine, type Point } from '../../src/math/plane.ts';
import type { MapView } from './map-view.ts';

/** What the hand on the map, or the keyboard, asks for. Places in metres. */
export interface HandWishes {
  /** A press without a drag, or Enter. */
  press(at: Point): void;
  /** The points that may be taken up, and the line that may be bent; null when no route is being changed. */
  movable(): { readonly handles: readonly Point[]; readonly line: readonly Point[] } | null;
  /** A point is dragged; `done` at its end. With `fresh` the line was taken up between its points. */
  drag(what: { readonly handle: number; readonly fresh: boolean }, at: Point, done: boolean): void;
  choose(step: -1 | 1): void;
  /** The map is being moved. */
  moves(): void;
  carry(): void;
  /** True while the chosen point is taken up and follows the cross. */
  carrying(): boolean;
  carryTo(at: Point): void;
  remove(): void;
  end(): void;
  cursor(at: Point | null): void;
  whereIsChosen(): Point | null;
}

/** px within which a point or a line is meant. */
const REACH = 12;

/** Pointer, wheel and keys of the map. */
export function handOn(map: MapView, wishes: HandWishes): void {
  const { element } = map;
  const pointers = new Map<number, { x: number; y: number }>();
  let from: { x: number; y: number } | null = null;
  let moved = false;
  let held: { handle: number; fresh: boolean } | null = null;
  let cursor: Point | null = null;

  element.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    from = { x: event.clientX, y: event.clientY };
    moved = false;
    held = pointers.size > 1 ? null : under(map, wishes, event);
  });
  element.addEventListener('pointermove', (event) => {
    const before = pointers.get(event.pointerId);
    if (before === undefined || from === null) return;
    const now = { x: event.clientX, y: event.clientY };
    if (!moved && Math.hypot(now.x - from.x, now.y - from.y) < 4) return;
    moved = true;
    const k = map.view.width / element.getBoundingClientRect().width;
    if (pointers.size === 2) {
      const other = [...pointers].find(([id]) => id !== event.pointerId)![1];
      const was = Math.hypot(before.x - other.x, before.y - other.y);
      const is = Math.hypot(now.x - other.x, now.y - other.y);
      // two fingers move the map as well: one alone scrolls the page
      map.moveBy(((now.x - before.x) / 2) * k, ((now.y - before.y) / 2) * k);
      if (was > 0) map.scaleBy(is / was, map.placeAt((now.x + other.x) / 2, (now.y + other.y) / 2));
    } else if (held !== null) wishes.drag(held, map.placeAt(now.x, now.y), false);
    else map.moveBy((now.x - before.x) * k, (now.y - before.y) * k);
    if (held === null || pointers.size === 2) wishes.moves();
    pointers.set(event.pointerId, now);
  });
  const up = (event: PointerEvent) => {
    if (!pointers.delete(event.pointerId)) return;
    if (pointers.size > 0) return;
    const at = map.placeAt(event.clientX, event.clientY);
    if (held !== null && moved) wishes.drag(held, at, true);
    else if (!moved && event.type === 'pointerup') wishes.press(at);
    held = null;
    from = null;
    map.letGo();
  };
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', up);
  // the page must not scroll away under two fingers
  const keepPage = (event: TouchEvent) => event.touches.length > 1 && event.preventDefault();
  element.addEventListener('touchstart', keepPage, { passive: false });
  element.addEventListener('touchmove', keepPage, { passive: false });
  element.addEventListener(
    'wheel',
    (event) => {
      // the page scrolls as everywhere; with a key, or two fingers on a pad, the map changes its scale
      if (!event.ctrlKey && !event.metaKey && !event.altKey && !element.matches(':focus')) return;
      event.preventDefault();
      map.scaleBy(event.deltaY < 0 ? 1.2 : 1 / 1.2, map.placeAt(event.clientX, event.clientY));
    },
    { passive: false },
  );

  const put = (at: Point | null) => {
    cursor = at;
    wishes.cursor(at);
  };
  const middle = (): Point => {
    const { west, east, south, north } = map.view.bounds;
    return [(west + east) / 2, (south + north) / 2];
  };
  element.addEventListener('blur', () => put(null));
  element.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = (event.shiftKey ? 2 : 14) / map.view.scale;
    const by: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, step],
      ArrowDown: [0, -step],
    };
    const way = by[event.key];
    if (way !== undefined) {
      const at = cursor ?? (wishes.carrying() ? wishes.whereIsChosen() : null) ?? middle();
      const to: Point = [at[0] + way[0], at[1] + way[1]];
      put(to);
      follow(map, to);
      if (wishes.carrying()) wishes.carryTo(to);
    } else if (event.key === 'Enter' || event.key === ' ') {
      if (wishes.carrying()) wishes.carry();
      else if (cursor === null) put(middle());
      else wishes.press(cursor);
    } else if (event.key === ',' || event.key === '.') {
      wishes.choose(event.key === ',' ? -1 : 1);
      const at = wishes.whereIsChosen();
      if (at !== null) {
        put(at);
        follow(map, at);
      }
    } else if (event.key === 'm' || event.key === 'M') wishes.carry();
    else if (event.key === 'Delete' || event.key === 'Backspace') wishes.remove();
    else if (event.key === '+' || event.key === '=') map.scaleBy(1.3, cursor ?? middle());
    else if (event.key === '-') map.scaleBy(1 / 1.3, cursor ?? middle());
    else if (event.key === 'Escape') wishes.end();
    else return;
    event.preventDefault();
  });
}

/** Keeps the cross in sight. */
function follow(map: MapView, at: Point): void {
  const { bounds } = map.view;
  const edge = (bounds.east - bounds.west) * 0.04;
  const out =
    at[0] < bounds.west + edge ||
    at[0] > bounds.east - edge ||
    at[1] < bounds.south + edge ||
    at[1] > bounds.north - edge;
  if (out) map.lookAt(at);
}

/** The point or the stretch of line under the pointer. */
function under(
  map: MapView,
  wishes: HandWishes,
  event: PointerEvent,
): { handle: number; fresh: boolean } | null {
  const movable = wishes.movable();
  if (movable === null) return null;
  const at = map.placeAt(event.clientX, event.clientY);
  const reach = (event.pointerType === 'touch' ? 1.8 : 1) * REACH;
  const near = reach / map.view.scale;
  let best = -1;
  let least = near;
  movable.handles.forEach((p, i) => {
    const away = Math.hypot(p[0] - at[0], p[1] - at[1]);
    if (away <= least) [best, least] = [i, away];
  });
  if (best >= 0) return { handle: best, fresh: false };
  const { line } = movable;
  if (line.length < 2) return null;
  const on = nearestOnLine(at, line);
  if (on.away > near * 0.7) return null;
  // which leg: the first whose end lies beyond
  const reaches = movable.handles.map((p) => nearestOnLine(p, line).along);
  const i = reaches.findIndex((along) => along > on.along);
  return { handle: i < 0 ? movable.handles.length : i, fresh: true };
}
