import { Body } from './body.ts';
import { ARRIVED, GO_CONTOUR, GO_LINE, GO_TIMED, JOIN, Mind, TURN_WRONG, UNSURE } from './mind.ts';
import { legInShape } from './one-shape.ts';
import { newPercepts, type Percepts } from './percepts.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { search } from './search-pattern.ts';
import { Senses } from './senses.ts';
import { RULES } from './techniques/list.ts';
import { UNSET } from './unset.ts';
import { goBack } from './way-back.ts';
import type { World } from './world.ts';

/** How a leg, a search or a way back ended. */
export type Ending = 'arrived' | 'unsure' | 'found' | 'false' | 'time' | 'off-map';

/** What one attempt came to; one object is reused, copy what is to be kept. */
export interface AttemptResult {
  found: boolean;
  falseFind: boolean;
  /** A search, a reversal or a relaunch took place. */
  wavered: boolean;
  /** At a truly known point at the end (not found). */
  regained: boolean;
  /** True and believed place were far apart for long. */
  astray: boolean;
  outOfTime: boolean;
  hazard: boolean;
  seconds: number;
  metres: number;
  /** Nearest the party came to the true target, metres. */
  nearest: number;
  x: number;
  y: number;
  /** Leg after whose start the error was never small again. */
  lostOnLeg: number;
}

/** Told what happens, when somebody wants the story of one attempt. */
export interface Watcher {
  event(kind: string, body: Body, mind: Mind, legNumber: number): void;
  step?(body: Body, mind: Mind): void;
}

/** Something off by less than this, or twice what the target shows itself from, is no error worth naming, metres. */
const SMALL_ERROR = 25;
/** Decisions in a row without a step. */
const MOST_STANDING = 12;
const ASTRAY_EVERY = 100;
const ASTRAY_METRES = 150;
const ASTRAY_SECONDS = 600;
/** A way back may take the party a relaunch's worth of keys. */
export const KEYS_PER_TRY = 40;

/**
 * One party on one route: the legs in order, the search when the target is not there, the relaunch, the way back.
 * Allocates nothing per step; serves any number of trials.
 */
export class Attempt {
  readonly world: World;
  readonly legs: readonly PlannedLeg[];
  readonly body: Body;
  readonly mind: Mind;
  readonly senses: Senses;
  readonly percepts: Percepts = newPercepts();
  readonly result: AttemptResult = {
    found: false,
    falseFind: false,
    wavered: false,
    regained: false,
    astray: false,
    outOfTime: false,
    hazard: false,
    seconds: UNSET,
    metres: UNSET,
    nearest: UNSET,
    x: UNSET,
    y: UNSET,
    lostOnLeg: 0,
  };
  watcher: Watcher | null = null;
  /** The leg back to a known point, filled in when it is walked. */
  readonly wayBack: { -readonly [K in keyof PlannedLeg]: PlannedLeg[K] };
  /** Steps taken since this object was made, for the bench. */
  stepsTaken = 0;
  deadline = UNSET;
  tries = 0;
  private astraySeconds = UNSET;
  private checkedAt = UNSET;
  private lastGoodLeg = -1;
  /** Last point knowingly stood at: spot (−1 the start in the open), its map place, and the leg that leads on from it. */
  knownSpot = -1;
  knownX = UNSET;
  knownY = UNSET;
  knownTrueX = UNSET;
  knownTrueY = UNSET;
  knownLeg = 0;

  constructor(world: World, legs: readonly PlannedLeg[]) {
    this.world = world;
    this.legs = legs;
    this.body = new Body(world);
    this.mind = new Mind(world);
    this.senses = new Senses(world, this.body);
    this.wayBack = legInShape({ ...world.wayBack, x: new Float64Array(1), y: new Float64Array(1) });
  }

