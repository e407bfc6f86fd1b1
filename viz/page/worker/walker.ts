import { answerWalks } from '../../../src/walk/jobs.ts';
import type { FromWalker, ToWalker } from '../messages.ts';

/** Walks jobs for whoever holds a port; the prober sends the worlds. */
export function serveWalker(): void {
  let key = '';
  let answer: ReturnType<typeof answerWalks> | null = null;
  const hear = (port: MessagePort) => {
    port.onmessage = ({ data }: MessageEvent<ToWalker>) => {
      if (data.do === 'world') {
        key = data.key;
        answer = answerWalks(data.world);
        return;
      }
      port.postMessage(answered(data));
    };
  };
  const answered = (message: Extract<ToWalker, { do: 'walk' }>): FromWalker => {
    const { number } = message;
    if (answer === null || message.key !== key) return { number, fault: 'superseded' };
    try {
      return { number, answer: answer(message.job) };
    } catch (error) {
      return { number, fault: error instanceof Error ? error.message : String(error) };
    }
  };
  self.onmessage = ({ data }: MessageEvent<{ ports: readonly MessagePort[] }>) => data.ports.forEach(hear);
}
