import type { SpeedModel } from './model.ts';

const NO_OFF_PATH = 'sagt nichts über das Gehen abseits von Wegen';

/** What is to be known of each travel-time model, in German, by the beginning of its name. */
const WARNINGS: readonly (readonly [begins: string, warning: string])[] = [
  [
    'irmischer-clarke',
    'Angepasst an junge, leistungsfähige Menschen, die allein mit Karte und Kompass gingen, Blicke auf die Karte eingeschlossen; nie langsamer als 0,11 m/s, sehr steiles Gelände kommt also zu schnell heraus. Die Neigung hat ein Vorzeichen, und die Breite ist 2·30²; manche Programme schreiben das anders.',
  ],
  [
    'naismith-langmuir',
    `Regel für den Abstieg: schneller zwischen 5° und 12°, langsamer über 12°. An beiden Stellen springt sie (bei 12° von 0,30 auf 1,14 s/m), eine gefundene Linie kann sich daher an einen Hang knapp unter 12° schmiegen; ${NO_OFF_PATH}.`,
  ],
  [
    'naismith',
    `Für leistungsfähige Menschen auf gutem Boden ohne Rasten; der Abstieg kostet nichts zusätzlich, und Steilgelände bremst nicht; ${NO_OFF_PATH}.`,
  ],
  [
    'tobler',
    'Angepasst an eine Reihe von Marschzeiten von 1950; auf Steilgelände sehr langsam; „abseits von Wegen“ ist ein einziger Faktor von 0,6 für jeden Boden.',
  ],
  [
    'marquez-perez',
    `Angepasst an Freizeitwandernde auf markierten Wegen: langsamer als die meisten Gruppen; ${NO_OFF_PATH}.`,
  ],
  [
    'scarf',
    `Das Verhältnis von Anstieg und Strecke ist an Ergebnisse von Bergläufen angepasst; das Tempo von 5 km/h in der Ebene ist eine Annahme; der Abstieg kostet nichts zusätzlich; ${NO_OFF_PATH}.`,
  ],
  [
    'campbell-p',
    `Ein Perzentil (die Zahl im Namen) von Menschen, die sich auf Wegen nahe einer Stadt aufzeichnen, gehend bis laufend; Daten von etwa −30° bis 30°; ${NO_OFF_PATH}.`,
  ],
  [
    'campbell',
    'Nur der Anteil der Neigung; zügiges Gehen auf kurzen offenen Strecken; über 30° festgehalten, wo die Parabel bald null erreicht.',
  ],
  ['rees', `Angepasst an Fußpfade im Bergland, eine Person; bergauf und bergab gleich; ${NO_OFF_PATH}.`],
  [
    'davey',
    `Angepasst an Läufe bergauf; bergab gilt als so langsam wie bergauf, und 1,4 m/s in der Ebene sind eine Annahme; ${NO_OFF_PATH}.`,
  ],
];

const OWN_SPEED =
  'Das Tempo in der Ebene ist in der Aufgabe gegeben; Anstieg kostet das Achtfache seiner Höhe in der Ebene; der Abstieg kostet nichts zusätzlich.';

/** The warning of a model in German. */
export function germanWarning({ name, warning }: SpeedModel): string {
  if (/ m\/s$/.test(name)) return OWN_SPEED;
  const known = WARNINGS.find(([begins]) => name.startsWith(begins))?.[1] ?? warning;
  return name === 'irmischer-clarke-women' ? known.replace('Menschen', 'Frauen') : known;
}
