import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, test } from 'vitest';
import { Attempt } from '../../src/walk/attempt.ts';
import { MUTE_DAY, MUTE_GROUND, MUTE_LEG, MUTE_STEP } from '../../src/walk/keys.ts';
import type { Percepts } from '../../src/walk/percepts.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { importsOf, parse } from '../architecture/imports.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { BENCH_DAY, line, spot } from '../walk/plain-ground.ts';
import { type SmallTask, smallTask } from './open-ground.ts';

/** The party's head and everything that it reads. */
const HEAD = [
  'mind.ts',
  'belief.ts',
  'identify.ts',
  'percepts.ts',
  'planned-leg.ts',
  'segment-at.ts',
  ...readdirSync('src/walk/techniques').map((f) => `techniques/${f}`),
];
const TRUTH = [
  'attempt.ts',
  'body.ts',
  'errors.ts',
  'extras.ts',
  'line-sense.ts',
  'sampled-ground.ts',
  'search-pattern.ts',
  'senses.ts',
  'underfoot.ts',
  'way-back.ts',
];

/** Everything that a file of the walk imports, however far down, within the walk. */
function reachedFrom(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  const path = join('src/walk', file);
  for (const { specifier, typeOnly } of importsOf(parse(path, readFileSync(path, 'utf8')))) {
    if (specifier === null || typeOnly || !specifier.startsWith('.')) continue;
    const to = normalize(join(dirname(file), specifier));
    if (!to.startsWith('..')) reachedFrom(to, seen);
  }
  return seen;
}

describe('the head of the party reaches nothing of the true ground', () => {
  test('the files named are there', () => {
    const there = readdirSync('src/walk');
    for (const file of TRUTH) expect(there).toContain(file);
  });

  test.each(HEAD)('%s', (file) => {
    for (const reached of reachedFrom(file)) expect(TRUTH).not.toContain(reached);
    const path = join('src/walk', file);
    // nor as a type
    for (const { specifier } of importsOf(parse(path, readFileSync(path, 'utf8'))))
      for (const t of TRUTH) expect(specifier?.endsWith(`/${t}`)).toBe(false);
  });
});

interface Walked {
  readonly percepts: Percepts[];
  readonly spots: number[];
  readonly decisions: string[];
}

/** Walks a trial and keeps what was perceived and what was decided; with `log`, another party's percepts take the place of its own. */
function walked(
  task: SmallTask,
  name: 'byPath' | 'aimedOff',
  trial: number,
  mute: number,
  log?: Walked,
): Walked {
  const attempt = new Attempt(task.world, planLegs(task.world, task[name]));
  const { senses, mind } = attempt;
  const record: Walked = { percepts: [], spots: [], decisions: [] };
  const look = senses.look.bind(senses);
  // a look at every step, so that the n-th look of both is that of the same step
  const integrate = mind.integrate.bind(mind);
  if (log !== undefined) {
    // told of a line that is not under its own feet, the body walks on
    const follow = attempt.body.follow.bind(attempt.body);
    attempt.body.follow = (counted, steps, watch, walkedTo, until) =>
      attempt.body.onLine >= 0
        ? follow(counted, steps, watch, walkedTo, until)
        : attempt.body.walk(counted, 1, false, watch, 0, 0);
  }
  let next = 0;
  let over = false;
  attempt.watcher = {
    event(kind) {
      // a search looks at the watch of the true party: what is decided up to it is compared
      if (kind === 'searches' || kind === 'turns back' || kind === 'found') over = true;
    },
  };
  senses.look = (p) => {
    const noticed = look(p);
    senses.wake();
    if (over) return noticed;
    if (log !== undefined && next < log.percepts.length) {
      Object.assign(p, log.percepts[next]);
      senses.seenSpot = log.spots[next]!;
      // told of a thing that is not there, the body stays where it is
      senses.seenX = attempt.body.x;
      senses.seenY = attempt.body.y;
    }
    next++;
    record.percepts.push({ ...p });
    record.spots.push(senses.seenSpot);
    // a decision after every look
    return true;
  };
  mind.integrate = (p, order) => {
    if (!over) {
      record.decisions.push(
        `${order} ${mind.leg.number} ${mind.phase} ${mind.orderMetres} ${mind.heading} ${mind.lineSense} ${mind.counted}`,
      );
    }
    integrate(p, order);
  };
  attempt.run(1, trial, mute);
  return record;
}

describe('the same percepts on another ground give the same decisions', () => {
  const at = AS_WRITTEN.at;
  const task = smallTask(AS_WRITTEN, {
    conditions: { ...BENCH_DAY, ground: 'wet' },
    features: [
      spot('like', 'boulder', at([120, 740]), { exists: 0.6, positionMetres: 20 }),
      spot('fold', 'fold', at([150, 600]), { exists: 0.7, positionMetres: 20, rangeMetres: 40 }),
      line('second', 'stream', [at([-900, 480]), at([900, 500])], { exists: 0.7, positionMetres: 10 }),
    ],
  });
  // a ground that is as the map says, under a party whose every step is true
  const other = MUTE_GROUND | MUTE_DAY | MUTE_LEG | MUTE_STEP;
  test.each(['byPath', 'aimedOff'] as const)('%s', (name) => {
    let differ = 0;
    for (let trial = 0; trial < 40; trial++) {
      const recorded = walked(task, name, trial, 0);
      const replayed = walked(task, name, trial, other, recorded);
      expect(replayed.decisions).toEqual(recorded.decisions);
      expect(recorded.decisions.length).toBeGreaterThan(20);
      if (walked(task, name, trial, other).decisions.join() !== recorded.decisions.join()) differ++;
    }
    // left to its own percepts, the other ground does lead to other decisions
    expect(differ).toBeGreaterThan(25);
  });
});
