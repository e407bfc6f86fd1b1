import type { FigureWords } from './figure-words.ts';
import { germanKind } from './german-kinds.ts';
import { hundredText, kilometres } from './words.ts';

const ofHundred = (share: number) => `${hundredText(share)} von 100`;

/** The words inside of drawings in German. */
export const GERMAN: FigureWords = {
  ofHundred,
  foundOfHundred: 'gefunden, von 100',
  foundWithin: 'Gefunden in so vielen Minuten',
  inTheEnd: (count) => `${count} am Ende`,
  minutesSince: 'Minuten seit dem Aufbruch',
  limit: (minutes) => `Grenze ${minutes} min`,
  timeAgainstSuccess: 'Zeit gegen Erfolg',
  minutesAndCount: (minutes, count) => `${minutes} Minuten, ${count}`,
  minutesAll: 'Minuten, alle Versuche: Mitte, und vom schnellsten bis zum langsamsten Zehntel',
  minutesAllShort: 'Minuten, alle Versuche',
  legByLeg: (letter) => `Route ${letter} Abschnitt für Abschnitt`,
  leavesHere: (leg, technique, metres, count) =>
    `${leg}, ${technique} ${kilometres(metres)}: ${count} kommen von der Linie ab`,
  height: 'Höhe, m',
  heightInCloud: (base) => `Höhe, m; grau: in Wolken, Untergrenze ${base} m`,
  offTheLine: ['von der', 'Linie'],
  techniques: {
    handrail: 'Leitlinie',
    bearing: 'Marschzahl',
    timing: 'nach der Uhr',
    'aim-off': 'versetzt',
    contour: 'höhengleich',
    sight: 'auf Sicht',
    box: 'Rechteck',
  },
  kind: germanKind,
  gridNorth: (narrow) =>
    narrow ? 'Gitternord' : 'Gitternord ist oben; ohne Datum keine magnetischen Richtungen',
  norths: (degrees, east, model, date, narrow) => {
    const side = east ? 'östlich' : 'westlich';
    const figure = degrees.replace('.', ',');
    return narrow
      ? `Gitternord; magnetisch ${figure}° ${side}`
      : `Gitternord ist oben; magnetisch Nord liegt ${figure}° ${side} davon (${model}, ${date})`;
  },
};
