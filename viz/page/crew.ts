import type { Reading } from '../../src/door/reading.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Route } from '../../src/route/leg.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import { problemSaid } from './german-faults.ts';
import type { FromThinker, GroundFiles, ToThinker } from './messages.ts';
import { startWorker, takeBegun } from './programs.ts';
import type { FromPage, WalkerPort } from './walker-messages.ts';

/** Quiet time before the whole job is done anew, milliseconds. */
const PATIENCE = 700;

/** What is not urgent waits so long after the hand has moved the map, milliseconds. */
const HAND = 250;

/** Told what the workers find out. */
export type Listener = (message: FromThinker) => void;

/** The workers of the page: one that answers at once, one that does the whole job in peace, and walkers for both. */
export class Crew {
  private readonly prober: Worker;
  private readonly walkers: readonly Worker[];
  /** Started when the first figures are there: until then every core is needed for them. */
  private refiner: Worker | null = null;
  /** State that the refiner is at work on, or null. */
  private refining: number | null = null;
  private readonly listener: Listener;
  private found: readonly Route[] = [];
  private patience = 0;
  private hand = 0;
  private waiting: { state: number; task: WrittenTask } | null = null;
  private asked: Extract<ToThinker, { do: 'report' }> | null = null;
  private ground: GroundFiles | null = null;
  /** Known to every worker by the same number. */
  private groundNumber = 0;
  /** The ground that the refiner has read. */
  private read: GroundFiles | null = null;
  private probes = 0;
  private state = 0;
  /** State of the task that all figures are there for. */
  private refined = 0;

  constructor(listener: Listener) {
    this.listener = listener;
    const { prober, walkers } = takeBegun();
    this.walkers = walkers;
    for (const walker of walkers) walker.onerror = (event) => this.fault(event);
    this.prober = this.heardFrom(prober);
    const ports = this.waysToWalkers(0);
    send(this.prober, { do: 'ports', ports }, ports);
  }

  private waysToWalkers(rank: WalkerPort['rank']): MessagePort[] {
    return this.walkers.map((walker) => {
      const { port1, port2 } = new MessageChannel();
      walker.postMessage({ port: port2, rank } satisfies FromPage, [port2]);
      return port1;
    });
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
    send(this.prober, { do: 'ground', ground, number: ++this.groundNumber });
    // the first figures need every core: the other worker reads the ground when it is its turn
    this.ground = ground;
  }

  /** Another state of the task: coarse results at once, all of them when nothing changes for a while. */
  think(state: number, task: WrittenTask): void {
    this.rest();
    this.state = state;
    this.asked = null;
    send(this.prober, { do: 'task', state, task, found: this.found });
    this.waiting = { state, task };
  }

  /** The figures of a route that is being dragged; the number comes back with them. */
  probe(route: NonNullable<WrittenTask['routes']>[number]): number {
    this.rest();
    send(this.prober, { do: 'probe', number: ++this.probes, route });
    // the drag may be called off: then the task stays what it was, and is not done yet
    this.whenQuiet(this.state);
    return this.probes;
  }

  /** Asks for the report of the task as it stands; it comes when all of it has been worked out. */
  report(state: number, task: WrittenTask, reading: Reading): void {
    window.clearTimeout(this.patience);
    this.asked = { do: 'report', state, task, reading };
    this.refine(this.asked);
  }

  /** The hand moves the map: the cores are for what it sees, until a while after. */
  handMoves(): void {
    if (this.hand === 0) this.walkersWait(true);
    window.clearTimeout(this.hand);
    this.hand = window.setTimeout(() => {
      this.hand = 0;
      this.walkersWait(false);
    }, HAND);
  }

  private walkersWait(waits: boolean): void {
    for (const walker of this.walkers) walker.postMessage({ waits } satisfies FromPage);
  }

  interpret(name: string, line: readonly Point[]): void {
    send(this.prober, { do: 'interpret', number: 0, name, line });
  }

  /** Found routes belong to a start and a target; others are not shown in their place. */
  forgetFound(): void {
    this.found = [];
  }

  /** A search that is under way hears nothing: it ends with its worker, and leaves the cores to what is wanted now. */
  private rest(): void {
    window.clearTimeout(this.patience);
    if (this.refining === null || this.refiner === null) return;
    this.refiner.terminate();
    this.refiner = null;
    this.refining = null;
  }

  private heard(message: FromThinker): void {
    if (message.tells === 'results') {
      const { results } = message;
      if (results.state !== this.state) return;
      if (results.coarse) this.whenQuiet(results.state);
      else {
        this.refining = null;
        this.found = results.routes.filter((r) => r.origin === 'found');
        this.refined = results.state;
      }
    }
    if (message.tells === 'problem') this.asked = null;
    if (message.tells === 'report') {
      this.refining = null;
      this.asked = null;
      // it may have been asked for before the figures were refined
      this.whenQuiet(message.state);
    }
    const wrong = message.tells === 'problem' && !message.ours;
    this.listener(wrong ? { ...message, message: problemSaid(message.message) } : message);
  }

  private refine(wish: Extract<ToThinker, { do: 'task' | 'report' }>): void {
    const refiner = this.refiner ?? this.startRefiner();
    const { ground, groundNumber: number } = this;
    if (ground !== null && this.read !== ground) send(refiner, { do: 'ground', ground, number });
    this.read = ground;
    this.refining = wish.state;
    send(refiner, wish);
  }

  private startRefiner(): Worker {
    const refiner = this.heardFrom(startWorker('thinker', 'refiner'));
    const ports = this.waysToWalkers(1);
    send(refiner, { do: 'ports', ports }, ports);
    this.refiner = refiner;
    this.read = null;
    return refiner;
  }

  /** What is still to be done for this state is begun after a while without changes. */
  private whenQuiet(state: number): void {
    window.clearTimeout(this.patience);
    this.patience = window.setTimeout(() => {
      const { waiting, asked } = this;
      if (asked?.state === state) this.refine(asked);
      else if (waiting?.state === state && this.refined !== state) {
        this.refine({ do: 'task', ...waiting, found: [] });
      }
    }, PATIENCE);
  }
}

function send(worker: Worker, message: ToThinker, transfer: Transferable[] = []): void {
  worker.postMessage(message, { transfer });
}
