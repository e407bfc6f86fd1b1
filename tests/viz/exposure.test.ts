import { expect, test } from 'vitest';
import type { ReportFeature } from '../../src/report/report.ts';
import { exposedStretches } from '../../viz/charts/exposure.ts';
import { legStrip } from '../../viz/charts/strip.ts';
import { newDocument } from '../../viz/theme/node-document.ts';
import { sampleReport } from '../figures/sample-report.ts';

const feature = (kind: ReportFeature['kind'], geometry: ReportFeature['geometry']): ReportFeature => ({
  id: kind,
  kind,
  geometry,
  exists: 1,
  name: null,
  positionMetres: 0,
});
const line = [
  [0, 0],
  [1000, 0],
] as const;

test('a stretch is exposed as long as the drop is nearer than 50 m: half a chord of that circle on each side', () => {
  // a drop 30 m aside: √(50² − 30²) = 40 m before it and behind it
  const crag = feature('cliff', {
    type: 'line',
    points: [
      [500, 30],
      [500, 300],
    ],
  });
  expect(exposedStretches(line, [crag])).toEqual([{ from: 460, to: 540 }]);
  const aside = feature('cliff', {
    type: 'line',
    points: [
      [500, 51],
      [500, 300],
    ],
  });
  expect(exposedStretches(line, [aside])).toEqual([]);
});

test('steep ground counts inside as well as near, and nothing else does', () => {
  const ring = [
    [200, -400],
    [800, -400],
    [800, 400],
    [200, 400],
    [200, -400],
  ] as const;
  const steep = feature('steep-ground', { type: 'area', rings: [ring] });
  expect(exposedStretches(line, [steep])).toEqual([{ from: 150, to: 850 }]);
  expect(exposedStretches(line, [feature('scree', { type: 'area', rings: [ring] })])).toEqual([]);
});

test('the strip of a route has hachures where a drop lies near, and only then', () => {
  const { candidates, features } = sampleReport({});
  const [candidate] = candidates;
  const at = candidate!.line[1]!;
  const drawn = (shown: readonly ReportFeature[]) =>
    legStrip(
      { candidate: candidate!, features: shown, fullMetres: 3000, heights: [0, 900], cloudBaseMetres: null },
      { document: newDocument(), width: 860, id: 'x' },
    ).querySelectorAll('.exposed').length;
  expect(drawn(features)).toBe(0);
  expect(drawn([...features, feature('cliff', { type: 'point', at })])).toBe(1);
});
