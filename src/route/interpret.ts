import { UserError } from '../door/user-error.ts';
import { distance, lineLength, type Point } from '../math/plane.ts';
import type { DrawnRoute } from './drawn.ts';
import type { Route } from './leg.ts';
import { matchLines } from './match-lines.ts';
import type { Planning } from './planning.ts';
import { routePhrase } from './says.ts';
import { legsOfStretches } from './stretch-legs.ts';
import { withTicks } from './tick-offs.ts';

/** A hand wanders this far from what it draws along, metres; coarse rasters add to it. Common practice, no source. */
const HAND_TOLERANCE = 40;
/** Straight legs may leave a drawn line by so much, metres. */
const HAND_BEND = 35;
/** A bend within this of a feature means the feature, metres. */
const HAND_SNAP = 40;
/** A drawn line may begin and end so far from the start and the target, metres. */
const END_SLACK = 250;

/**
 * A line drawn by hand or recorded → legs: along a mapped line where it keeps to one, straight bearings elsewhere, with the
 * techniques a navigator would use for them. A proposal, to be shown for correction. A line drawn the wrong way round is turned.
 */
export function interpretLine(drawn: DrawnRoute, planning: Planning, id: string): Route {
  const { errand, ground } = planning;
  const line = forward(distinct(drawn.line ?? []), errand.start.at, errand.target.at);
  checkEnds(line, planning, drawn.name);
  const whole: Point[] = [errand.start.at, ...line, errand.target.at];
  const stretches = matchLines(planning, distinct(whole), { tolerance: HAND_TOLERANCE });
  const legs = legsOfStretches(planning, stretches, { tolerance: HAND_BEND, snap: HAND_SNAP }).map((leg) =>
    withTicks(planning, leg),
  );
  return { id, name: drawn.name, origin: 'drawn', strategy: routePhrase(legs, ground, errand), legs };
}

function distinct(line: readonly Point[]): Point[] {
  return line.filter((p, i) => i === 0 || distance(p, line[i - 1]!) > 0);
}

/** The line in the direction of travel. */
function forward(line: readonly Point[], start: Point, target: Point): Point[] {
  if (line.length < 2) return [...line];
  const first = line[0]!;
  const last = line[line.length - 1]!;
  const asDrawn = distance(first, start) + distance(last, target);
  const turned = distance(last, start) + distance(first, target);
  return turned < asDrawn ? [...line].reverse() : [...line];
}

function checkEnds(line: readonly Point[], planning: Planning, name: string): void {
  const { start, target } = planning.errand;
  const where = `route "${name}"`;
  if (line.length < 2 || lineLength(line) < 1) {
    throw new UserError({
      what: 'the drawn line is empty',
      where,
      got: `${line.length} point${line.length === 1 ? '' : 's'}`,
      expected: 'two different points or more',
    });
  }
  const from = distance(line[0]!, start.at);
  const to = distance(line[line.length - 1]!, target.at);
  if (from <= END_SLACK && to <= END_SLACK) return;
  throw new UserError({
    what:
      from > END_SLACK
        ? 'the drawn line does not begin at the start'
        : 'the drawn line does not reach the target',
    where,
    got: `${Math.round(from > END_SLACK ? from : to)} m away from it`,
    expected: `within ${END_SLACK} m`,
  });
}