  run(seed: number, trial: number, mute = 0): AttemptResult {
    const { body, mind, senses, world: w } = this;
    body.begin(seed, trial, mute);
    mind.begin(seed, trial);
    senses.begin(seed, trial, mute);
    this.tries = 0;
    this.percepts.stepCounted = 0;
    this.astraySeconds = -1;
    this.result.astray = false;
    this.result.regained = false;
    this.checkedAt = 0;
    this.lastGoodLeg = -1;
    this.deadline = w.limitSeconds * 1.5;
    this.standAtStart();
    this.watcher?.event('start', body, mind, 0);
    let leg = 0;
    let relaunches = w.relaunches;
    let ending: Ending = 'arrived';
    for (;;) {
      ending = leg < this.legs.length ? this.walkLeg(leg) : this.searchTarget();
      if (ending === 'arrived') {
        this.noteError(leg);
        leg++;
        continue;
      }
      if (ending === 'unsure' && leg < this.legs.length) {
        const planned = this.legs[leg]!;
        this.noteError(leg);
        if (planned.toTarget) {
          leg = this.legs.length;
          continue;
        }
        ending = this.searchForEnd(planned);
        if (ending === 'arrived' || (ending === 'unsure' && mind.decideBy() >= w.navigator.admitsLost)) {
          // found it after all, or makes the map fit and goes on
          leg++;
          continue;
        }
      }
      if (ending !== 'unsure') break;
      if (relaunches === 0 || body.clock >= w.turnRoundSeconds) break;
      relaunches--;
      ending = goBack(this, true);
      if (ending !== 'arrived') break;
      this.tries++;
      mind.wavered = true;
      leg = this.knownLeg;
      this.watcher?.event('sets off again', body, mind, leg);
    }
    return this.conclude(ending);
  }

  private standAtStart(): void {
    const { body, mind, world: w } = this;
    let x = w.startX;
    let y = w.startY;
    if (w.startSpot >= 0) {
      body.ground.spot(w.startSpot);
      x = body.ground.spotX[w.startSpot]!;
      y = body.ground.spotY[w.startSpot]!;
    }
    body.start(x, y);
    this.knows(w.startSpot, w.startX, w.startY, 0);
    mind.belief.fix(w.startX, w.startY, w.startSpot >= 0 ? w.spots[w.startSpot]!.sd : 1);
  }

  /** Walks one leg of the plan to its end. */
  private walkLeg(number: number): Ending {
    const { body, mind, senses, world: w } = this;
    const leg = this.legs[number]!;
    const key = leg.drawKey + this.tries * KEYS_PER_TRY;
    if (leg.technique !== 'handrail') mind.cameByAimOff = false;
    mind.beginLeg(leg, key);
    // a leg that shares its draws goes on with them, unless something was confirmed in between
    if (leg.drawKey === number || this.knownLeg === number) body.beginLeg(key, leg.metres);
    senses.beginLeg(leg, number + this.tries * KEYS_PER_TRY, leg.toTarget ? leg.likes : w.onlyTarget);
    const rule = RULES[leg.technique];
    rule.begin(mind);
    if (leg.technique === 'handrail' && mind.cameByAimOff) {
      const aimLeg = this.legs[number - 1]!;
      mind.beyondWanted = Math.abs(leg.toAlong - aimLeg.wantedAlong);
    }
    this.watcher?.event('leg', body, mind, number);
    const p = this.percepts;
    p.counted = 0;
    senses.look(p);
    const ending = this.steer(rule.decide, leg);
    if (ending === 'arrived' && leg.technique === 'aim-off') {
      // the line was crossed within the last step: back on to it
      if (senses.metLine >= 0) body.stepOn(senses.metLine, mind.unitX, mind.unitY, true);
      mind.aimOffset = leg.offset;
      mind.aimedAtNothing = leg.offset === 0;
      mind.aimAlong = leg.toAlong;
    } else if (leg.technique === 'handrail') {
      mind.cameByAimOff = false;
      if (ending === 'arrived' && p.lineEnded && leg.toSpot >= 0) this.cameToItsEnd(leg);
    }
    if (ending === 'arrived' && leg.counts > 0 && leg.toTarget) return this.declareCounted(leg);
    return ending;
  }

  /** The line underfoot stopped and the party takes that for the end of the leg; it is, if it was that line. */
  private cameToItsEnd(leg: PlannedLeg): void {
    const { body, mind, world: w } = this;
    const right = body.onLine === leg.line;
    this.watcher?.event(right ? 'confirmed' : 'took a lookalike', body, mind, leg.number);
    if (!right) return;
    const spot = w.spots[leg.toSpot]!;
    this.knows(leg.toSpot, spot.x, spot.y, leg.number + 1);
  }

  /** From here on the way back leads to where the party stands. */
  private knows(spot: number, x: number, y: number, leg: number): void {
    this.knownSpot = spot;
    this.knownX = x;
    this.knownY = y;
    this.knownTrueX = this.body.x;
    this.knownTrueY = this.body.y;
    this.knownLeg = leg;
  }

  /** The count is full: this one it is, whichever it is. */
  private declareCounted(leg: PlannedLeg): Ending {
    const { body, mind, world: w } = this;
    const { ground } = body;
    ground.spot(w.target);
    const dx = ground.spotX[w.target]! - body.x;
    const dy = ground.spotY[w.target]! - body.y;
    const target = w.spots[w.target]!;
    const r = body.air === w.high ? target.halfHigh : target.halfLow;
    const right = ground.spotThere[w.target] === 1 && dx * dx + dy * dy <= r * r;
    this.watcher?.event(right ? 'found' : 'declared on the wrong thing', body, mind, leg.number);
    return right ? 'found' : 'false';
  }

