import { version } from '../../../package.json';
import { isPlain } from '../../../src/door/reading.ts';
import { writeReport } from '../../../src/report/write-report.ts';
import type { Route } from '../../../src/route/leg.ts';
import { type Compared, compare } from '../../../src/study/compare.ts';
import type { Task } from '../../../src/study/task.ts';
import { walkHere } from '../../../src/walk/jobs.ts';
import { understand } from '../as-written.ts';
import type { ToThinker } from '../messages.ts';
import { type OpenedGround, openGround } from './open-files.ts';
import { Pool, Superseded, walkersOn } from './pool.ts';
import { dropQuietly, locateOn, taskOn, tell, tellProblem, worldKey } from './thinking.ts';
import { wholeGround } from './whole-ground.ts';

/** Attempts per message: what is dragged meanwhile waits for no more than this. */
const PIECE = 100;

/** Does the whole job as `compare` does it, in peace: finds routes, walks every attempt, varies the assumptions. */
export function serveRefiner(): void {
  dropQuietly();
  let opened: OpenedGround | null = null;
  let groundNumber = 0;
  let pool = new Pool([]);
  let busy: Promise<void> = Promise.resolve();
  let latest = 0;
  /** What was worked out last. */
  let last: { readonly state: number; readonly whole: Compared } | null = null;

  const hear = async (message: ToThinker): Promise<void> => {
    if (message.do === 'ports') pool = new Pool(message.ports);
    else if (message.do === 'ground') {
      opened = await openGround(message.ground);
      groundNumber = message.number;
      last = null;
    } else if (message.do === 'task') await refine(message);
    else if (message.do === 'report') await report(message);
  };

  async function compared(state: number, task: Task, ground: OpenedGround): Promise<Compared> {
    const { terrain, relief } = ground;
    const key = worldKey(task, groundNumber);
    let worlds = 0;
    return compare(
      { task, terrain, relief, locate: locateOn(terrain.crs) },
      {
        tells: true,
        // the prober has sent the world of the task to the walkers already; that of a way out is walked here
        walkersFor: (world) => (worlds++ === 0 ? walkersOn(pool, key, PIECE) : walkHere(world)),
        progress: ({ doing, done, of }) => {
          if (state !== latest) throw new Superseded();
          tell({
            tells: 'progress',
            state,
            share: doing === 'walks' ? done / of : doing === 'changes' ? 1 : 0,
          });
        },
      },
    );
  }

  async function report({ state, task, reading }: Extract<ToThinker, { do: 'report' }>): Promise<void> {
    if (opened === null || state !== latest) return;
    // routes are named while they are found: in the plain language that has been done
    const done = last !== null && last.state === state && isPlain(reading) ? last.whole : null;
    const whole = done ?? (await compared(state, { ...taskOn(opened, task), reading }, opened));
    tell({ tells: 'report', state, report: writeReport(whole, `mistwise ${version}`) });
  }

  async function refine({ state, task: written }: Extract<ToThinker, { do: 'task' }>): Promise<void> {
    if (opened === null || state !== latest) return;
    const whole = await compared(state, taskOn(opened, written), opened);
    last = { state, whole };
    const routes: readonly Route[] = whole.walked.map((w) => w.route);
    const report = writeReport(whole, 'page', wholeGround);
    const understood = (written.routes ?? []).map((r, i) => understand(r, routes[i]!));
    tell({ tells: 'results', results: { state, coarse: false, report, routes, understood } });
  }

  self.onmessage = ({ data }: MessageEvent<ToThinker>) => {
    if (data.do === 'stop') {
      latest = -1;
      pool.drop();
      return;
    }
    if (data.do === 'task' || data.do === 'report') {
      latest = data.state;
      pool.drop();
    }
    busy = busy.then(async () => {
      try {
        await hear(data);
      } catch (error) {
        if (error instanceof Superseded) return;
        tellProblem('state' in data ? data.state : -1, error);
      }
    });
  };
}
