import type { PlannedLeg } from './planned-leg.ts';
import type { Air, Line, Navigator, Spot, World } from './world.ts';

/*
 * The engine compiles a walk for the shapes of the objects that it meets. Lines that came from a worker's message, from the map and from
 * another set of assumptions are told apart by it, and each new sort throws compiled code away; so all are copied by the same few
 * constructors, property by property in one order.
 */
class WorldShape {}
class LineShape {}
class SpotShape {}
class AirShape {}
class NavigatorShape {}
class LegShape {}

const ORDERS = new Map<new () => object, readonly string[]>();

function copied<T extends object>(Shape: new () => object, source: T): T {
  const order = ORDERS.get(Shape) ?? Object.keys(source).sort();
  ORDERS.set(Shape, order);
  const copy = new Shape() as Record<string, unknown>;
  for (const key of order) copy[key] = (source as Record<string, unknown>)[key];
  return copy as T;
}

export function lineInShape<T extends Line>(line: T): T {
  return copied(LineShape, line);
}

export function legInShape(leg: PlannedLeg): PlannedLeg {
  return copied(LegShape, leg);
}

/** The same world; its arrays and features are shared, not copied. */
export function worldInShape(world: World): World {
  // twice: the first pass teaches the engine which properties hold fractions, the second makes objects that know it from the start
  const lines = world.lines.map((l): Line => lineInShape(l)).map((l) => lineInShape(l));
  const spots = world.spots.map((s): Spot => copied(SpotShape, s)).map((s) => copied(SpotShape, s));
  const low: Air = copied(AirShape, world.low);
  const high: Air = copied(AirShape, world.high);
  const navigator: Navigator = copied(NavigatorShape, world.navigator);
  return copied(WorldShape, { ...world, lines, spots, low: copied(AirShape, low), high, navigator });
}
