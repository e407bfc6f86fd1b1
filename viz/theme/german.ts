import { dateText } from '../../src/door/dates.ts';
import { measuresOf } from '../../src/door/measures.ts';
import { PLAIN_READING, type Reading } from '../../src/door/reading.ts';
import { germanGiven, germanLabel } from '../../src/features/german-names.ts';
import { TOLD_WORDS } from '../../src/report/told-words.ts';
import type { FigureWords } from './figure-words.ts';
import { germanKind } from './german-kinds.ts';
import { hundredText, thousands } from './words.ts';

export function germanFigures(reading: Reading): FigureWords {
  const m = measuresOf(reading);
  return {
    measures: m,
    ofHundred: (share) => `${hundredText(share)} von 100`,
    afterCount: ' von 100',
    foundOfHundred: 'gefunden, von 100',
    foundWithin: 'Gefunden in so vielen Minuten',
    inTheEnd: (count) => `${count} am Ende`,
    minutesSince: 'Minuten seit dem Aufbruch',
    limit: (minutes) => `Grenze ${minutes} min`,
    timeAgainstSuccess: 'Zeit und Erfolg',
    minutesAndCount: (minutes, count) => `${minutes} Minuten, ${count}`,
    minutesAll: 'Minuten, alle Versuche: Mitte, und vom schnellsten bis zum langsamsten Zehntel',
    minutesAllShort: 'Minuten, alle Versuche',
    legByLeg: (letter) => `Route ${letter} Abschnitt für Abschnitt`,
    leavesHere: (leg, technique, metres, count) =>
      `${leg}, ${technique} ${m.long(metres)}: ${count} kommen von der Linie ab`,
    height: `Höhe, ${m.unit.height}`,
    heightInCloud: (base) => `Höhe, ${m.unit.height}; grau: in Wolken, Untergrenze ${m.height(base)}`,
    dropNear: (metres) =>
      `Schraffen unter dem Profil: ein kartierter Absturz oder steiles Gelände näher als ${m.long(metres)}.`,
    offTheLine: ['von der', 'Linie'],
    ofSuchParties: 'Von 100 solchen Gruppen',
    findIt: (letter, count) => `${letter}: ${count} finden das Ziel`,
    outcomes: TOLD_WORDS.de.outcomes,
    whereEnded: 'Wo Versuche endeten',
    panels: (metres) =>
      `Die ${m.bare.short(metres)} ${m.units === 'metric' ? 'Meter' : 'Yard'} um das Ziel, ein Feld je Route, ein Punkt für jeden der ersten Versuche.`,
    drawnOf: (drawn, trials) => `${drawn} von ${thousands(trials)}`,
    outside: (count) => `${count} außerhalb`,
    attempt: (trial, letter) => `Versuch ${trial} auf Route ${letter}`,
    attemptShown:
      'Die wahre Spur, die von der Gruppe vermutete Spur, und wo etwas geschah; die Tabelle erzählt es der Reihe nach.',
    mapTitle: (start, target) => `Karte, Start ${start}, Ziel ${target}`,
    mapShown: (routes, terrain) => `${routes.length} Routen auf ${terrain}: ${routes.join('; ')}`,
    printTitle: (scale) => `Karte 1:${scale}`,
    printShown: (start, target, terrain) => `Start ${start}, Ziel ${target}, ${terrain}`,
    techniques: TOLD_WORDS.de.techniques,
    kind: germanKind,
    shownName: (name, kind) => (kind === undefined ? germanGiven(name) : germanLabel({ id: '', name, kind })),
    gridNorth: (narrow) =>
      narrow ? 'Gitternord' : 'Gitternord oben; ohne Datum keine magnetischen Richtungen',
    norths: (degrees, east, model, date, narrow) => {
      const side = east ? 'östlich' : 'westlich';
      const figure = degrees.replace('.', ',');
      return narrow
        ? `Gitternord; magn. ${figure}° ${east ? 'O' : 'W'}`
        : `Gitternord oben; magnetisch Nord ${figure}° ${side} davon (${model}, ${dateText(date, 'de')})`;
    },
  };
}

/** The words inside of drawings in German. */
export const GERMAN: FigureWords = germanFigures({ ...PLAIN_READING, language: 'de' });
