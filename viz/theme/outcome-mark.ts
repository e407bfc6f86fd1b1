import type { Outcome } from '../../src/report/report.ts';
import type { Group } from './figure.ts';

/**
 * The sign of an outcome in a square of side 10 around (0, 0). Found is full, everything else open, each with its own sign, so that
 * the array reads without colour.
 */
export function drawOutcome(into: Group, outcome: Outcome, side: number): void {
  const g = into
    .append('g')
    .attr('class', 'outcome')
    .attr('transform', `scale(${side / 10})`);
  const box = (kind: string) =>
    g
      .append('rect')
      .attr('class', kind)
      .attr('x', -4.2)
      .attr('y', -4.2)
      .attr('width', 8.4)
      .attr('height', 8.4);
  const stroke = (kind: string, d: string) => g.append('path').attr('class', kind).attr('d', d);
  switch (outcome) {
    case 'cleanHit':
      box('full');
      break;
    case 'foundBySearch':
      box('full');
      g.append('circle').attr('class', 'hole').attr('r', 2.1);
      break;
    case 'late':
      box('mark');
      stroke('full', 'M-4.2,1V4.2H4.2V1Z');
      break;
    case 'falseFind':
      box('other');
      stroke('other', 'M-2.2,-2.2L2.2,2.2M2.2,-2.2L-2.2,2.2');
      break;
    case 'lost':
      box('other');
      break;
    case 'turnedBack':
      box('other');
      stroke('other', 'M2.4,0H-2.2M-0.2,-2L-2.2,0L-0.2,2');
      break;
    case 'nearMiss':
      box('other');
      g.append('circle').attr('class', 'dot').attr('r', 1.5);
      break;
  }
}
