import type { Mind } from '../mind.ts';
import type { Percepts } from '../percepts.ts';

/** One technique: how it sets off, and what it orders after each step. The order is one of the codes of `mind.ts`. */
export interface Rule {
  begin(mind: Mind): void;
  decide(mind: Mind, percepts: Percepts): number;
}
