import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measuresOf } from '../../src/door/measures.ts';
import { PLAIN_READING } from '../../src/door/reading.ts';
import { doubtDash, routeStyle } from '../../viz/theme/route-style.ts';
import { spread } from '../../viz/theme/spread.ts';
import { duration, hundredText, hundredth, ofHundred, thousands } from '../../viz/theme/words.ts';

const figures = measuresOf(PLAIN_READING);

const css = readFileSync(new URL('../../viz/theme/theme.css', import.meta.url), 'utf8');

/** Relative luminance and contrast ratio of WCAG 2.1. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const v = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}
/** From a place in the style sheet to the next closing brace. */
const block = (from: number) => css.slice(from, css.indexOf('}', from));
const colours = (block: string) =>
  new Map([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!] as const));

describe('palette', () => {
  const day = colours(block(css.indexOf(':root')));
  const night = colours(block(css.indexOf('[data-theme="night"]')));

  test('is Tol’s medium-contrast scheme with the contrasts it was chosen for', () => {
    expect([1, 2, 3].map((n) => day.get(`route-${n}`))).toEqual(['#004488', '#994455', '#997700']);
    expect([1, 2, 3].map((n) => night.get(`route-${n}`))).toEqual(['#6699cc', '#ee99aa', '#eecc66']);
    const on = (m: Map<string, string>) =>
      [1, 2, 3].map((n) => contrast(m.get(`route-${n}`)!, m.get('paper')!));
    expect(on(day).map((c) => Math.round(c * 10) / 10)).toEqual([9.2, 6.1, 4]);
    expect(on(night).map((c) => Math.round(c * 10) / 10)).toEqual([5.9, 8.3, 11.4]);
  });

  test('lets text be read: WCAG AA, 4.5 to 1, by day and by night', () => {
    for (const m of [day, night]) {
      for (const text of ['ink', 'quiet', 'water-text']) {
        expect(contrast(m.get(text)!, m.get('paper')!), text).toBeGreaterThan(4.5);
      }
    }
  });

  test('is the same by choice and by the system’s dark mode', () => {
    const bySystem = block(css.indexOf(':root:not'));
    expect(colours(bySystem)).toEqual(night);
  });
});

test('routes A–C are solid, D–F dashed in the same hues', () => {
  expect(
    ['A', 'B', 'C', 'D', 'E', 'F', 'G'].map((l) => `${routeStyle(l).hue} ${routeStyle(l).dash}`),
  ).toEqual(['1 solid', '2 solid', '3 solid', '1 dashed', '2 dashed', '3 dashed', '1 dotted']);
  expect([0.9, 0.89, 0.6, 0.59].map(doubtDash)).toEqual(['sure', 'likely', 'likely', 'doubtful']);
});

test('numbers as people read them', () => {
  expect(thousands(1234567)).toBe('1\u202f234\u202f567');
  expect(thousands(-0.2)).toBe('0');
  expect([0, 0.001, 0.83, 0.999, 1].map(ofHundred)).toEqual([
    '0 of 100',
    'under 1 of 100',
    '83 of 100',
    'over 99 of 100',
    '100 of 100',
  ]);
  expect([0.001, 0.999].map(hundredText)).toEqual(['<1', '>99']);
  expect([0.001, 0.999, 1, 0].map(hundredth)).toEqual([1, 99, 100, 0]);
  expect([94, 999, 2113, 12345].map(figures.long)).toEqual(['94 m', '1.00 km', '2.11 km', '12.3 km']);
  expect([7.4, 359.7].map(figures.bearing)).toEqual(['007°', '000°']);
  expect([41.2, 134, 190].map(duration)).toEqual(['41 min', '134 min', '3 h 10']);
});

test('labels that are spread never touch, keep their order and stay inside', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 12 }),
      (wishes) => {
        const places = spread(wishes, 20, 0, 300);
        const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]! || a - b);
        for (let k = 1; k < order.length; k++) {
          expect(places[order[k]!]! - places[order[k - 1]!]!).toBeGreaterThan(20 - 1e-6);
        }
        expect(Math.min(...places)).toBeGreaterThanOrEqual(0);
        expect(Math.max(...places)).toBeLessThanOrEqual(300 + 1e-6);
      },
    ),
  );
  expect(spread([10, 100], 20, 0, 300)).toEqual([10, 100]);
});
