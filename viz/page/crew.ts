import type { Reading } from '../../src/door/reading.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Route } from '../../src/route/leg.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import { problemSaid } from './german-faults.ts';
import type { FromThinker, GroundFiles, ToThinker } from './messages.ts';
import { startWorker, takeBegun } from './programs.ts';

/** Quiet time before the whole job is done anew, milliseconds. */
const PATIENCE = 700;

/** Told what the workers find out. */
export type Listener = (message: FromThinker) => void;

/** The workers of the page: one that answers at once, one that does the whole job in peace, and walkers for both. */
export class Crew {
  private readonly prober: Worker;
  /** Started when the first figures are there: until then every core is needed for them. */
  private refiner: Worker | null = null;
  private readonly portsOfRefiner: MessagePort[] = [];
  private readonly listener: Listener;
  private found: readonly Route[] = [];
  private patience = 0;
  private waiting: { state: number; task: WrittenTask } | null = null;
  private unread: GroundFiles | null = null;
  private probes = 0;
  private state = 0;
  /** State of the task that all figures are there for. */
  private refined = 0;

  constructor(listener: Listener) {
    this.listener = listener;
    const { prober, walkers } = takeBegun();
    const forProber: MessagePort[] = [];
    for (const walker of walkers) {
      const ways = [new MessageChannel(), new MessageChannel()] as const;
      walker.onerror = (event) => this.fault(event);
      walker.postMessage({ ports: ways.map((w) => w.port2) }, { transfer: ways.map((w) => w.port2) });
      forProber.push(ways[0].port1);
      this.portsOfRefiner.push(ways[1].port1);
    }
    this.prober = this.heardFrom(prober);
    send(this.prober, { do: 'ports', ports: forProber }, forProber);
  }

  private heardFrom(worker: Worker): Worker {
    worker.onerror = (event) => this.fault(event);
    worker.onmessage = ({ data }: MessageEvent<FromThinker>) => this.heard(data);
    return worker;
  }

  private fault({ message }: ErrorEvent): void {
    this.listener({ tells: 'problem', state: this.state, message, ours: true });
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

  /** Asks for the report of the task as it stands; it comes when all of it has been worked out. */
  report(state: number, task: WrittenTask, reading: Reading): void {
    window.clearTimeout(this.patience);
    send(this.readyRefiner(), { do: 'report', state, task, reading });
  }

  interpret(name: string, line: readonly Point[]): void {
    send(this.prober, { do: 'interpret', number: 0, name, line });
  }

  /** Found routes belong to a start and a target; others are not shown in their place. */
  forgetFound(): void {
    this.found = [];
  }

  private rest(): void {
    window.clearTimeout(this.patience);
    if (this.refiner !== null) send(this.refiner, { do: 'stop' });
  }

  private heard(message: FromThinker): void {
    if (message.tells === 'results') {
      const { results } = message;
      if (results.state !== this.state) return;
      if (results.coarse) this.whenQuiet(results.state);
      else {
        this.found = results.routes.filter((r) => r.origin === 'found');
        this.refined = results.state;
      }
    }
    // a report may have been asked for before the figures were refined
    if (message.tells === 'report' && this.refined !== message.state) this.whenQuiet(message.state);
    const wrong = message.tells === 'problem' && !message.ours;
    this.listener(wrong ? { ...message, message: problemSaid(message.message) } : message);
  }

  /** The refiner, with the ground that it has to work on. */
  private readyRefiner(): Worker {
    const refiner = this.refiner ?? this.startRefiner();
    if (this.unread !== null) send(refiner, { do: 'ground', ground: this.unread });
    this.unread = null;
    return refiner;
  }

  private startRefiner(): Worker {
    const refiner = this.heardFrom(startWorker('thinker', 'refiner'));
    send(refiner, { do: 'ports', ports: this.portsOfRefiner }, this.portsOfRefiner);
    this.refiner = refiner;
    return refiner;
  }

  private whenQuiet(state: number): void {
    window.clearTimeout(this.patience);
    this.patience = window.setTimeout(() => {
      if (this.waiting?.state !== state) return;
      send(this.readyRefiner(), { do: 'task', ...this.waiting, found: [] });
    }, PATIENCE);
  }
}

function send(worker: Worker, message: ToThinker, transfer: Transferable[] = []): void {
  worker.postMessage(message, { transfer });
}
