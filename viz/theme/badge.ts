import type { Group } from './figure.ts';
import { px } from './figure.ts';
import { routeStyle } from './route-style.ts';

/** The letter of a route in a circle: filled when the route is unbeaten, open when not. */
export function drawBadge(
  into: Group,
  letter: string,
  at: { x: number; y: number },
  filled: boolean,
  radius = 10,
): Group {
  const badge = into
    .append('g')
    .attr('class', `badge hue-${routeStyle(letter).hue}${filled ? ' filled' : ''}`)
    .attr('data-route', letter)
    .attr('transform', `translate(${px(at.x)},${px(at.y)})`);
  badge.append('circle').attr('r', radius);
  badge.append('text').attr('dy', '0.36em').text(letter);
  return badge;
}
