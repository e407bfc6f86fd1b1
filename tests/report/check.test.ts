import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { checkReport } from '../../src/report/check.ts';
import { packLayer, unpackLayer } from '../../src/report/packed-layer.ts';
import { sampleReport } from '../figures/sample-report.ts';

describe('checkReport', () => {
  test('takes a report through JSON unchanged', () => {
    const report = sampleReport();
    expect(checkReport(JSON.parse(JSON.stringify(report)))).toEqual(report);
  });

  test.each([
    ['version', { version: 7 }, 'version'],
    ['no object', null, 'version'],
    [
      'share above 1',
      {
        candidates: [
          { ...sampleReport().candidates[0], success: { trials: 1, hits: 1, share: 1.2, low: 0, high: 1 } },
        ],
      },
      'candidates[0].success.share',
    ],
    [
      'a place of three numbers',
      { task: { ...sampleReport().task, start: { name: 'x', at: [1, 2, 3], grid: null } } },
      'task.start.at',
    ],
    [
      'an unknown kind',
      { features: [{ ...sampleReport().features[0], kind: 'volcano' }] },
      'features[0].kind',
    ],
    ['a raster that is too large', { ground: { ...sampleReport().ground, columns: 1e9 } }, 'ground.columns'],
  ])('refuses %s by name', (_, change, where) => {
    const wrong = change === null ? null : { ...sampleReport(), ...change };
    const error = caught(() => checkReport(wrong));
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).where).toBe(where);
  });

  test('refuses a report from which any one field is missing', () => {
    const whole = sampleReport();
    for (const key of Object.keys(whole)) {
      const { [key as keyof typeof whole]: _, ...rest } = whole;
      expect(() => checkReport(rest), key).toThrow(UserError);
    }
  });
});

describe('packed layers', () => {
  test('keep values to half a scale, missing stays missing', () => {
    const heights = Float32Array.of(0, 12.34, -3.26, Number.NaN, 880.05, 1e9);
    const back = unpackLayer(packLayer('elevation', heights, 0.1), 3, 2);
    expect(back[3]).toBeNaN();
    for (const i of [0, 1, 2, 4]) expect(Math.abs(back[i]! - heights[i]!)).toBeLessThanOrEqual(0.0501);
    expect(back[5]).toBeCloseTo(3276.7, 3);
  });

  // zlib's own deflate, by Node: independent of the library that packs here.
  test('are raw deflate of little-endian 16-bit integers', async () => {
    const { inflateRawSync } = await import('node:zlib');
    const layer = packLayer('elevation', Float32Array.of(1.5, -2), 0.5);
    expect([...inflateRawSync(Buffer.from(layer.data, 'base64'))]).toEqual([3, 0, 0xfc, 0xff]);
  });

  test('refuse what is too short, too long or no deflate at all', () => {
    const layer = packLayer('elevation', new Float32Array(12), 1);
    expect(() => unpackLayer(layer, 5, 3)).toThrow(/24 bytes.*expected 30 bytes/);
    expect(() => unpackLayer(layer, 2, 3)).toThrow(/more.*expected 12 bytes/);
    expect(() => unpackLayer({ ...layer, data: '!!' }, 4, 3)).toThrow(UserError);
    expect(() => unpackLayer({ ...layer, data: 'AAAA' }, 4, 3)).toThrow(UserError);
  });
});

function caught(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  return undefined;
}
