import type { Technique } from '../../route/leg.ts';
import { aimOff } from './aim-off.ts';
import { bearing } from './bearing.ts';
import { box } from './box.ts';
import { contour } from './contour.ts';
import { handrail } from './handrail.ts';
import type { Rule } from './rule.ts';
import { sight } from './sight.ts';
import { timing } from './timing.ts';

/** What a walker does on a leg, by technique. */
export const RULES: Readonly<Record<Technique, Rule>> = {
  handrail,
  bearing,
  timing,
  'aim-off': aimOff,
  contour,
  sight,
  box,
};
