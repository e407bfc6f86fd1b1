import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Technique } from '../../src/route/leg.ts';
import { kilometres, kindName, ofHundred, TECHNIQUE_NAMES } from './words.ts';

/** The words inside of drawings, one object per language. */
export interface FigureWords {
  readonly ofHundred: (share: number) => string;
  readonly foundOfHundred: string;
  readonly foundWithin: string;
  readonly inTheEnd: (count: string) => string;
  readonly minutesSince: string;
  readonly limit: (minutes: number) => string;
  readonly timeAgainstSuccess: string;
  readonly minutesAndCount: (minutes: number, count: string) => string;
  readonly minutesAll: string;
  readonly minutesAllShort: string;
  readonly legByLeg: (letter: string) => string;
  readonly leavesHere: (leg: number, technique: string, metres: number, count: string) => string;
  readonly height: string;
  readonly heightInCloud: (base: number) => string;
  /** In two lines beside the squares. */
  readonly offTheLine: readonly [string, string];
  readonly techniques: Readonly<Record<Technique, string>>;
  readonly kind: (kind: FeatureKind) => string;
  /** Where magnetic north lies from grid north, for a wide and a narrow foot of the map. */
  readonly norths: (degrees: string, east: boolean, model: string, date: string, narrow: boolean) => string;
  readonly gridNorth: (narrow: boolean) => string;
}

export const ENGLISH: FigureWords = {
  ofHundred,
  foundOfHundred: 'found, of 100',
  foundWithin: 'Found within so many minutes',
  inTheEnd: (count) => `${count} in the end`,
  minutesSince: 'minutes since setting off',
  limit: (minutes) => `limit ${minutes} min`,
  timeAgainstSuccess: 'Time against success',
  minutesAndCount: (minutes, count) => `${minutes} minutes, ${count}`,
  minutesAll: 'minutes, all attempts: middle, and from the quick tenth to the slow tenth',
  minutesAllShort: 'minutes, all attempts',
  legByLeg: (letter) => `Route ${letter} leg by leg`,
  leavesHere: (leg, technique, metres, count) =>
    `${leg}, ${technique} ${kilometres(metres)}: ${count} leave the line`,
  height: 'height, m',
  heightInCloud: (base) => `height, m; grey: in cloud, base ${base} m`,
  offTheLine: ['off the', 'line'],
  techniques: TECHNIQUE_NAMES,
  kind: kindName,
  gridNorth: (narrow) => (narrow ? 'grid north' : 'grid north is up; no date given, so no magnetic bearings'),
  norths: (degrees, east, model, date, narrow) => {
    const side = east ? 'east' : 'west';
    return narrow
      ? `grid north; magnetic ${degrees}° ${side}`
      : `grid north is up; magnetic north lies ${degrees}° ${side} of it (${model}, ${date})`;
  },
};
