import { Presets, SingleBar } from 'cli-progress';
import type { Terminal } from './node/terminal.ts';

/** Tells a person how far the work is. */
export interface Progress {
  /** A new part of the work begins. */
  stage(name: string): void;
  /** Of the present part, this much is done. */
  step(done: number, total: number): void;
  end(): void;
}

/** A bar on a terminal; lines at each stage and quarter when nobody watches. */
export function progressOn(terminal: Terminal): Progress {
  return terminal.watched ? bar() : milestones(terminal);
}

function bar(): Progress {
  const drawn = new SingleBar(
    {
      format: '{stage} {bar} {percentage} %',
      hideCursor: true,
      clearOnComplete: true,
      barsize: 30,
      stream: process.stderr,
    },
    Presets.shades_grey,
  );
  let name = '';
  let going = false;
  const stop = () => {
    if (going) drawn.stop();
    going = false;
  };
  return {
    stage: (next) => {
      stop();
      name = next;
      drawn.start(1, 0, { stage: name });
      going = true;
    },
    step: (done, total) => {
      if (!going) return;
      drawn.setTotal(total);
      drawn.update(done, { stage: name });
    },
    end: stop,
  };
}

function milestones(terminal: Terminal): Progress {
  let name = '';
  let said = true;
  let quarter = 0;
  // A stage is named when it has got somewhere, so that of a wrong file only its fault is told.
  const say = () => {
    if (!said) terminal.err(`${name}\n`);
    said = true;
  };
  return {
    stage: (next) => {
      say();
      name = next;
      said = false;
      quarter = 0;
    },
    step: (done, total) => {
      if (done > 0) say();
      const reached = total > 0 ? Math.floor((4 * done) / total) : 0;
      if (reached <= quarter) return;
      quarter = reached;
      terminal.err(`${name}: ${quarter * 25} %\n`);
    },
    end: () => {},
  };
}
