import { beforeAll, describe, expect, it } from 'vitest';
import type { DrawnRoute } from '../../src/route/drawn.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { compare } from '../../src/study/compare.ts';
import { improvements, judge } from '../../src/study/improve-routes.ts';
import {
  beats,
  isQuickerTwin,
  leading,
  race,
  ranked,
  runnerOf,
  shareOf,
  signTest,
} from '../../src/study/racing.ts';
import { screen, screeningSeed } from '../../src/study/screen.ts';
import type { Task } from '../../src/study/task.ts';
import { worthChecking } from '../../src/study/worth-checking.ts';
import { walkHere } from '../../src/walk/jobs.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { simulate } from '../../src/walk/simulate.ts';
import { CLEAR, errand, line, moor, point } from '../route/moor.ts';

// A spring on a beck 1.2 km off, in mist; a wall leads to a ruin near it. The wall stands on six days of ten.
const mist = { ...CLEAR, visibility: { below: 120, above: 120, cloudBase: null } };
const beck = line('beck', 'stream', [2200, 2900], [2200, 300]);
const dyke = { ...line('dyke', 'wall', [700, 1700], [2060, 1700]) };
const wall = { ...dyke, doubt: { ...dyke.doubt, exists: 0.6 } };
const ruin = point('ruin', 'ruin', [2060, 1700]);
const spring = point('spring', 'spring', [2200, 1500]);
const features = [beck, wall, ruin, spring];
const ground = moor(features, { height: (_e, n) => 200 + 0.02 * n });
const straight: DrawnRoute = { name: 'straight', legs: [{ technique: 'bearing', to: 'target' }] };
const byWall: DrawnRoute = {
  name: 'by the wall',
  legs: [
    { technique: 'bearing', to: { at: [760, 1700] } },
    { technique: 'handrail', along: 'dyke', towards: 'ruin' },
    { technique: 'bearing', to: 'target' },
  ],
};
const task: Task = {
  ...errand([700, 1500], spring, 'novice', mist),
  limits: { ...errand([0, 0], spring).limits, minutes: 90 },
  name: 'a spring in mist',
  version: 1,
  features,
  overrides: {},
  routes: [straight, byWall],
  candidates: 4,
  trials: 600,
  seed: 5,
  seeing: 'definite',
};
const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
const [one, two] = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i + 1}`));
const tallied = (route = one!, seed = task.seed, to = 600) => simulate(world, route, seed, 0, to);

describe('the race', () => {
  it('drops what is clearly beaten and walks the rest on; blocks of attempts give what one walk gives', async () => {
    const runners = [runnerOf(one!), runnerOf(two!)];
    const order = await race(walkHere(world), runners, 77, [
      { attempts: 100, goOn: 2 },
      { attempts: 400, goOn: 2 },
    ]);
    const [first, second] = order;
    expect(beats(first!, second!)).toBe(true);
    expect(first!.hit.length).toBe(400);
    const whole = tallied(first!.route, 77, 400);
    expect(first!.hit.reduce((a, b) => a + b, 0)).toBe(whole.outcomes[0]! + whole.outcomes[1]!);
    // the loser may have left at 100
    expect([100, 400]).toContain(second!.hit.length);
    expect(shareOf(first!)).toBeGreaterThan(shareOf(second!));
  });

  it('counts only the attempts in which the two differ: McNemar 1947, (b − c)/√(b + c)', () => {
    const of = (hit: number[]) => ({ ...runnerOf(one!), hit, seconds: hit.map(() => 60) });
    const a = of([1, 1, 1, 1, 1, 0, 0, 0]);
    const b = of([1, 0, 0, 0, 1, 1, 0, 0]);
    expect(signTest(a, b)).toBeCloseTo((3 - 1) / 2, 12);
    expect(signTest(a, a)).toBe(0);
    expect(ranked([b, a])[0]).toBe(a);
  });

  const of = (finds: number, seconds: number, attempts = 100) => ({
    ...runnerOf(one!),
    hit: Array.from({ length: attempts }, (_, i) => Number(i < finds)),
    seconds: Array.from({ length: attempts }, () => seconds),
  });

  it('the quickest of the best is bettered too', () => {
    const order = [of(60, 6000), of(58, 5900), of(55, 5800), of(30, 3000)];
    expect(leading(order, 3)).toEqual([order[0], order[1], order[3]]);
    expect(leading(order.slice(0, 3), 3)).toEqual(order.slice(0, 3));
  });

  it('of two near-duplicates the quicker stands for both, unless the other clearly finds more or went farther', () => {
    expect(isQuickerTwin(of(48, 5280), of(49, 5700), 2)).toBe(true);
    expect(isQuickerTwin(of(30, 5280), of(49, 5700), 2)).toBe(false);
    expect(isQuickerTwin(of(12, 5280, 24), of(49, 5700), 2)).toBe(false);
    expect(isQuickerTwin(of(50, 5800), of(49, 5700), 2)).toBe(false);
  });

  it('what hardly ever finds leads nobody, however quick it is to fail', () => {
    const [sure, quick, hopeless] = [of(60, 6000), of(30, 3000), of(5, 1000)];
    expect(ranked([hopeless, quick, sure, of(55, 7000)]).slice(0, 2)).toEqual([sure, quick]);
    expect(ranked([hopeless, sure]).at(-1)).toBe(hopeless);
  });

  it('no more than so many go on, but what stays stays', async () => {
    const many = [runnerOf(one!, true), ...Array.from({ length: 5 }, () => runnerOf(two!))];
    const order = await race(walkHere(world), many, 78, [
      { attempts: 20, goOn: 2 },
      { attempts: 40, goOn: 2 },
    ]);
    expect(order.map((r) => r.hit.length).sort((a, b) => b - a)).toEqual([40, 40, 40, 20, 20, 20]);
    expect(order.find((r) => r.stays)!.hit.length).toBe(40);
  });
});

describe('screening', () => {
  it('proposes what no drawn route beats, on attempts of its own', async () => {
    const drawn = [one!, two!];
    const short = { ...task, trials: 60 };
    const walkers = walkHere(world);
    const names = new Map<string, Set<string>>();
    const { found } = await screen(short, ground, drawn, 2, {
      ...walkers,
      run: (job) => {
        const walk = JSON.stringify(job.route.legs);
        names.set(walk, (names.get(walk) ?? new Set()).add(job.route.id));
        return walkers.run(job);
      },
    });
    expect(found.length).toBeGreaterThan(0);
    // a plan may be a drawn route, a change of a change what it began with: nothing is walked under two names
    expect([...names.values()].filter((ids) => ids.size > 1)).toEqual([]);
    expect(screeningSeed(task.seed)).not.toBe(task.seed);
    const best = Math.max(
      ...found.map((r) =>
        tallied(r, 991)
          .outcomes.subarray(0, 2)
          .reduce((a, b) => a + b, 0),
      ),
    );
    for (const route of drawn) {
      const hits = tallied(route, 991)
        .outcomes.subarray(0, 2)
        .reduce((a, b) => a + b, 0);
      expect(best).toBeGreaterThan(hits - 40);
    }
  });
});

describe('one change', () => {
  let improved: Awaited<ReturnType<typeof improvements>>;
  beforeAll(async () => {
    const walked = [one!, two!].map((route) => ({ route, tally: tallied(route) }));
    improved = await improvements(task, ground, walked, walkHere(world));
  });

  it('helps a straight bearing at a spring on a beck in mist, beyond the noise, and says what', () => {
    const { helped, looked, trials } = improved.get('drawn-1')!;
    expect(looked).toBeGreaterThan(3);
    expect(trials).toBe(600);
    expect(helped.length).toBeGreaterThan(0);
    expect(helped.some((h) => h.kind === 'aim off' || h.kind === 'other attack point')).toBe(true);
    for (const { success, minutes, says } of helped) {
      expect(says.length).toBeGreaterThan(8);
      expect(success.low > 0 || minutes.high < 0).toBe(true);
      expect(success.low).toBeLessThanOrEqual(success.difference);
      expect(success.high).toBeGreaterThanOrEqual(success.difference);
    }
  });

  it('a change that changes nothing has no difference at all, attempt by attempt', () => {
    const tally = tallied();
    const { success, minutes } = judge({ kind: 'tick-off', says: 'nothing' } as never, tally, tallied());
    expect(success.difference).toBe(0);
    expect(success.low).toBeLessThanOrEqual(0);
    expect(minutes).toEqual({ difference: 0, low: 0, high: 0 });
  });
});

describe('what is worth a look beforehand', () => {
  const attempted = [one!, two!].map((route) => ({ route, tally: tallied(route, task.seed, 2000) }));
  const { leanings } = worthChecking({ ...task, trials: 2000 }, ground, world, attempted);
  const onWall = leanings.get('drawn-2')?.find((l) => l.feature.id === 'dyke');

  it('a route by a doubtful wall leans on it; the straight one on nothing', () => {
    expect(onWall).toBeDefined();
    expect(onWall!.there.share).toBeGreaterThan(onWall!.gone.share);
    expect(leanings.get('drawn-1')).toBeUndefined();
  });

  it('parts the attempts as the wall stands: q·P(1) + (1 − q)·P(0) = P, and near q of them', () => {
    const { there, gone } = onWall!;
    const { tally } = attempted[1]!;
    const hits = tally.outcomes[0]! + tally.outcomes[1]!;
    expect(there.trials + gone.trials).toBe(2000);
    expect(there.share * there.trials + gone.share * gone.trials).toBeCloseTo(hits, 6);
    expect(Math.abs(there.trials / 2000 - 0.6)).toBeLessThan(4 * Math.sqrt((0.6 * 0.4) / 2000));
  });

  it('is what worlds with the wall surely there, and surely gone, give', () => {
    const share = (exists: number) => {
      const sure = features.map((f) => (f.id === 'dyke' ? { ...f, doubt: { ...f.doubt, exists } } : f));
      const there = moor(sure, { height: (_e, n) => 200 + 0.02 * n });
      const known = prepareWorld(there, { ...task, features: sure } as Task, { seed: 5, seeing: 'definite' });
      const { outcomes } = simulate(known, two!, 5, 0, 2000);
      return (outcomes[0]! + outcomes[1]!) / 2000;
    };
    expect(Math.abs(share(1) - onWall!.there.share)).toBeLessThan(0.06);
    expect(Math.abs(share(0) - onWall!.gone.share)).toBeLessThan(0.06);
  });

  it('a check that would change the route is worth its gain: the straight way is taken where the wall is gone', () => {
    const gone = attempted.map(({ route, tally }) => ({ route, tally }));
    const { checks } = worthChecking({ ...task, trials: 2000 }, ground, world, gone);
    for (const { gain, ifThere, ifGone, unknowing } of checks) {
      expect(gain.low).toBeGreaterThan(0);
      expect(ifThere === unknowing && ifGone === unknowing).toBe(false);
    }
  });
});

it('compare hands all of it on; who walks changes nothing', async () => {
  const { terrain, relief } = ground;
  const short = { ...task, trials: 40, candidates: 3 };
  const a = await compare({ task: short, terrain, relief }, { walkersFor: walkHere });
  expect(a.improved?.size).toBe(3);
  expect(a.walked.map((w) => w.route.origin)).toEqual(['drawn', 'drawn', 'found']);
  const found = a.walked[2]!;
  expect(found.tally.outcomeOf).toEqual(tallied(found.route, task.seed, 40).outcomeOf);
});
