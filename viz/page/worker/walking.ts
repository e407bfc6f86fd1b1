import { trimHistogram } from '../../../src/math/quantile.ts';
import { Attempt } from '../../../src/walk/attempt.ts';
import type { WalkJob } from '../../../src/walk/jobs.ts';
import { planLegs } from '../../../src/walk/planned-leg.ts';
import { countAttempt, newTally, type Tally } from '../../../src/walk/tally.ts';
import type { World } from '../../../src/walk/world.ts';

/**
 * Walks a route in many small pieces, each to the same tally as `simulate` gives: its legs are planned and the memory is taken once
 * and not for every piece. A tally is good until the next piece is begun.
 */
export class Walking {
  private readonly world: World;
  private route = '';
  private attempt: Attempt | null = null;
  private tally: Tally | null = null;

  constructor(world: World) {
    this.world = world;
  }

  piece({ route, seed, from, to }: Extract<WalkJob, { do: 'simulate' }>): Tally {
    const name = JSON.stringify(route.legs);
    if (this.attempt === null || this.tally === null || name !== this.route) {
      this.route = name;
      this.attempt = new Attempt(this.world, planLegs(this.world, route));
      const most = this.tally?.lostOnLeg.length ?? 0;
      if (this.tally === null || most !== Math.max(1, route.legs.length)) {
        this.tally = newTally(route.legs.length, from, to);
      }
    }
    const { attempt, tally } = this;
    empty(tally, from, to);
    for (let trial = from; trial < to; trial++)
      countAttempt(tally, this.world, trial, attempt.run(seed, trial));
    const { allSeconds, foundSeconds } = tally;
    return { ...tally, allSeconds: trimHistogram(allSeconds), foundSeconds: trimHistogram(foundSeconds) };
  }
}

function empty(tally: Tally, from: number, to: number): void {
  tally.from = from;
  tally.to = to;
  tally.outcomes.fill(0);
  tally.hazard = 0;
  tally.allSeconds.fill(0);
  tally.foundSeconds.fill(0);
  tally.metres = 0;
  tally.lostOnLeg.fill(0);
  tally.outcomeOf = new Uint8Array(to - from);
  tally.secondsOf = new Uint16Array(to - from);
  tally.ends = [];
}
