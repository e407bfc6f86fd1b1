import { GO_BEARING } from '../mind.ts';
import { straightRule } from './on-a-bearing.ts';

/** Bearing + pacing: walk on the needle, re-sight, stop at the count. */
export const bearing = straightRule(GO_BEARING);
