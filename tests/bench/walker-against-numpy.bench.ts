import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { BENCH_DAY, benchParty, benchWorld, leg, plainTerrain, route, spot } from '../walk/plain-ground.ts';
import type { Bench } from './bench.ts';
import { pythonPeer } from './python-peer.ts';

const TRIALS = 20_000;
const METRES = 600;
const STEP = 10;
const RADIUS = 20;

/**
 * One plain bearing leg over hills, walked by the whole walker (its looks, belief and way back included), against the same model of
 * the body alone, vectorised over the trials in float32. Processor time per step; the share that passed within sight must agree.
 */
export const bench: Bench = {
  name: 'plain bearing legs, per step',
  must: { ratio: 1.6 },
  rounds: 7,
  agree: 0.03,
  async prepare(folder) {
    const terrain = plainTerrain(1000, 10, (e, n) => 300 + 25 * Math.sin(e / 170) * Math.cos(n / 140));
    const target = spot('target', 'boulder', [0, METRES / 2], {
      sweepWidthMetres: 2 * RADIUS,
      exists: 1,
      positionMetres: 0,
    });
    const world = benchWorld({
      terrain,
      features: [target],
      start: [0, -METRES / 2],
      target,
      party: benchParty('competent'),
      conditions: BENCH_DAY,
      stepMetres: STEP,
    });
    const plan = route(leg('bearing', [0, -METRES / 2], [0, METRES / 2], { toFeature: 'target' }));
    const attempt = new Attempt(world, planLegs(world, plan));
    const n = world.navigator;
    writeFileSync(join(folder, 'cells.bin'), world.cells);
    writeFileSync(join(folder, 'pace.bin'), world.paceOff);
    writeFileSync(
      join(folder, 'walk.json'),
      JSON.stringify({
        columns: world.grid.columns,
        west: world.grid.west,
        north: world.grid.north,
        cell: world.grid.cell,
        slowness: [...world.slowness],
        sideSpeed: [...world.sideSpeed],
        sidePace: [...world.sidePace],
        air: world.low,
        bearing: n.bearing,
        wander: n.wander,
        pace: n.pace,
        drift: n.drift,
        speedSd: n.speedSd,
        metres: METRES,
        step: STEP,
        radius: RADIUS,
        trials: TRIALS,
      }),
    );
    return {
      data: `${TRIALS} trials of ${METRES} m, steps of ${STEP} m, hills of 10 m cells`,
      ours: () => {
        const before = attempt.stepsTaken;
        const start = process.cpuUsage();
        let found = 0;
        for (let trial = 0; trial < TRIALS; trial++) if (attempt.run(1, trial).found) found++;
        const { user, system } = process.cpuUsage(start);
        const steps = attempt.stepsTaken - before;
        return { amount: (user + system) / 1e6 / (steps / 1e6), checksum: found / TRIALS };
      },
      peer: await pythonPeer('numpy_walk.py', 'numpy', folder),
    };
  },
};
