import type { Language } from '../door/reading.ts';

/** What `--help` says, once per language. */
export interface HelpWords {
  readonly program: string;
  readonly version: string;
  readonly help: string;
  readonly helpCommand: readonly [term: string, about: string];
  readonly compare: string;
  readonly task: string;
  readonly prepare: Readonly<
    Record<
      | 'about'
      | 'files'
      | 'out'
      | 'name'
      | 'box'
      | 'around'
      | 'margin'
      | 'crs'
      | 'cell'
      | 'noLandforms'
      | 'mapDate'
      | 'attribution'
      | 'licence',
      string
    >
  >;
  readonly check: Readonly<Record<'about' | 'path' | 'json', string>>;
  readonly schema: string;
  readonly page: Readonly<Record<'about' | 'out', string>>;
  readonly shared: Readonly<
    Record<
      'out' | 'trials' | 'seed' | 'workers' | 'trial' | 'language' | 'units' | 'bearings' | 'json',
      string
    >
  >;
}

const ENGLISH: HelpWords = {
  program: 'How likely each route on foot is to find a small target, and how long it takes.',
  version: 'output the version number',
  help: 'display help for command',
  helpCommand: ['help [command]', 'display help for command'],
  compare: 'find routes, walk each many times, and write a report',
  task: 'task file, YAML or JSON',
  prepare: {
    about: 'make a terrain folder from open elevation data and map extracts',
    files:
      'elevation (GeoTIFF, ESRI ASCII, .hgt; any number of tiles) and map features (GeoJSON, OSM XML or PBF, tables)',
    out: 'where the terrain goes',
    name: 'name of the ground, in place of the name of the folder',
    box: 'keep this part only: degrees, or metres of the coordinate system',
    around: 'keep the ground round a track (GPX or GeoJSON)',
    margin: 'how far round the track',
    crs: 'projected coordinate system such as EPSG:27700',
    cell: 'side of a cell; fine data is brought to 5 m unless this says otherwise',
    noLandforms: 'read no knolls, cols, spurs and hollows off the elevation',
    mapDate: 'when the map was made, year-month-day',
    attribution: 'who is to be named for the elevation',
    licence: 'licence of the data',
  },
  check: {
    about: 'say what is wrong, doubtful or lacking in a terrain folder or a task',
    path: 'terrain folder or task file',
    json: 'print the findings as JSON',
  },
  schema: 'print the JSON Schema of the task file',
  page: { about: 'say where the planning page is, or copy it', out: 'copy the page to this file' },
  shared: {
    out: 'where the report goes',
    trials: 'attempts per route, in place of the number in the task',
    seed: 'seed of chance, in place of the one in the task',
    workers: 'how many workers calculate; the result is the same for any',
    trial: 'tell this one attempt on every route, leg by leg, and write nothing',
    language: 'language of what is written: en or de',
    units: 'units of what is written: metric or imperial',
    bearings: 'bearings in degrees or in mils, 6400 to the circle',
    json: 'print the result as JSON',
  },
};

const GERMAN: HelpWords = {
  program: 'Wie wahrscheinlich jede Route zu Fuß ein kleines Ziel findet, und wie lange sie dauert.',
  version: 'die Versionsnummer nennen',
  help: 'diese Hilfe zeigen',
  helpCommand: ['help [Befehl]', 'Hilfe zu einem Befehl zeigen'],
  compare: 'Routen suchen, jede viele Male gehen und einen Bericht schreiben',
  task: 'Aufgabendatei, YAML oder JSON',
  prepare: {
    about: 'aus offenen Höhendaten und Kartenauszügen einen Geländeordner machen',
    files:
      'Höhen (GeoTIFF, ESRI ASCII, .hgt; beliebig viele Kacheln) und Kartenobjekte (GeoJSON, OSM als XML oder PBF, Tabellen)',
    out: 'wohin das Gelände kommt',
    name: 'Name des Geländes, anstelle des Ordnernamens',
    box: 'nur diesen Ausschnitt behalten: Grad oder Meter des Koordinatensystems',
    around: 'das Gelände rings um einen Track behalten (GPX oder GeoJSON)',
    margin: 'wie weit rings um den Track',
    crs: 'projiziertes Koordinatensystem wie EPSG:25832',
    cell: 'Seite einer Zelle; feine Daten werden auf 5 m gebracht, wenn hier nichts anderes steht',
    noLandforms: 'keine Kuppen, Sättel, Sporne und Mulden aus den Höhen lesen',
    mapDate: 'Stand der Karte, Jahr-Monat-Tag',
    attribution: 'wer für die Höhen zu nennen ist',
    licence: 'Lizenz der Daten',
  },
  check: {
    about: 'sagen, was in einem Geländeordner oder einer Aufgabe falsch oder zweifelhaft ist oder fehlt',
    path: 'Geländeordner oder Aufgabendatei',
    json: 'die Befunde als JSON ausgeben',
  },
  schema: 'das JSON-Schema der Aufgabendatei ausgeben',
  page: {
    about: 'sagen, wo die Planungsseite liegt, oder sie kopieren',
    out: 'die Seite in diese Datei kopieren',
  },
  shared: {
    out: 'wohin der Bericht kommt',
    trials: 'Versuche je Route, anstelle der Zahl in der Aufgabe',
    seed: 'Startwert des Zufalls, anstelle dessen in der Aufgabe',
    workers: 'wie viele Rechenprozesse; das Ergebnis hängt nicht davon ab',
    trial: 'diesen einen Versuch auf jeder Route erzählen, Abschnitt für Abschnitt, und nichts schreiben',
    language: 'Sprache dessen, was geschrieben wird: en oder de',
    units: 'Einheiten dessen, was geschrieben wird: metric (metrisch) oder imperial (Fuß, Yard, Meile)',
    bearings: 'Richtungen in Grad (degrees) oder in Strich (mils), 6400 auf den Vollkreis',
    json: 'das Ergebnis als JSON ausgeben',
  },
};

export const HELP_WORDS: Readonly<Record<Language, HelpWords>> = { en: ENGLISH, de: GERMAN };
