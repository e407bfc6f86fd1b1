import { openWalkers } from '../../src/cli/node/walkers.ts';
import { openTask } from '../../src/cli/open-task.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { pairedDifference } from '../../src/math/proportion.ts';
import { hashText } from '../../src/math/random.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { medianSeconds, type Runner, race, ranked, runnerOf, shareOf } from '../../src/study/racing.ts';
import { screen } from '../../src/study/screen.ts';
import type { Task } from '../../src/study/task.ts';
import type { Relief, Terrain } from '../../src/terrain/terrain.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { referenceRoutes } from './strategies.ts';
import { generated, WRITTEN } from './tasks.ts';

/*
 * Whether any route of the reference list, or any drawn one, beats a route of the found unbeaten set by more than its interval at equal or less time. `npm run reference`
 * walks all of it (ten minutes on two cores); words after it choose tasks by name. Everything is walked on seeds that the search has not seen.
 */
const TRIALS = 3000;
const FINALISTS = 10;
const GENERATED = 20;
const ROUNDS = [
  { attempts: 30, goOn: 120 },
  { attempts: 100, goOn: 40 },
  { attempts: 300, goOn: FINALISTS },
];
/** Two-sided 95 % for all finalists together (Bonferroni): the normal quantile of 1 − .025/10. */
const Z = 2.807;

const wanted = process.argv.slice(2);
const isWanted = (name: string) => wanted.length === 0 || wanted.some((word) => name.includes(word));
/** "21-40" asks for other generated tasks, that nothing was ever mended by. */
const [first, last] = /^\d+-\d+$/.test(wanted[0] ?? '') ? wanted[0]!.split('-').map(Number) : [1, GENERATED];
let beaten = 0;
let surer = 0;

for (const path of WRITTEN.filter(isWanted)) {
  const { task, terrain, relief } = await openTask(path);
  await judge(task, terrain, relief);
}
const others = first !== 1;
const names = Array.from({ length: last! - first! + 1 }, (_, n) => `generated ${first! + n}`).filter(
  (name) => others || isWanted(name),
);
if (names.length > 0) {
  const { task, terrain, relief } = await openTask(WRITTEN[0]!);
  const { features } = mapGround(terrain, relief, task.features);
  for (const name of names)
    await judge(generated(task, features, Number(name.split(' ')[1])), terrain, relief);
}
console.log(
  surer === 0
    ? 'No reference is surer than all found.'
    : `In ${surer} tasks a slower reference is surer than all found.`,
);
console.log(beaten === 0 ? 'No found set is beaten.' : `${beaten} found sets are beaten.`);
process.exitCode = beaten === 0 ? 0 : 1;

async function judge(task: Task, terrain: Terrain, relief: Relief): Promise<void> {
  const ground = mapGround(terrain, relief, task.features);
  const all = openWalkers();
  const walkers = all.in(prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing }));
  try {
    const drawn = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i + 1}`));
    // the search is not told what was drawn
    const { found } = await screen(task, ground, [], 6, walkers);
    const references = referenceRoutes(task, ground);
    const screened = await race(
      walkers,
      references.map((r) => runnerOf(r)),
      hashText(`references ${task.seed}`),
      ROUNDS,
    );

    const fresh = hashText(`fresh ${task.seed}`);
    const ours = found.map((route) => runnerOf(route, true));
    const theirs = [...drawn, ...screened.slice(0, FINALISTS).map((r) => r.route)].map((r) =>
      runnerOf(r, true),
    );
    await race(walkers, [...ours, ...theirs], fresh, [{ attempts: TRIALS, goOn: 0 }]);
    const unbeaten = ours.filter((a) => !ours.some((b) => dominates(b, a)));
    const best = ranked(theirs)[0];
    const beating = theirs.filter((a) => unbeaten.some((b) => isBetter(a, b)));
    if (beating.length > 0) beaten++;
    // stricter than beating: what finds more than every found route, whatever time it takes
    const missed = theirs.filter((a) => ours.every((b) => findsMore(a, b)));
    if (missed.length > 0) surer++;
    const said = [
      `${beating.length === 0 ? 'holds ' : 'BEATEN'} ${task.name}: ${references.length} references;`,
      `found ${unbeaten.map(figures).join(', ')};`,
      best === undefined ? 'no reference' : `best reference ${figures(best)} ${best.route.name}`,
    ];
    console.log(said.join(' '));
    for (const a of beating) console.log(`       by ${figures(a)}: ${a.route.name} (${a.route.strategy})`);
    for (const a of missed) console.log(`       surer ${figures(a)}: ${a.route.name} (${a.route.strategy})`);
  } finally {
    await all.close();
  }
}

/** At least as many finds in no more median minutes, and one of the two better. */
function dominates(a: Runner, b: Runner): boolean {
  const [share, minutes] = [shareOf(a) - shareOf(b), medianSeconds(a) - medianSeconds(b)];
  return share >= 0 && minutes <= 0 && (share > 0 || minutes < 0);
}

/** More finds beyond the interval of the paired difference, at no more median minutes. */
function isBetter(a: Runner, b: Runner): boolean {
  return medianSeconds(a) <= medianSeconds(b) && findsMore(a, b);
}

/** More finds beyond the interval of the paired difference. */
function findsMore(a: Runner, b: Runner): boolean {
  const counts = { both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 };
  for (let i = 0; i < a.hit.length; i++) {
    if (a.hit[i] === 1) counts[b.hit[i] === 1 ? 'both' : 'onlyFirst']++;
    else counts[b.hit[i] === 1 ? 'onlySecond' : 'neither']++;
  }
  return pairedDifference(counts, Z).low > 0;
}

function figures(r: Runner): string {
  return `${(100 * shareOf(r)).toFixed(1)} in ${(medianSeconds(r) / 60).toFixed(0)} min`;
}
