import { describe, expect, test } from 'vitest';
import { dateText } from '../../src/door/dates.ts';
import { measuresOf } from '../../src/door/measures.ts';
import { choiceOf, LANGUAGES, PLAIN_READING } from '../../src/door/reading.ts';

const metric = measuresOf(PLAIN_READING);
const imperial = measuresOf({ ...PLAIN_READING, units: 'imperial', bearings: 'mils' });
const german = measuresOf({ language: 'de', units: 'metric', bearings: 'mils' });

describe('feet, yards and miles', () => {
  // international yard and pound agreement of 1959: the yard is 0.9144 m, the foot a third of it (0.3048 m), the mile 1760 yards (1609.344 m)
  test('of the agreement of 1959', () => {
    expect(imperial.height(0.3048 * 1000)).toBe('1000 ft');
    expect(imperial.short(0.9144 * 353)).toBe('353 yd');
    expect(imperial.long(1609.344 * 3)).toBe('3.00 mi');
    expect(imperial.far(1609.344 * 1.5)).toBe('1.5 mi');
    expect(imperial.distance(1609.344 * 2)).toBe('2.0');
    expect(imperial.bare.short(0.9144 * 1200)).toBe(1200);
    expect(imperial.bare.height(0.3048 * 54)).toBe(54);
  });

  test('wind, lengths on paper and double paces', () => {
    // a mile an hour is 1609.344 m in 3600 s, an inch 25.4 mm
    expect([metric.wind(9), imperial.wind(9)]).toEqual(['9 m/s', '20 mph']);
    expect([metric.onPaper(36.576), imperial.onPaper(25.4 * 1.44)]).toEqual(['36.6 mm', '1.44 in']);
    expect(metric.paces(60)).toEqual({ count: '60', to: '100 m' });
    expect(imperial.paces(60)).toEqual({ count: '55', to: '100 yd' });
    expect([metric.cell(2.5), imperial.cell(20)]).toEqual(['2.5 m', '22 yd']);
  });

  test('are said in round figures as metres are', () => {
    expect([metric.about(343), metric.about(87)]).toEqual(['340 m', '85 m']);
    expect([imperial.about(0.9144 * 343), imperial.about(0.9144 * 87)]).toEqual(['340 yd', '85 yd']);
  });
});

describe('mils', () => {
  test('are 6400 to the circle, in four figures', () => {
    // 360° = 6400 mils, so 90° = 1600 and 1° = 17.8
    expect([0, 1, 90, 180, 359.99].map(imperial.bearing)).toEqual(['0000', '0018', '1600', '3200', '0000']);
    expect(imperial.bearingSaid(45)).toBe('0800 mils');
    expect(german.bearingSaid(45)).toBe('0800 Strich');
    expect(metric.bearingSaid(7.4)).toBe('007°');
  });
});

test('German decimals stand after a comma', () => {
  expect([german.number(0.725), german.far(1540), german.long(1540), german.distance(2430)]).toEqual([
    '0,73',
    '1,5 km',
    '1,54 km',
    '2,4',
  ]);
  expect([metric.far(1540), metric.far(2000), metric.far(90)]).toEqual(['1.5 km', '2 km', '90 m']);
});

test('dates name the month, so that no day is taken for one', () => {
  expect(['2026-11-25', '2024-03-05', '2024-05', '2019'].map((d) => dateText(d, 'en'))).toEqual([
    '25 Nov 2026',
    '5 Mar 2024',
    'May 2024',
    '2019',
  ]);
  expect(['2026-11-25', '2024-03-05', '2024-05', '2019'].map((d) => dateText(d, 'de'))).toEqual([
    '25. Nov. 2026',
    '5. März 2024',
    'Mai 2024',
    '2019',
  ]);
  for (const other of ['spring 2020', '2020-13', '']) expect(dateText(other, 'de')).toBe(other);
});

test('a wish that is not known is refused with the one most likely meant', () => {
  expect(choiceOf('--language', 'de', LANGUAGES)).toBe('de');
  expect(() => choiceOf('--language', 'DE', LANGUAGES)).toThrow(
    '--language: not as it should be; did you mean de? (got "DE", expected en or de)',
  );
});
