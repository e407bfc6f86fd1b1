import type { Point } from '../math/plane.ts';
import type { Route } from '../route/leg.ts';
import { Attempt } from './attempt.ts';
import type { Body } from './body.ts';
import type { Mind } from './mind.ts';
import { planLegs } from './planned-leg.ts';
import { outcomeOf } from './tally.ts';
import type { World } from './world.ts';

/** One thing that happened in an attempt. */
export interface StoryEvent {
  readonly kind: string;
  /** Leg of the plan, from 0. */
  readonly leg: number;
  readonly seconds: number;
  /** Where the party truly was, where it believed it was, and how sure (larger SD), metres. */
  readonly at: Point;
  readonly believed: Point;
  readonly sdMetres: number;
}

/** One attempt told: what happened, the true and the believed track. */
export interface Story {
  readonly trial: number;
  readonly route: string;
  /** Index of the outcome, as in a tally. */
  readonly outcome: number;
  readonly seconds: number;
  readonly events: readonly StoryEvent[];
  readonly track: readonly Point[];
  readonly believedTrack: readonly Point[];
}

/** Tells trial `trial` of a route: the same attempt that the tally counted. */
export function tellTrial(world: World, route: Route, seed: number, trial: number): Story {
  const attempt = new Attempt(world, planLegs(world, route));
  const events: StoryEvent[] = [];
  const track: Point[] = [];
  const believedTrack: Point[] = [];
  attempt.watcher = {
    event: (kind, body, mind, leg) => events.push(eventOf(kind, body, mind, leg)),
    step: (_body, mind) => believedTrack.push(rounded(mind.belief.x, mind.belief.y)),
  };
  attempt.body.trace = (x, y) => track.push(rounded(x, y));
  const result = attempt.run(seed, trial);
  return {
    trial,
    route: route.id,
    outcome: outcomeOf(world, result),
    seconds: Math.round(result.seconds),
    events,
    track,
    believedTrack,
  };
}

function eventOf(kind: string, body: Body, mind: Mind, leg: number): StoryEvent {
  const { belief } = mind;
  belief.refresh();
  return {
    kind,
    leg,
    seconds: Math.round(body.clock),
    at: rounded(body.x, body.y),
    believed: rounded(belief.x, belief.y),
    sdMetres: Math.round(Math.sqrt(Math.max(belief.xx, belief.yy))),
  };
}

function rounded(x: number, y: number): Point {
  return [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
}