  private steer(decide: (m: Mind, p: Percepts) => number, leg: PlannedLeg): Ending {
    const { body, mind, percepts: p } = this;
    let standing = 0;
    for (;;) {
      if (p.seen) {
        const seen = this.judgeSeen(leg);
        if (seen !== 'unsure') return seen;
      }
      const order = decide(mind, p);
      if (order === ARRIVED) return 'arrived';
      if (order === UNSURE) {
        this.watcher?.event('unsure', body, mind, leg.number);
        return 'unsure';
      }
      const walked = body.walked;
      this.act(order);
      if (body.offMap) return 'off-map';
      if (body.clock > this.deadline) return 'time';
      // a party that keeps deciding without a step is at its wits' end
      standing = body.walked === walked ? standing + 1 : 0;
      if (standing > MOST_STANDING) return 'unsure';
    }
  }

  /** Carries out one order and perceives. Steps in which nothing can have come in view are walked without a look. */
  act(order: number): void {
    const { body, mind, senses, percepts: p } = this;
    if (order >= JOIN) {
      this.stepsTaken++;
      p.counted = 0;
      this.change(order);
      senses.look(p);
      this.afterStep(order);
      return;
    }
    if (mind.fresh && order !== GO_LINE) {
      body.takeBearing(mind.legKey, mind.bearingNumber++, mind.heading, mind.sighted);
      mind.fresh = false;
      senses.wake();
    }
    for (let left = mind.orderSteps; ; ) {
      const miscounts = body.errors.miscount !== 0;
      const walked = this.stepsOf(order, mind.orderMetres, left);
      this.stepsTaken += walked;
      left -= walked;
      if (body.offMap) return;
      const quiet = senses.quiet(p);
      this.afterStep(order);
      // a count that slipped changes how far there is to go
      if (!quiet || miscounts || left <= 0 || body.clock > this.deadline) return;
    }
  }

  /** Walks up to `most` steps, fewer where something may come in view; leaves the metres counted in the percepts. Returns how many. */
  private stepsOf(order: number, counted: number, most: number): number {
    const { body, senses, percepts: p } = this;
    const { errors } = body;
    p.stepCounted = counted;
    let done = 1;
    const checkAt = this.checkedAt + ASTRAY_EVERY;
    if (order === GO_LINE) done = body.follow(counted, most, senses.watch, checkAt, this.deadline);
    else if (order === GO_CONTOUR) body.contour(counted * body.metresPerCount, this.mind.heading);
    else {
      const timed = order === GO_TIMED;
      done = body.walk(counted, most, timed, senses.watch, checkAt, this.deadline);
    }
    p.counted = counted * done;
    if (errors.miscount !== 0 && order !== GO_TIMED && order !== GO_LINE) {
      p.counted += errors.miscount;
      errors.miscount = 0;
    }
    return done;
  }

  private afterStep(order: number): void {
    const { body, mind } = this;
    mind.integrate(this.percepts, order);
    if (body.walked - this.checkedAt > ASTRAY_EVERY) this.checkAstray();
    this.watcher?.step?.(body, mind);
  }

  /** Changes what is underfoot without a step. */
  private change(order: number): void {
    const { body, mind, senses } = this;
    if (order === JOIN) this.join();
    else if (order === TURN_WRONG) this.turnWrong();
    else {
      body.turnRound();
      senses.forgetForks();
      this.watcher?.event('turns round', body, mind, mind.leg.number);
    }
  }

  /** Steps on to the line just met, or the nearest of the family in view. */
  private join(): void {
    const { body, mind, senses } = this;
    const family = mind.orderFamily;
    const except = mind.leavesLine ? body.onLine : -1;
    let line = senses.metLine;
    if (line < 0 || body.ground.lines[line]!.family !== family)
      line = senses.lines.atHand(mind.leg.lines, family, mind.unitX, mind.unitY, except);
    if (line >= 0) body.stepOn(line, mind.unitX, mind.unitY, line === senses.metLine && line !== body.onLine);
    else body.stay();
  }

  /** Takes another branch for the right one. */
  private turnWrong(): void {
    const { body, mind, senses } = this;
    let wrong = -1;
    if (senses.seenFork < 0) wrong = senses.metLine;
    else
      for (const i of this.world.spots[senses.seenFork]!.branches) {
        if (i === body.onLine) continue;
        body.ground.line(i);
        if (body.ground.lineThere[i] === 1) {
          wrong = i;
          break;
        }
      }
    if (wrong < 0) return;
    body.stepOn(wrong, mind.unitX, mind.unitY);
    this.watcher?.event('wrong turn', body, mind, mind.leg.number);
  }

