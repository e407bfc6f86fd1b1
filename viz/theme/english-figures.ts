import { dateText } from '../../src/door/dates.ts';
import { measuresOf } from '../../src/door/measures.ts';
import type { Reading } from '../../src/door/reading.ts';
import { TOLD_WORDS } from '../../src/report/told-words.ts';
import type { FigureWords } from './figure-words.ts';
import { kindName, ofHundred, thousands } from './words.ts';

export function englishFigures(reading: Reading): FigureWords {
  const m = measuresOf(reading);
  return {
    measures: m,
    ofHundred,
    afterCount: ' of 100',
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
      `${leg}, ${technique} ${m.long(metres)}: ${count} leave the line`,
    height: `height, ${m.unit.height}`,
    heightInCloud: (base) => `height, ${m.unit.height}; grey: in cloud, base ${m.height(base)}`,
    dropNear: (metres) =>
      `Hachures under the profile: a mapped drop or steep ground within ${m.long(metres)}.`,
    offTheLine: ['off the', 'line'],
    ofSuchParties: 'Of 100 such parties',
    findIt: (letter, count) => `${letter}: ${count} find the target`,
    outcomes: TOLD_WORDS.en.outcomes,
    whereEnded: 'Where attempts ended',
    panels: (metres) =>
      `The ${m.bare.short(metres)} ${m.units === 'metric' ? 'metres' : 'yards'} around the target, one panel per route, a dot for each of the first attempts.`,
    drawnOf: (drawn, trials) => `${drawn} of ${thousands(trials)}`,
    outside: (count) => `${count} outside`,
    attempt: (trial, letter) => `Attempt ${trial} on route ${letter}`,
    attemptShown:
      'The true track, the track the party believed in, and where things happened; the table tells them in order.',
    mapTitle: (start, target) => `Map from ${start} to ${target}`,
    mapShown: (routes, terrain) => `${routes.length} routes on ${terrain}: ${routes.join('; ')}`,
    printTitle: (scale) => `Map at 1:${scale}`,
    printShown: (start, target, terrain) => `${start} to ${target} on ${terrain}`,
    techniques: TOLD_WORDS.en.techniques,
    kind: kindName,
    shownName: (name) => name,
    gridNorth: (narrow) =>
      narrow ? 'grid north' : 'grid north is up; no date given, so no magnetic bearings',
    norths: (degrees, east, model, date, narrow) => {
      const side = east ? 'east' : 'west';
      return narrow
        ? `grid north; magnetic ${degrees}° ${side}`
        : `grid north is up; magnetic north lies ${degrees}° ${side} of it (${model}, ${dateText(date, 'en')})`;
    },
  };
}
