import { answerWalks } from '../../../src/walk/jobs.ts';
import { worldInShape } from '../../../src/walk/one-shape.ts';
import type { FromWalker, ToWalker } from '../messages.ts';
import { Walking } from './walking.ts';

/** Walks jobs for whoever holds a port; the prober sends the worlds. */
export function serveWalker(): void {
  let key = '';
  let answer: ReturnType<typeof answerWalks> | null = null;
  let walking: Walking | null = null;
  const hear = (port: MessagePort) => {
    port.onmessage = ({ data }: MessageEvent<ToWalker>) => {
      if (data.do === 'world') {
        key = data.key;
        const world = worldInShape(data.world);
        answer = answerWalks(world);
        walking = new Walking(world);
        return;
      }
      port.postMessage(answered(data));
    };
  };
  const answered = (message: Extract<ToWalker, { do: 'walk' }>): FromWalker => {
    const { number, job } = message;
    if (answer === null || walking === null || message.key !== key) return { number, fault: 'superseded' };
    try {
      return { number, answer: job.do === 'simulate' ? walking.piece(job) : answer(job) };
    } catch (error) {
      return { number, fault: error instanceof Error ? error.message : String(error) };
    }
  };
  self.onmessage = ({ data }: MessageEvent<{ ports: readonly MessagePort[] }>) => data.ports.forEach(hear);
}