  /** Something like what is wanted is in view: take it, or leave it. 'unsure' means walk on. */
  judgeSeen(leg: PlannedLeg): Ending {
    const { body, mind, senses, percepts: p, world: w } = this;
    p.seen = false;
    const as = p.seenAsTarget ? w.target : leg.toSpot;
    if (as < 0 || !mind.judge(p, as)) return 'unsure';
    const spot = senses.seenSpot;
    const { seenX, seenY } = senses;
    const dx = seenX - body.x;
    const dy = seenY - body.y;
    body.approach(seenX, seenY, Math.sqrt(dx * dx + dy * dy));
    if (as === w.target) {
      this.watcher?.event(
        spot === w.target ? 'found' : 'declared on the wrong thing',
        body,
        mind,
        leg.number,
      );
      return spot === w.target ? 'found' : 'false';
    }
    const map = w.spots[as]!;
    mind.belief.fix(map.x, map.y, map.sd);
    this.watcher?.event(spot === as ? 'confirmed' : 'took a lookalike', body, mind, leg.number);
    if (spot === as) this.knows(as, map.x, map.y, leg.number + 1);
    return 'arrived';
  }

  /** The target was not there where it should be: look for it, within the allowance. */
  private searchTarget(): Ending {
    const { body, mind, world: w } = this;
    mind.wavered = true;
    this.watcher?.event('searches', body, mind, this.legs.length - 1);
    const allowance = Math.min(w.searchSeconds, Math.max(0, w.turnRoundSeconds - body.clock));
    const ending = search(this, this.halfWidthOf(w.target), w.targetLikes, allowance, w.abreast);
    if (ending === 'unsure') this.watcher?.event('gives up the search', body, mind, this.legs.length - 1);
    return ending;
  }

  /** An attack point or another end of a leg was not there: a short look round. */
  private searchForEnd(leg: PlannedLeg): Ending {
    if (leg.toSpot < 0) return 'unsure';
    this.mind.wavered = true;
    const allowance = Math.min(300, this.world.searchSeconds / 2);
    return search(this, this.halfWidthOf(leg.toSpot), leg.likes, allowance, 1);
  }

  /** Half the sweep width of a spot in the air here, metres. */
  private halfWidthOf(spot: number): number {
    const s = this.world.spots[spot]!;
    return this.body.air === this.world.high ? s.halfHigh : s.halfLow;
  }

  private noteError(leg: number): void {
    const { body, mind, world: w } = this;
    const dx = body.x - mind.belief.x;
    const dy = body.y - mind.belief.y;
    const small = Math.max(SMALL_ERROR, 2 * w.spots[w.target]!.halfLow);
    if (dx * dx + dy * dy <= small * small) this.lastGoodLeg = Math.max(this.lastGoodLeg, leg);
  }

  private checkAstray(): void {
    const { body, mind } = this;
    this.checkedAt = body.walked;
    const dx = body.x - mind.belief.x;
    const dy = body.y - mind.belief.y;
    const d = Math.sqrt(dx * dx + dy * dy);
    if (d > ASTRAY_METRES && d > 3 * mind.belief.sdAlong(dx / d, dy / d)) {
      if (this.astraySeconds < 0) this.astraySeconds = body.clock;
      else if (body.clock - this.astraySeconds > ASTRAY_SECONDS) this.result.astray = true;
    } else this.astraySeconds = -1;
  }

  private conclude(ending: Ending): AttemptResult {
    const { body, mind, senses, result: r } = this;
    r.found = ending === 'found';
    r.falseFind = ending === 'false';
    r.wavered = mind.wavered;
    r.x = body.x;
    r.y = body.y;
    r.nearest = senses.nearest;
    r.outOfTime = ending === 'time';
    r.regained = false;
    const astray = r.astray;
    const foundAt = body.clock;
    if (!r.found && !r.falseFind && ending !== 'off-map' && ending !== 'time') {
      // having given up, the party is on its way home and looks no more
      const back = goBack(this, false);
      r.regained = back === 'arrived';
      r.outOfTime = back === 'time';
    }
    r.astray = astray || r.astray;
    r.seconds = r.found || r.falseFind ? Math.max(foundAt, r.found ? body.clock : 0) : body.clock;
    r.metres = body.walked;
    r.hazard = body.hazard;
    r.lostOnLeg = Math.min(this.lastGoodLeg + 1, this.legs.length - 1);
    return r;
  }
}
