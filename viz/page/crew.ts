import type { Route } from '../../src/route/leg.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { FromThinker, GroundFiles, Results, ToThinker } from './messages.ts';

/** Quiet time before the whole job is done anew, milliseconds. */
const PATIENCE = 700;

/** Told what the workers find out. */
export type Listener = (message: FromThinker) => void;

/** The workers of the page: one that answers at once, one that does the whole job in peace, and walkers for both. */
export class Crew {
  private readonly prober: Worker;
  private readonly refiner: Worker;
  private readonly listener: Listener;
  private found: readonly Route[] = [];
  private patience = 0;
  private waiting: { state: number; task: WrittenTask } | null = null;
  private unread: GroundFiles | null = null;
  private probes = 0;
  private state = 0;

  constructor(script: string, listener: Listener) {
    this.listener = listener;
    const url = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    const start = (name: string) => {
      const worker = new Worker(url, { name });
      worker.onerror = (event) =>
        listener({ tells: 'problem', state: this.state, message: event.message, ours: true });
      return worker;
    };
    this.prober = start('prober');
    this.refiner = start('refiner');
    const forProber: MessagePort[] = [];
    const forRefiner: MessagePort[] = [];
    const walkers = Math.max(2, Math.min(4, navigator.hardwareConcurrency));
    for (let i = 0; i < walkers; i++) {
      const ways = [new MessageChannel(), new MessageChannel()] as const;
      start('walker').postMessage(
        { ports: ways.map((w) => w.port2) },
        { transfer: ways.map((w) => w.port2) },
      );
      forProber.push(ways[0].port1);
      forRefiner.push(ways[1].port1);
    }
    send(this.prober, { do: 'ports', ports: forProber }, forProber);
    send(this.refiner, { do: 'ports', ports: forRefiner }, forRefiner);
    this.prober.onmessage = ({ data }: MessageEvent<FromThinker>) => this.heard(data);
    this.refiner.onmessage = ({ data }: MessageEvent<FromThinker>) => this.heard(data);
  }

  /** Another ground, or the same with other features. */
  open(ground: GroundFiles): void {
    this.rest();
    send(this.prober, { do: 'ground', ground });
    // the first figures need every core: the other worker reads the ground when it is its turn
    this.unread = ground;
  }

  /** Another state of the task: coarse results at once, all of them when nothing changes for a while. */
  think(state: number, task: WrittenTask): void {
    this.rest();
    this.state = state;
    send(this.prober, { do: 'task', state, task, found: this.found });
    this.waiting = { state, task };
  }

  /** The figures of a route that is being dragged; the number comes back with them. */
  probe(route: NonNullable<WrittenTask['routes']>[number]): number {
    this.rest();
    send(this.prober, { do: 'probe', number: ++this.probes, route });
    return this.probes;
  }

  interpret(name: string, text: string, file: string): void {
    send(this.prober, { do: 'interpret', number: 0, name, text, file });
  }

  /** Found routes belong to a start and a target; others are not shown in their place. */
  forgetFound(): void {
    this.found = [];
  }

  private rest(): void {
    window.clearTimeout(this.patience);
    send(this.refiner, { do: 'stop' });
  }

  private heard(message: FromThinker): void {
    if (message.tells === 'results') {
      const { results } = message;
      if (results.state !== this.state) return;
      if (results.coarse) this.whenQuiet(results);
      else this.found = results.routes.filter((r) => r.origin === 'found');
    }
    this.listener(message);
  }

  private whenQuiet({ state }: Results): void {
    window.clearTimeout(this.patience);
    this.patience = window.setTimeout(() => {
      if (this.waiting?.state !== state) return;
      if (this.unread !== null) send(this.refiner, { do: 'ground', ground: this.unread });
      this.unread = null;
      send(this.refiner, { do: 'task', ...this.waiting, found: [] });
    }, PATIENCE);
  }
}

function send(worker: Worker, message: ToThinker, transfer: Transferable[] = []): void {
  worker.postMessage(message, { transfer });
}
