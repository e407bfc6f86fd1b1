import type { Path } from '../door/yaml.ts';
import type { Point } from '../math/plane.ts';
import type { DrawnLeg, DrawnRoute, PlaceName } from '../route/drawn.ts';
import type { TaskDocument } from './read-task.ts';
import type { Gazetteer, WrittenPlace } from './written-place.ts';

type WrittenRoute = NonNullable<TaskDocument['value']['routes']>[number];
type WrittenLeg = NonNullable<WrittenRoute['legs']>[number];

/** The drawn routes with every id looked up; places are left as a feature, `start`, `target` or metres. */
export function resolveRoutes(
  document: TaskDocument,
  gazetteer: Gazetteer,
  lineOf: ((file: string) => readonly Point[]) | undefined,
): DrawnRoute[] {
  const routes = document.value.routes ?? [];
  const names = new Set<string>();
  return routes.map((route, i) => {
    const path = ['routes', i];
    if (names.has(route.name)) {
      throw document.problem([...path, 'name'], { what: 'two routes have this name', got: route.name });
    }
    names.add(route.name);
    if (route.legs !== undefined) {
      const legs = route.legs.map((leg, j) => legOf(document, gazetteer, [...path, 'legs', j], leg));
      return { name: route.name, legs };
    }
    const file = route.line ?? '';
    const line = document.within([...path, 'line'], () => lineOf?.(file) ?? []);
    if (line.length < 2) {
      throw document.problem([...path, 'line'], {
        what: 'this route is empty',
        got: `${line.length} points in ${file}`,
        expected: 'a line of two points or more',
      });
    }
    return { name: route.name, line };
  });
}

function legOf(document: TaskDocument, gazetteer: Gazetteer, path: Path, leg: WrittenLeg): DrawnLeg {
  const { to, ...rest } = leg;
  const needed = leg.technique === 'handrail' ? 'along' : leg.technique === 'aim-off' ? 'line' : 'to';
  if (leg[needed] === undefined) {
    throw document.problem(path, { what: `a ${leg.technique} leg says ${needed} what`, expected: needed });
  }
  if (
    leg.technique === 'handrail' &&
    to === undefined &&
    leg.towards === undefined &&
    leg.metres === undefined
  ) {
    throw document.problem(path, {
      what: 'a handrail leg says how far it goes',
      expected: 'to, or towards and metres',
    });
  }
  if (leg.along !== undefined) gazetteer.line([...path, 'along'], leg.along);
  if (leg.line !== undefined) gazetteer.line([...path, 'line'], leg.line);
  if (leg.catching !== undefined) gazetteer.line([...path, 'catching'], leg.catching);
  leg.ticks?.forEach((id, i) => {
    gazetteer.feature([...path, 'ticks', i], id);
  });
  return { ...rest, ...(to === undefined ? {} : { to: placeName(gazetteer, [...path, 'to'], to) }) };
}

function placeName(gazetteer: Gazetteer, path: Path, to: 'start' | 'target' | WrittenPlace): PlaceName {
  if (typeof to === 'string') return to;
  if (to.feature === undefined) return { at: gazetteer.point(path, to) };
  gazetteer.feature([...path, 'feature'], to.feature);
  return { feature: to.feature };
}
