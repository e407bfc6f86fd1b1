import { GO_CONTOUR } from '../mind.ts';
import { straightRule } from './on-a-bearing.ts';

/** Contouring: hold the height round the slope for the counted distance; the height that is lost is the error. */
export const contour = straightRule(GO_CONTOUR);
