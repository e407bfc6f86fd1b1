import { expect, test } from 'vitest';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { buildNetwork } from '../../src/features/network.ts';
import type { Point } from '../../src/math/plane.ts';

function line(id: string, kind: FeatureKind, points: Point[]): Feature {
  return {
    id,
    kind,
    geometry: { type: 'line', points },
    given: {},
    doubt: defaultDoubt(kind),
    origin: 'drawn',
  };
}

const ids = (features: Feature[]) => buildNetwork(features).places.map((p) => `${p.kind} ${p.id}`);

test('two becks meet a third: one confluence, two sources, one mouth', () => {
  const features = [
    line('beck-a', 'stream', [
      [0, 1000],
      [500, 500],
    ]),
    line('beck-b', 'small-stream', [
      [1000, 1000],
      [500, 500],
    ]),
    line('river', 'stream', [
      [500, 500],
      [500, 0],
    ]),
  ];
  expect(ids(features)).toEqual([
    'stream-end end:beck-a/source',
    'confluence confluence:beck-a+beck-b',
    'stream-end end:beck-b/source',
    'line-end end:river/mouth',
  ]);
});
