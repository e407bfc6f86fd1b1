import type { Language } from '../door/reading.ts';

/** What the command line itself says of results, once per language; messages about wrong input have theirs in `door/german-faults.ts`. */
export interface CliWords {
  readonly stages: Readonly<Record<'task' | 'ground' | 'routes' | 'walks' | 'changes', string>>;
  readonly stopped: string;
  /** Before the trace of a fault of ours. */
  readonly ours: string;
  readonly reportIn: (file: string) => string;
  readonly pageIn: (file: string) => string;
  readonly prepare: {
    readonly reading: string;
    readonly making: string;
    readonly terrainIn: (folder: string) => string;
    readonly tryIt: (task: string) => string;
    readonly nothingNamed: string;
  };
  /** Of the table: letter, route, find it, minutes, slow day, false find, lost, hazard, length, climb. */
  readonly heads: readonly [string, string, string, string, string, string, string, string];
  readonly climb: string;
  readonly key: string;
  readonly notAssessed: string;
  readonly told: (name: string, trial: number, outcome: string, minutes: number) => string;
  readonly event: (minute: string, leg: number, event: string, off: string, sure: string) => string;
}

const ENGLISH: CliWords = {
  stages: {
    task: 'Reading the task',
    ground: 'Reading the ground',
    routes: 'Finding routes',
    walks: 'Walking them',
    changes: 'Trying changes',
  },
  stopped: 'Stopped; nothing was written.',
  ours: 'This is a fault of mistwise, not of your files. Please report it with these lines:',
  reportIn: (file) => `The report is in ${file}`,
  pageIn: (file) => `The planning page is ${file}; open it in any browser, no network needed.`,
  prepare: {
    reading: 'Reading the files',
    making: 'Making the terrain',
    terrainIn: (folder) => `The terrain is in ${folder}`,
    tryIt: (task) => `Try it: mistwise compare ${task}`,
    nothingNamed:
      'Nothing in it can be named as a start or a target; write a task with places such as { at: [easting, northing] }.',
  },
  heads: ['', 'route', 'find it', 'minutes', 'slow day', 'false find', 'lost', 'hazard'],
  climb: 'climb',
  key: 'find it: of 100 such parties, with the range of chance alone; slow day: 9 of 10 need less; * unbeaten in both.',
  notAssessed: 'not assessed',
  told: (name, trial, outcome, minutes) => `${name}, attempt ${trial}: ${outcome} after ${minutes} minutes`,
  event: (minute, leg, event, off, sure) =>
    `${minute} min  leg ${leg}  ${event} (truly ${off} from where it believes it is, sure to ${sure})`,
};

const GERMAN: CliWords = {
  stages: {
    task: 'Die Aufgabe wird gelesen',
    ground: 'Das Gelände wird gelesen',
    routes: 'Routen werden gesucht',
    walks: 'Routen werden gegangen',
    changes: 'Änderungen werden probiert',
  },
  stopped: 'Angehalten; nichts wurde geschrieben.',
  ours: 'Das ist ein Fehler von mistwise, nicht Ihrer Dateien. Bitte mit diesen Zeilen melden:',
  reportIn: (file) => `Der Bericht liegt in ${file}`,
  pageIn: (file) => `Die Planungsseite ist ${file}; in jedem Browser zu öffnen, ohne Netz.`,
  prepare: {
    reading: 'Die Dateien werden gelesen',
    making: 'Das Gelände wird gemacht',
    terrainIn: (folder) => `Das Gelände liegt in ${folder}`,
    tryIt: (task) => `Probieren: mistwise compare ${task} --language de`,
    nothingNamed:
      'Nichts darin lässt sich als Start oder Ziel nennen; eine Aufgabe mit Orten wie { at: [Rechtswert, Hochwert] } schreiben.',
  },
  heads: ['', 'Route', 'finden es', 'Minuten', 'langsam', 'falsch', 'verirrt', 'Gefahr'],
  climb: 'Anstieg',
  key: 'finden es: von 100 solchen Gruppen, mit der Spanne des Zufalls allein; langsam: 9 von 10 brauchen weniger; falsch: falscher Fund; * in beidem ungeschlagen.',
  notAssessed: 'nicht beurteilt',
  told: (name, trial, outcome, minutes) => `${name}, Versuch ${trial}: ${outcome} nach ${minutes} Minuten`,
  event: (minute, leg, event, off, sure) =>
    `${minute} min  Abschnitt ${leg}  ${event} (in Wahrheit ${off} neben dem vermuteten Ort, nach eigener Meinung auf ${sure} genau)`,
};

export const CLI_WORDS: Readonly<Record<Language, CliWords>> = { en: ENGLISH, de: GERMAN };
