import { describe, expect, test } from 'vitest';
import { defaultDoubt } from '../../src/features/doubt.ts';
import { definiteSearch, inverseCubeSearch, randomSearch } from '../../src/seeing/coverage.ts';
import { contrastLeft, extinction, hazeWord, rangeOfContrast } from '../../src/seeing/haze.ts';
import { halfWidth, sweepWidth } from '../../src/seeing/sweep.ts';
import { type Check, close, readChecks } from './checks.ts';

const FAMILIES: Readonly<Record<string, (check: Check) => void>> = {
  'C.mor.': ({ inputs, expected, tolerance }) => {
    const mor = inputs.MOR_m;
    close(extinction(mor), expected.sigma_per_m, tolerance);
    close(rangeOfContrast(mor, 1, 0.02), expected.V_2pct_m, tolerance);
    close(contrastLeft(mor, mor / 2), expected.contrast_left_at_half_MOR, tolerance);
    close(rangeOfContrast(mor, 0.3), expected['range_m_for_C0_0.3_thr0.05'], tolerance);
    close(rangeOfContrast(mor, 0.1), expected['range_m_for_C0_0.1_thr0.05'], tolerance);
    expect(rangeOfContrast(mor, 0.04)).toBe(0);
  },
  'C.wx.classes': ({ expected }) => {
    expect(hazeWord(expected.fog_below_m - 1)).toBe('fog');
    expect(hazeWord(expected.mist_m[0])).toBe('mist');
    expect(hazeWord(expected.mist_m[1])).toBe('mist');
    expect(hazeWord(expected.mist_m[1] + 1)).toBe(null);
  },
  'C.koester': ({ inputs, expected, tolerance }) => {
    for (const visibility of ['high', 'medium', 'low'] as const) {
      const doubt = { ...defaultDoubt('cairn'), visibility };
      inputs.Rd_m.forEach((range: number, i: number) => {
        close(sweepWidth(doubt, range), expected[`W_${visibility}`][i], tolerance);
        close(halfWidth(doubt, range), expected[`W_${visibility}`][i] / 2, tolerance);
      });
    }
  },
  'C.pod.': ({ inputs, expected, tolerance }) => {
    close(randomSearch(inputs.coverage), expected.random, tolerance);
    close(inverseCubeSearch(inputs.coverage), expected.inverse_cube, tolerance);
    close(definiteSearch(inputs.coverage), expected.definite_range, tolerance);
  },
};

describe('seeing against its sources', () => {
  test.each(readChecks('seeing').map((c) => [c.id, c] as const))('%s', (id, check) => {
    const family = Object.keys(FAMILIES).find((f) => id.startsWith(f));
    expect(family, `no test takes ${id}`).toBeDefined();
    FAMILIES[family!]!(check);
  });
});
