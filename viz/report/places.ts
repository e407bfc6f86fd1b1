import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import { printGridReference } from '../../src/terrain/grid-reference.ts';

/** A place as people write it down: eight figures with the letters of the system, or metres east and north where it has none. */
export function placeText(at: Point, report: Report): string {
  return (
    printGridReference(at, report.ground.crs, 8) ??
    `E ${Math.round(at[0] / 10) * 10} N ${Math.round(at[1] / 10) * 10}`
  );
}

/** How a grid bearing becomes a magnetic one here and on that day, with its sign. */
export function northsText(report: Report): string {
  const n = report.norths;
  if (n === null) return 'Bearings are from grid north; the task has no date, so none from magnetic north.';
  const turn = n.convergenceDegrees - n.declinationDegrees;
  const whole = Math.round(Math.abs(turn) * 2) / 2;
  const rule =
    whole === 0
      ? 'grid and magnetic are the same to half a degree'
      : `grid to magnetic: ${turn > 0 ? 'add' : 'take off'} ${whole}°`;
  return `${rule[0]!.toUpperCase()}${rule.slice(1)} (${n.model}, ${n.date}; grid lies ${eastWest(n.convergenceDegrees)} and magnetic north ${eastWest(n.declinationDegrees)} of true north).`;
}

function eastWest(degrees: number): string {
  return `${Math.abs(degrees).toFixed(1)}° ${degrees < 0 ? 'west' : 'east'}`;
}
