import { expect, test } from 'vitest';
import { didYouMean } from '../../src/door/did-you-mean.ts';

const known = ['bearingDegrees', 'resightDegrees', 'paceShare', 'old-cairn', 'beck-2'];

test.each([
  ['bearingDegress', 'bearingDegrees'],
  ['BEARINGDEGREES', 'bearingDegrees'],
  ['bearing_degrees', 'bearingDegrees'],
  ['pacehSare', 'paceShare'],
  ['old cairn', 'old-cairn'],
  ['bekc-2', 'beck-2'],
  ['paceShar', 'paceShare'],
])('%s is taken for %s', (given, name) => {
  expect(didYouMean(given, known)).toBe(name);
});

test.each(['', 'zzzz', 'visibility', 'x'.repeat(5000)])('nothing is near %s', (given) => {
  expect(didYouMean(given, known)).toBeNull();
});

test('the nearest of several wins', () => {
  expect(didYouMean('gauge-3', ['gauge-12', 'gauge-31', 'gauge-3b', 'gauge3'])).toBe('gauge3');
});
