import type { RouteWords } from '../route/words.ts';
import type { Improvement } from '../study/improve-routes.ts';
import type { Check, Leaning as Leant, Split as Parted } from '../study/worth-checking.ts';
import type { Changes, Difference, Leaning, Split, WorthChecking } from './report.ts';

/** Shares to 1e-4, minutes to hundredths: more digits are noise. */
const SHARE = 10_000;
const MINUTE = 100;

export function changesIn({ looked, trials, helped }: Improvement): Changes {
  return {
    looked,
    trials,
    helped: helped.map(({ kind, says, success, minutes }) => ({
      kind,
      says,
      success: rounded(success, SHARE),
      minutes: rounded(minutes, MINUTE),
    })),
  };
}

export function leaningIn({ feature, there, gone }: Leant, words: RouteWords): Leaning {
  return {
    name: words.feature(feature),
    exists: feature.doubt.exists,
    there: partIn(there),
    gone: partIn(gone),
  };
}

export function checkIn(
  { feature, ifThere, ifGone, unknowing, gain }: Check,
  words: RouteWords,
): WorthChecking {
  const { exists } = feature.doubt;
  return { name: words.feature(feature), exists, ifThere, ifGone, unknowing, gain: rounded(gain, SHARE) };
}

function partIn({ trials, share, low, high }: Parted): Split {
  const [s, l, h] = [share, low, high].map((x) => Math.round(x * SHARE) / SHARE);
  return { trials, share: s!, low: l!, high: h! };
}

function rounded(d: Difference, unit: number): Difference {
  const round = (x: number) => Math.round(x * unit) / unit;
  return { difference: round(d.difference), low: round(d.low), high: round(d.high) };
}
