import type { FeatureKind } from './kinds.ts';

export type Gender = 'm' | 'f' | 'n' | 'p';

/** A German noun as a sentence needs it; `adjective` without its ending, `p` is a word that has only a plural. */
export interface Noun {
  readonly gender: Gender;
  readonly noun: string;
  readonly adjective?: string;
  readonly plural: string;
}

const m = (noun: string, plural: string, adjective?: string): Noun => word('m', noun, plural, adjective);
const f = (noun: string, plural: string, adjective?: string): Noun => word('f', noun, plural, adjective);
const n = (noun: string, plural: string): Noun => word('n', noun, plural, undefined);

function word(gender: Gender, noun: string, plural: string, adjective: string | undefined): Noun {
  return { gender, noun, plural, ...(adjective === undefined ? {} : { adjective }) };
}

/**
 * Kinds of feature in German, one table for everything that names one. The words are those of hill maps and of mountain training, from
 * memory, no source.
 */
export const GERMAN_NOUNS: Readonly<Record<FeatureKind, Noun>> = {
  wall: f('Mauer', 'Mauern'),
  'ruined-wall': f('Mauer', 'verfallene Mauern', 'verfallen'),
  fence: m('Zaun', 'Zäune'),
  track: m('Fahrweg', 'Fahrwege'),
  path: m('Pfad', 'Pfade'),
  'right-of-way': n('Wegerecht', 'Wegerechte'),
  trod: f('Wegspur', 'Wegspuren'),
  stream: m('Bach', 'Bäche'),
  'small-stream': m('Bach', 'kleine Bäche', 'klein'),
  'forest-edge': m('Waldrand', 'Waldränder'),
  'marsh-edge': m('Moorrand', 'Moorränder'),
  ridge: m('Rücken', 'Rücken'),
  'break-of-slope': f('Geländekante', 'Geländekanten'),
  cliff: f('Felswand', 'Felswände'),
  'stream-end': n('Bachende', 'Bachenden'),
  confluence: m('Zusammenfluss', 'Zusammenflüsse'),
  junction: f('Abzweigung', 'Abzweigungen'),
  crossing: f('Kreuzung', 'Kreuzungen'),
  'line-end': n('Linienende', 'Linienenden'),
  spring: f('Quelle', 'Quellen'),
  well: m('Brunnen', 'Brunnen'),
  tarn: m('Bergsee', 'Bergseen'),
  pool: m('Tümpel', 'Tümpel'),
  crag: m('Felsen', 'Felsen'),
  boulder: m('Felsblock', 'Felsblöcke'),
  cairn: m('Steinmann', 'Steinmänner'),
  ruin: f('Ruine', 'Ruinen'),
  fold: m('Pferch', 'Pferche'),
  post: m('Pfosten', 'Pfosten'),
  'boundary-stone': m('Grenzstein', 'Grenzsteine'),
  gate: n('Tor', 'Tore'),
  stile: m('Überstieg', 'Überstiege'),
  'wall-corner': f('Mauerecke', 'Mauerecken'),
  'fence-corner': f('Zaunecke', 'Zaunecken'),
  knoll: f('Kuppe', 'Kuppen'),
  're-entrant': m('Einschnitt', 'Einschnitte'),
  spur: m('Sporn', 'Sporne'),
  col: m('Sattel', 'Sättel'),
  'flat-summit': m('Gipfel', 'flache Gipfel', 'flach'),
  bridge: f('Brücke', 'Brücken'),
  building: n('Gebäude', 'Gebäude'),
  sinkhole: f('Doline', 'Dolinen'),
  tree: m('Baum', 'Bäume'),
  other: f('Marke', 'Marken'),
  lake: m('See', 'Seen'),
  forest: m('Wald', 'Wälder'),
  marsh: n('Moor', 'Moore'),
  grass: n('Gras', 'Gras'),
  heather: f('Heide', 'Heide'),
  tussock: n('Bultgras', 'Bultgras'),
  hag: { gender: 'p', noun: 'Torfabbrüche', plural: 'Torfabbrüche' },
  'boulder-field': n('Blockfeld', 'Blockfelder'),
  scree: n('Geröll', 'Geröll'),
  'steep-ground': n('Steilgelände', 'Steilgelände'),
  'out-of-bounds': n('Sperrgebiet', 'Sperrgebiete'),
};

/** A noun by itself, as a label: "kleiner Bach". */
export function labelOf({ gender, noun, adjective }: Noun): string {
  return adjective === undefined ? noun : `${adjective}${STRONG[gender]} ${noun}`;
}

const STRONG: Readonly<Record<Gender, string>> = { m: 'er', f: 'e', n: 'es', p: 'e' };
