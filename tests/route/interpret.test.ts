import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { lineLength, type Point } from '../../src/math/plane.ts';
import { interpretLine } from '../../src/route/interpret.ts';
import { lineSteps, simplified } from '../../src/route/line-steps.ts';
import { planningOf } from '../../src/route/planning.ts';
import { readLine } from '../../src/route/read-line.ts';
import { errand, line, moor, point } from './moor.ts';

const track = line('track', 'track', [200, 200], [200, 1000], [1400, 1000], [1700, 700], [2800, 700]);
const beck = line('beck', 'stream', [1900, 2600], [2000, 2000], [1950, 1500], [2000, 700], [2000, 200]);
const wall = line('dyke', 'wall', [800, 1800], [1500, 1800]);
const ruin = point('ruin', 'ruin', [1300, 1500]);
const spring = point('spring', 'spring', [2200, 2000]);
const ground = moor([track, beck, wall, ruin, spring], { height: (_e, n) => 200 + 0.02 * n });
const planning = planningOf(ground, errand([200, 200], spring));

/** A hand that strays: smooth noise of the given SD in metres, another for every seed (linear congruential, Park & Miller). */
function byHand(drawn: readonly Point[], sd: number, seed: number): Point[] {
  let state = seed * 7919 + 1;
  const uniform = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  const n = Math.ceil(lineLength(drawn) / 25);
  let dx = 0;
  let dy = 0;
  return lineSteps(drawn, n).map(([x, y]) => {
    dx = 0.8 * dx + 0.6 * sd * (uniform() + uniform() + uniform() - 1.5) * 2;
    dy = 0.8 * dy + 0.6 * sd * (uniform() + uniform() + uniform() - 1.5) * 2;
    return [x + dx, y + dy];
  });
}

const techniques = (drawn: readonly Point[]) =>
  interpretLine({ name: 'hand', line: drawn }, planning, 'h').legs.map(
    (l) => `${l.technique}${l.line ? ` ${l.line}` : ''}`,
  );

const byTrackAndBeck: Point[] = [
  [200, 200],
  [200, 1000],
  [1400, 1000],
  [1700, 700],
  [2000, 700],
  [1950, 1500],
  [2000, 2000],
  [2200, 2000],
];
const overOpenGround: Point[] = [
  [200, 200],
  [1300, 1500],
  [2200, 2000],
];

