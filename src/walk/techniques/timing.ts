import { GO_TIMED } from '../mind.ts';
import { straightRule } from './on-a-bearing.ts';

/** Timing: a bearing that stops when the watch says so. Another instrument than pacing, with its own error and bias. */
export const timing = straightRule(GO_TIMED);
