import { expect, test } from 'vitest';
import { landformsAsFeatures } from '../../src/features/landform-features.ts';

test('landforms are features named by kind and place, as doubtful as they are slight and as their raster is coarse', () => {
  const features = landformsAsFeatures(
    [
      { kind: 'knoll', at: [431_204, 512_847], reliefMetres: 12 },
      { kind: 'knoll', at: [431_196, 512_852], reliefMetres: 2.5 },
      {
        kind: 'break-of-slope',
        at: [
          [0, 0],
          [50, 10],
          [100, 0],
        ],
        reliefMetres: 9,
      },
    ],
    20,
  );
  expect(features.map((f) => f.id)).toEqual([
    'knoll:43120-51285',
    'knoll:43120-51285/2',
    'break-of-slope:5-1',
  ]);
  expect(features.map((f) => f.geometry.type)).toEqual(['point', 'point', 'line']);
  expect(features.every((f) => f.origin === 'derived')).toBe(true);
  // common practice: a knoll from 5 m is .95 and 15 m off, better than no raster of 20 m
  expect(features[0]!.doubt).toMatchObject({ exists: 0.95, positionMetres: 20, rangeMetres: 200 });
  expect(features[1]!.doubt.exists).toBeCloseTo(0.95 * 0.75, 12);
  expect(features[2]!.given).toEqual({});
});