describe('a drawn line becomes legs', () => {
  it('along lines where it keeps to them, straight elsewhere', () => {
    expect(techniques(byTrackAndBeck)).toEqual(['handrail track', 'handrail beck', 'bearing']);
    const { legs } = interpretLine({ name: 'hand', line: byTrackAndBeck }, planning, 'h');
    expect(legs[0]!.to[0]).toBeCloseTo(2000, 0);
    expect(legs[0]!.to[1]).toBeCloseTo(700, 0);
    expect(Math.abs(legs[1]!.to[1] - 2000)).toBeLessThan(60);
    expect(legs[2]!.toFeature).toBe('spring');
  });

  it('a bend by a feature means the feature', () => {
    const { legs } = interpretLine({ name: 'hand', line: overOpenGround }, planning, 'h');
    expect(legs.map((l) => l.toFeature)).toEqual(['ruin', 'spring']);
    expect(legs[0]!.to).toEqual([1300, 1500]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('through the noise of a hand, seed %i', (seed) => {
    const along = techniques(byHand(byTrackAndBeck, 12, seed));
    expect(along.slice(0, 2)).toEqual(['handrail track', 'handrail beck']);
    expect(along.length).toBeLessThanOrEqual(4);
    const open = interpretLine({ name: 'hand', line: byHand(overOpenGround, 12, seed) }, planning, 'h').legs;
    expect(open.some((l) => l.toFeature === 'ruin')).toBe(true);
    expect(open.length).toBeLessThanOrEqual(4);
    expect(open.some((l) => l.technique === 'handrail')).toBe(false);
  });

  it('legs are chained from the start to the target', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const { legs } = interpretLine({ name: 'hand', line: byHand(byTrackAndBeck, 20, seed) }, planning, 'h');
      expect(legs[0]!.from).toEqual([200, 200]);
      for (let i = 1; i < legs.length; i++) expect(legs[i]!.from).toEqual(legs[i - 1]!.to);
      expect(legs[legs.length - 1]!.to).toEqual([2200, 2000]);
    }
  });

  it('a line drawn from the target to the start is turned round', () => {
    expect(techniques([...byTrackAndBeck].reverse())).toEqual(techniques(byTrackAndBeck));
  });

  it('a line across a line is no handrail, but ticks it off', () => {
    const { legs } = interpretLine(
      {
        name: 'hand',
        line: [
          [200, 200],
          [2200, 2000],
        ],
      },
      planning,
      'h',
    );
    expect(legs).toHaveLength(1);
    expect(legs[0]!.ticks.map((t) => t.feature)).toEqual(['beck']);
  });

  it('round a slope at one height is contouring', () => {
    // A round hill; the drawn line goes a quarter round it at one height.
    const hill = moor([spring], { height: (e, n) => 500 - 0.25 * Math.hypot(e - 1200, n - 1200) });
    const from: Point = [1200 + 1000 * Math.cos(-0.8), 1200 + 1000 * Math.sin(-0.8)];
    const at = point('goal', 'cairn', [1200 + 1000 * Math.cos(0.8), 1200 + 1000 * Math.sin(0.8)]);
    const round = planningOf(hill, errand(from, at));
    const arc = Array.from(
      { length: 17 },
      (_, i): Point => [1200 + 1000 * Math.cos(-0.8 + i / 10), 1200 + 1000 * Math.sin(-0.8 + i / 10)],
    );
    const { legs } = interpretLine({ name: 'round', line: arc }, round, 'h');
    expect(legs.map((l) => l.technique)).toEqual(['contour']);
    expect(lineLength(legs[0]!.path)).toBeGreaterThan(1550);
    expect(lineLength(legs[0]!.path)).toBeLessThan(1650);
  });

  it('refuses what begins or ends elsewhere, and what is no line', () => {
    const interpret = (points: Point[]) => () => interpretLine({ name: 'hand', line: points }, planning, 'h');
    expect(
      interpret([
        [1000, 200],
        [2200, 2000],
      ]),
    ).toThrow(/route "hand": the drawn line does not begin at the start/);
    expect(
      interpret([
        [200, 200],
        [1000, 1000],
      ]),
    ).toThrow(/does not reach the target.*1562 m|1562/);
    expect(interpret([[200, 200]])).toThrow(/empty/);
  });
});

describe('files of drawn lines', () => {
  const gpx = (inner: string) =>
    `<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">${inner}</gpx>`;
  const seg = '<trkseg><trkpt lat="54.5" lon="-3.2"/><trkpt lat="54.51" lon="-3.2"/></trkseg>';

  it('reads tracks, routes and GeoJSON to the same metres', () => {
    const track = readLine(gpx(`<trk>${seg}</trk>`), 'a.gpx', 'EPSG:27700');
    const route = readLine(
      gpx('<rte><rtept lat="54.5" lon="-3.2"/><rtept lat="54.51" lon="-3.2"/></rte>'),
      'a.gpx',
      'EPSG:27700',
    );
    const json = readLine(
      '{"type":"FeatureCollection","features":[{"type":"Feature","properties":null,"geometry":null},{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[-3.2,54.5],[-3.2,54.51]]}}]}',
      'a.geojson',
      'EPSG:27700',
    );
    expect(route).toEqual(track);
    expect(json).toEqual(track);
    // .01° of latitude is 1113 m on WGS 84 at 54.5°.
    expect(lineLength(track)).toBeGreaterThan(1112);
    expect(lineLength(track)).toBeLessThan(1114);
  });

  it.each([
    ['empty', '', /neither GPX nor GeoJSON/],
    ['torn', gpx('<trk>').slice(0, -8), /not well-formed/],
    ['no line', gpx('<wpt lat="54" lon="-3"/>'), /no line in this file/],
    ['a document type', `<!DOCTYPE gpx [<!ENTITY a "b">]>${gpx('')}`, /no document type/],
    ['off the map', '{"type":"LineString","coordinates":[[100,54.5],[-3.2,54.51]]}', /outside the area/],
    ['no numbers', '{"type":"LineString","coordinates":[["a",54.5],[-3.2,54.51]]}', /has no place/],
  ])('%s gives one message', (_name, text, message) => {
    expect(() => readLine(text, 'drawn', 'EPSG:27700')).toThrow(message);
    expect(() => readLine(text, 'drawn', 'EPSG:27700')).toThrow(UserError);
  });

  it('simplifying keeps what matters', () => {
    expect(
      simplified(
        [
          [0, 0],
          [50, 3],
          [100, 0],
          [100, 100],
        ],
        5,
      ),
    ).toEqual([
      [0, 0],
      [100, 0],
      [100, 100],
    ]);
  });
});
