import { writeReport } from '../../../src/report/write-report.ts';
import type { Route } from '../../../src/route/leg.ts';
import { compare } from '../../../src/study/compare.ts';
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

  const hear = async (message: ToThinker): Promise<void> => {
    if (message.do === 'ports') pool = new Pool(message.ports);
    else if (message.do === 'ground') {
      opened = await openGround(message.ground);
      groundNumber++;
    } else if (message.do === 'task') await refine(message);
  };

  async function refine({ state, task: written }: Extract<ToThinker, { do: 'task' }>): Promise<void> {
    if (opened === null || state !== latest) return;
    const { terrain, relief } = opened;
    const task = taskOn(opened, written);
    const key = worldKey(task, groundNumber);
    const inputs = { task, terrain, relief, locate: locateOn(terrain.crs) };
    const compared = await compare(inputs, {
      // the prober has sent the same world to the walkers already
      walkersFor: () => walkersOn(pool, key, PIECE),
      progress: ({ doing, done, of }) => {
        if (state !== latest) throw new Superseded();
        tell({ tells: 'progress', state, share: doing === 'walks' ? done / of : 0 });
      },
    });
    const routes: readonly Route[] = compared.walked.map((w) => w.route);
    const report = writeReport(compared, 'page', wholeGround);
    const understood = (written.routes ?? []).map((r, i) => understand(r, routes[i]!));
    tell({ tells: 'results', results: { state, coarse: false, report, routes, understood } });
  }

  self.onmessage = ({ data }: MessageEvent<ToThinker>) => {
    if (data.do === 'stop') {
      latest = -1;
      pool.clear();
      return;
    }
    if (data.do === 'task') {
      latest = data.state;
      pool.clear();
    }
    busy = busy.then(async () => {
      try {
        await hear(data);
      } catch (error) {
        if (error instanceof Superseded) return;
        tellProblem(data.do === 'task' ? data.state : -1, error);
      }
    });
  };
}
