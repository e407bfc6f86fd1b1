import { constants } from 'node:os';

/** Where a command speaks: results on `out`, everything else on `err`. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** True when a person watches, so that a line may be drawn over. */
  readonly watched: boolean;
}

export function processTerminal(): Terminal {
  // A reader that has seen enough (`| head`) closes the pipe; that is no fault.
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
      process.exit(process.exitCode ?? 0);
    });
  }
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    watched: process.stderr.isTTY === true,
  };
}

/** On Ctrl-C or a request to end: tells the action, which has to tidy up, then ends with the code a shell expects. */
export function onInterrupt(tidy: () => void | Promise<void>): () => void {
  const stop = (signal: NodeJS.Signals) => {
    void (async () => {
      await tidy();
      process.exit(128 + constants.signals[signal]);
    })();
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  return () => {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  };
}
