import { GO_BEARING } from '../mind.ts';
import { straightRule } from './on-a-bearing.ts';

/** Sight walking: a bearing until the thing is in view, then straight to it. In a dip it is a bearing again. */
export const sight = straightRule(GO_BEARING);
