import { describe, expect, test } from 'vitest';
import type { Doubt } from '../../src/features/feature.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { shareOf } from '../scenarios/walked.ts';
import { line, spot } from '../walk/plain-ground.ts';
import { smallTask } from './open-ground.ts';

/* The chance to find it does not rise with doubt about the map where nothing like it is about; doubt about a decoy helps. */
const N = 500;
const { at } = AS_WRITTEN;

const fold = (doubt: Partial<Doubt>) =>
  spot('fold', 'fold', at([150, 600]), {
    exists: 1,
    positionMetres: 0,
    rangeMetres: 40,
    contrast: 1,
    ...doubt,
  });
const stream = (doubt: Partial<Doubt>) =>
  line('stream', 'stream', [at([-900, 600]), at([900, 600])], { exists: 1, positionMetres: 0, ...doubt });
const target = (doubt: Partial<Doubt>) =>
  spot('target', 'boulder', at([150, 800]), { exists: 1, positionMetres: 0, sweepWidthMetres: 30, ...doubt });

const THINGS = { fold, stream, target };

function shares(
  thing: keyof typeof THINGS,
  doubts: Partial<Doubt>[],
  route: 'byPath' | 'aimedOff',
): number[] {
  return doubts.map((doubt) => {
    const t = smallTask(AS_WRITTEN, { features: [THINGS[thing](doubt)] });
    return shareOf(t.world, t[route], N);
  });
}

function falls(by: number[], slack: number): void {
  for (let i = 1; i < by.length; i++) expect(by[i]!, by.join(' ')).toBeLessThanOrEqual(by[i - 1]! + slack);
  expect(by[by.length - 1]!, by.join(' ')).toBeLessThan(by[0]! - 0.02);
}

describe.each(['byPath', 'aimedOff'] as const)('the chance to find it, %s', (route) => {
  test.each(['fold', 'target'] as const)('does not rise with the chance that the %s is gone', (thing) => {
    falls(
      shares(
        thing,
        [1, 0.8, 0.5, 0.2].map((exists) => ({ exists })),
        route,
      ),
      0,
    );
  });
  test.each(['fold', 'target'] as const)(
    'does not rise with the doubt about the place of the %s',
    (thing) => {
      falls(
        shares(
          thing,
          [0, 10, 25, 50].map((positionMetres) => ({ positionMetres })),
          route,
        ),
        0.02,
      );
    },
  );
});

test('the chance to find it does not rise with the chance that the stream aimed at is gone', () => {
  falls(
    shares(
      'stream',
      [1, 0.8, 0.5, 0.2].map((exists) => ({ exists })),
      'aimedOff',
    ),
    0,
  );
});

describe('a decoy beside the target', () => {
  const withDecoy = (exists: number, radius = 15) => {
    const decoy = spot('decoy', 'boulder', at([155, 762]), {
      exists,
      positionMetres: 0,
      sweepWidthMetres: 2 * radius,
    });
    return smallTask(AS_WRITTEN, { skill: 'novice', radius, features: [decoy] });
  };
  const found = (exists: number) => {
    const t = withDecoy(exists);
    return shareOf(t.world, t.byPath, N);
  };
  const fooled = (radius: number) => {
    const t = withDecoy(1, radius);
    return shareOf(t.world, t.byPath, N, (r) => r.falseFind);
  };
  test('does the less harm the less likely it is there', () => {
    const by = [1, 0.5, 0].map(found);
    expect(by[1]!).toBeGreaterThan(by[0]!);
    expect(by[2]!).toBeGreaterThan(by[1]! + 0.02);
  });
  test('is met more often by those who see farther', () => {
    expect(fooled(20)).toBeGreaterThan(fooled(5) + 0.02);
  });
});
