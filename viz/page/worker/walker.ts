import { answerWalks } from '../../../src/walk/jobs.ts';
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
        answer = answerWalks(data.world);
        walking = new Walking(data.world);
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
