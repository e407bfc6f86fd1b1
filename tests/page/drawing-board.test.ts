import { describe, expect, test } from 'vitest';
import type { Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import type { DrawnLeg } from '../../src/route/drawn.ts';
import {
  fromStart,
  lineToFollow,
  placeFor,
  toTarget,
  waysOf,
  withMoved,
  withoutPoint,
  withPoint,
  withWay,
} from '../../viz/page/drawing-board.ts';
import { pastedPlaces } from '../../viz/page/paste.ts';
import { Places } from '../../viz/page/places.ts';

const doubt: Feature['doubt'] = {
  exists: 1,
  positionMetres: 0,
  rangeMetres: 100,
  contrast: 0.8,
  visibility: 'medium',
  alike: 0,
  extraPerGap: 0,
};
const feature = (id: string, kind: FeatureKind, geometry: Feature['geometry']): Feature => ({
  id,
  kind,
  name: id,
  geometry,
  given: {},
  doubt,
  origin: 'mapped',
});

/** A square kilometre with a track along its middle and a cairn north of it. */
const places = new Places({
  name: 'plain',
  grid: { crs: 'EPSG:32632', west: 500_000, north: 5_001_000, cell: 10, columns: 100, rows: 100 },
  heights: new Float32Array(10_000).fill(100),
  features: [
    feature('track', 'track', {
      type: 'line',
      points: [
        [500_100, 5_000_500],
        [500_900, 5_000_500],
      ],
    }),
    feature('cairn', 'cairn', { type: 'point', at: [500_700, 5_000_800] }),
  ],
  hazardsMapped: false,
  notes: [],
});
const start: Point = [500_100, 5_000_500];
const target: Point = [500_700, 5_000_900];
const straight: DrawnLeg = { technique: 'bearing', to: 'target' };
const known = (legs: DrawnLeg[], ends: Point[]) => ({ name: 'r', legs, ends, counts: legs.map(() => 1) });

describe('a route changed by hand', () => {
  test('what was said of a leg goes when one of its ends is another: a catching feature no longer lies across it', () => {
    const said: DrawnLeg = { ...straight, catching: 'track', ticks: ['cairn'], counting: true };
    const to = { at: [500_300, 5_000_600] as Point };
    const moved = withPoint(known([said], [target]), start, 0, to, places);
    expect(moved).toEqual([
      { technique: 'bearing', to },
      { technique: 'bearing', to: 'target' },
    ]);
    expect(toTarget(known([said], [target]), [500_200, 5_000_900], places)).toEqual([straight]);
    expect(fromStart(known([said], [target]), [500_200, 5_000_100], places)).toEqual([straight]);
  });

  test('a new point cuts its leg in two and is named by the feature that is there', () => {
    const place = placeFor(places, [500_705, 5_000_795], 15);
    expect(place).toEqual({ feature: 'cairn' });
    expect(withPoint(known([straight], [target]), start, 0, place, places)).toEqual([
      { technique: 'bearing', to: { feature: 'cairn' } },
      straight,
    ]);
  });

  test('two points on a track can be joined by it; one off it cannot', () => {
    const on: DrawnLeg = { technique: 'bearing', to: { at: [500_600, 5_000_505] } };
    const route = known([on, straight], [[500_600, 5_000_505], target]);
    expect(lineToFollow(route, start, 0, places)?.id).toBe('track');
    expect(lineToFollow(route, start, 1, places)).toBeNull();
    const along = waysOf(route, start, 0, places).filter((w) => w.technique === 'handrail');
    expect(along.map((w) => w.line?.id)).toEqual(['track']);
    expect(withWay(route, 0, along[0]!)[0]).toEqual({ technique: 'handrail', along: 'track', to: on.to });
  });

  test('moved off its track the leg is walked on a bearing, moved along it stays', () => {
    const rail: DrawnLeg = { technique: 'handrail', along: 'track', to: { at: [500_600, 5_000_500] } };
    const route = known([rail, straight], [[500_600, 5_000_500], target]);
    const off = withMoved(route, start, 0, { at: [500_600, 5_000_700] }, places);
    expect(off[0]).toEqual({ technique: 'bearing', to: { at: [500_600, 5_000_700] } });
    const on = withMoved(route, start, 0, { at: [500_300, 5_000_500] }, places);
    expect(on[0]).toEqual({ technique: 'handrail', along: 'track', to: { at: [500_300, 5_000_500] } });
  });

  test('a point taken out leaves its neighbours joined; the target cannot be taken out', () => {
    const first: DrawnLeg = { technique: 'bearing', to: { feature: 'cairn' } };
    const route = known([first, straight], [[500_700, 5_000_800], target]);
    expect(withoutPoint(route, start, 0, places)).toEqual([straight]);
    expect(withoutPoint(route, start, 1, places)).toEqual(route.legs);
  });
});

describe('places pasted one a line', () => {
  test('grid reference, kind in either language, name', () => {
    // UTM as its definition has it: zone, hemisphere, easting, northing
    const own = pastedPlaces(
      '32 N 500500 5000400, boulder, Split\n32 N 500510 5000410; Quelle',
      places,
      new Set(),
    );
    expect(own.map((o) => [o.kind, o.name, o.points[0]])).toEqual([
      ['boulder', 'Split', [500_500, 5_000_400]],
      ['spring', '', [500_510, 5_000_410]],
    ]);
    expect(new Set(own.map((o) => o.id)).size).toBe(2);
  });

  test.each([
    ['32 N 500500 5000400, dragon', /line 1.*dragon/],
    ['nowhere, boulder', /line 1/],
    ['32 N 900500 5000400, boulder', /off the map/],
  ])('%s is refused', (line, message) => {
    expect(() => pastedPlaces(line, places, new Set())).toThrow(message);
  });
});
