import { describe, expect, test } from 'vitest';
import {
  channelOf,
  networkLengthRatio,
  STREAM_END_SHIFT,
  shiftedEnd,
  streamEndShift,
} from '../../src/features/stream-end.ts';
import type { Raster } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';

describe('length of the flowing network against flow, L ∝ Q^β', () => {
  // Whiting & Godsey (2016), Hydrol Process 30(13):2305-2316; after Godsey & Kirchner (2014): values computed from the published exponents
  const flows = [0.1, 0.5, 2, 10, 100];
  test.each([
    [0.05, [0.8912509381, 0.9659363289, 1.035264924, 1.122018454, 1.258925412]],
    [0.11, [0.7762471166, 0.9265880619, 1.079228237, 1.288249552, 1.659586907]],
    [0.2, [0.6309573445, 0.8705505633, 1.148698355, 1.584893192, 2.511886432]],
  ])('β = %f', (beta, lengths) => {
    flows.forEach((q, i) => {
      expect(networkLengthRatio(q, beta)).toBeCloseTo(lengths[i]!, 9);
    });
  });
  test('β is .11 unless said', () => {
    expect(networkLengthRatio(10)).toBe(networkLengthRatio(10, 0.11));
  });
});

describe('shift of the end', () => {
  test('means and SDs by wetness (common practice, no source): dry −40±30, normal 0±25, wet 60±50, saturated 120±80', () => {
    expect(streamEndShift('dry', undefined, 0)).toBe(-40);
    expect(streamEndShift('normal', 'saturation', 1)).toBe(25);
    expect(streamEndShift('wet', 'saturation', -1)).toBe(10);
    expect(streamEndShift('saturated', undefined, 2)).toBe(280);
    expect(STREAM_END_SHIFT.spate).toEqual(STREAM_END_SHIFT.saturated);
  });
  test('a spring-fed head moves by a twentieth', () => {
    expect(streamEndShift('saturated', 'spring-fed', 2)).toBeCloseTo(14, 12);
  });
});

describe('channel', () => {
  // a stream from (100, 500) down to the south
  const stream: Point[] = [
    [100, 500],
    [100, 400],
    [160, 320],
  ];

  test('down it is the mapped line, whichever way it was drawn; never beyond it', () => {
    const channel = channelOf(stream, true);
    expect(shiftedEnd(channel, -150)).toEqual([130, 360]);
    expect(shiftedEnd(channel, -9999)).toEqual([160, 320]);
    const backwards = channelOf([...stream].reverse(), false);
    expect(shiftedEnd(backwards, -150)).toEqual([130, 360]);
  });

  test('up it goes straight on where no flow is known', () => {
    expect(shiftedEnd(channelOf(stream, true), 120)).toEqual([100, 620]);
    expect(shiftedEnd(channelOf(stream, true), 0)).toEqual([100, 500]);
  });

  test('up it follows the valley of the flow accumulation', () => {
    // 10 m cells; the valley turns from north to north-east above the head
    const rows = [
      '1 1 1 1 1 1 2',
      '1 1 1 1 1 4 1',
      '1 1 1 1 6 1 1',
      '1 1 1 9 1 1 1',
      '1 1 1 20 1 1 1',
      '1 1 1 40 1 1 1',
    ].map((r) => r.split(' ').map(Number));
    const flow: Raster = {
      crs: 'EPSG:27700',
      west: 0,
      north: 60,
      cell: 10,
      columns: 7,
      rows: 6,
      data: Float32Array.from(rows.flat()),
    };
    const channel = channelOf(
      [
        [35, 15],
        [35, -50],
      ],
      true,
      flow,
    );
    expect(channel.up.slice(0, 5)).toEqual([
      [35, 15],
      [35, 25],
      [45, 35],
      [55, 45],
      [65, 55],
    ]);
    expect(shiftedEnd(channel, 1000)).toEqual([65, 55]);
    // off the raster: straight on
    expect(
      channelOf(
        [
          [900, 900],
          [900, 800],
        ],
        true,
        flow,
      ).up,
    ).toEqual([
      [900, 900],
      [900, 1300],
    ]);
  });
});
