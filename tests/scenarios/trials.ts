const FACTOR = Number(process.env.MISTWISE_TRIALS ?? 1);

/** Trials of a scenario's figures: few in the everyday run; `MISTWISE_TRIALS=5 npx vitest run tests/scenarios` walks five times as many. */
export function trialsOf(everyday: number): number {
  return Math.round(everyday * FACTOR);
}
