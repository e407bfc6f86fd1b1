import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import { printGridReference } from '../../src/terrain/grid-reference.ts';
import type { ReportWords } from './words.ts';

/** A place as people write it down: eight figures with the letters of the system, or metres east and north where it has none. */
export function placeText(at: Point, report: Report): string {
  return (
    printGridReference(at, report.ground.crs, 8) ??
    `E ${Math.round(at[0] / 10) * 10} N ${Math.round(at[1] / 10) * 10}`
  );
}

/** How a grid bearing becomes a magnetic one here and on that day, with its sign. */
export function northsText({ norths }: Report, { places: say, reading, measures }: ReportWords): string {
  if (norths === null) return say.noDate;
  const turn = norths.convergenceDegrees - norths.declinationDegrees;
  const whole = Math.round(Math.abs(turn) * 2) / 2;
  const by =
    reading.bearings === 'mils'
      ? measures.bearingSaid(Math.abs(turn)).replace(/^0+(?=\d)/, '')
      : `${measures.number(whole)}°`;
  const rule = whole === 0 ? say.same : say.turn(turn > 0, by);
  return say.norths(
    `${rule[0]!.toUpperCase()}${rule.slice(1)}`,
    norths.model,
    norths.date,
    say.eastWest(norths.convergenceDegrees),
    say.eastWest(norths.declinationDegrees),
  );
}
