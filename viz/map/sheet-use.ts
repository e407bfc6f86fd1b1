import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import type { SheetFacts } from './sheet.ts';
import type { View } from './view.ts';

/** A sheet drawn once on the page, for many maps to lie on. */
export interface Sheet {
  readonly id: string;
  readonly view: View;
  readonly facts: SheetFacts;
}

/** Lays the page's sheet under a map of any scale; line widths stay as they are. */
export function layUnder(into: Group, sheet: Sheet, view: View): void {
  const k = view.scale / sheet.view.scale;
  const dx = view.x(sheet.view.bounds.west);
  const dy = view.y(sheet.view.bounds.north);
  into
    .append('use')
    .attr('href', `#${sheet.id}`)
    .attr('transform', `translate(${px(dx)},${px(dy)}) scale(${Math.round(k * 1e5) / 1e5})`);
}
