import { answerWalks } from '../../../src/walk/jobs.ts';
import { worldInShape } from '../../../src/walk/one-shape.ts';
import type { FromPage, FromWalker, ToWalker } from '../walker-messages.ts';
import { Walking } from './walking.ts';

type Walk = Extract<ToWalker, { do: 'walk' }>;

/** Walks jobs for whoever holds a port, the prober's before the refiner's; the prober sends the worlds. */
export function serveWalker(): void {
  let key = '';
  let answer: ReturnType<typeof answerWalks> | null = null;
  let walking: Walking | null = null;
  const lists: { port: MessagePort; walks: Walk[] }[] = [];
  // between two jobs the ports are heard: what is dropped or more urgent need not wait for the whole list
  const { port1: step, port2: again } = new MessageChannel();
  let stepping = false;
  let waits = false;

  const next = () => lists.find((l, rank) => l.walks.length > 0 && !(waits && rank > 0));
  const goOn = (): void => {
    if (stepping || next() === undefined) return;
    stepping = true;
    again.postMessage(null);
  };
  step.onmessage = () => {
    stepping = false;
    const list = next();
    const walk = list?.walks.shift();
    if (list !== undefined && walk !== undefined) list.port.postMessage(answered(walk));
    goOn();
  };
  const answered = ({ number, job, key: wanted }: Walk): FromWalker => {
    if (answer === null || walking === null || wanted !== key) return { number, fault: 'superseded' };
    try {
      return { number, answer: job.do === 'simulate' ? walking.piece(job) : answer(job) };
    } catch (error) {
      return { number, fault: error instanceof Error ? error.message : String(error) };
    }
  };
  const hear = (port: MessagePort, message: ToWalker): void => {
    const list = lists.find((l) => l.port === port);
    // a refiner that has ended may have left messages behind
    if (list === undefined) return;
    if (message.do === 'world') {
      key = message.key;
      const world = worldInShape(message.world);
      answer = answerWalks(world);
      walking = new Walking(world);
    } else if (message.do === 'walk') list.walks.push(message);
    else {
      const { number } = message;
      const left = list.walks.filter((w) => w.number !== number);
      // what has been walked already has been answered
      if (left.length < list.walks.length)
        port.postMessage({ number, fault: 'superseded' } satisfies FromWalker);
      list.walks = left;
    }
    goOn();
  };
  self.onmessage = ({ data: said }: MessageEvent<FromPage>) => {
    if ('waits' in said) {
      waits = said.waits;
      goOn();
      return;
    }
    const { port, rank } = said;
    // of each rank there is one: another refiner takes the place of the one before
    lists[rank] = { port, walks: [] };
    port.onmessage = ({ data }: MessageEvent<ToWalker>) => hear(port, data);
  };
}
