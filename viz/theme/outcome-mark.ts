import type { Outcome } from '../../src/report/report.ts';
import type { Group } from './figure.ts';
import { px } from './figure.ts';

/**
 * The sign of an outcome, drawn in a square of side 10 around (0, 0). Found is full, everything else open, each with its own sign, so
 * that the array reads without colour.
 */
const BOX = 'M-4.2,-4.2h8.4v8.4h-8.4z';
const SIGNS: Readonly<Record<Outcome, readonly (readonly [kind: string, sign: string])[]>> = {
  cleanHit: [['full', BOX]],
  foundBySearch: [
    ['full', BOX],
    ['hole', 'M-2.1,0a2.1,2.1 0 1 0 4.2,0a2.1,2.1 0 1 0 -4.2,0z'],
  ],
  late: [
    ['mark', BOX],
    ['full', 'M-4.2,0.8v3.4h8.4v-3.4z'],
  ],
  falseFind: [
    ['other', BOX],
    ['other', 'M-2.2,-2.2l4.4,4.4m0,-4.4l-4.4,4.4'],
  ],
  lost: [['other', BOX]],
  turnedBack: [
    ['other', BOX],
    ['other', 'M2.4,0h-4.8m2,-2l-2,2l2,2'],
  ],
  nearMiss: [
    ['other', BOX],
    ['dot', 'M-1.5,0a1.5,1.5 0 1 0 3,0a1.5,1.5 0 1 0 -3,0z'],
  ],
};

/** Draws one sign at every place; one path for all of them, since an array has a hundred. */
export function drawOutcomes(
  into: Group,
  outcome: Outcome,
  places: readonly { readonly x: number; readonly y: number }[],
  side: number,
): void {
  if (places.length === 0) return;
  const k = side / 10;
  for (const [kind, sign] of SIGNS[outcome]) {
    const d = places.map((p) => placed(sign, k, p)).join('');
    into.append('path').attr('class', `outcome ${kind} ${outcome}`).attr('d', d);
  }
}

/** A sign scaled and moved: after the first point everything is relative, and arc flags are no lengths. */
function placed(sign: string, k: number, at: { x: number; y: number }): string {
  const parts = sign.match(/[A-Za-z][^A-Za-z]*/g) ?? [];
  return parts
    .map((part) => {
      const letter = part[0]!;
      const numbers = (part.slice(1).match(/-?[\d.]+/g) ?? []).map(Number);
      if (letter === 'M') return `M${px(numbers[0]! * k + at.x)},${px(numbers[1]! * k + at.y)}`;
      const flags = letter === 'a' ? [2, 3, 4] : [];
      return (
        letter +
        numbers
          .map((n, i) => (flags.includes(i) ? String(n) : String(Math.round(n * k * 100) / 100)))
          .join(' ')
      );
    })
    .join('');
}
