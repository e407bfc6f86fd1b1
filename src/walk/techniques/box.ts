import { GO_BEARING } from '../mind.ts';
import { straightRule } from './on-a-bearing.ts';

/** Boxing: out, along and back in right angles round an obstacle, each side counted on its own bearing. */
export const box = straightRule(GO_BEARING);
