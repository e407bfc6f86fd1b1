import { GERMAN_NOUNS, labelOf } from '../features/german-kinds.ts';
import { FEATURE_KINDS, type FeatureKind } from '../features/kinds.ts';
import { germanNote } from '../terrain/german-notes.ts';
import { germanNeed } from './german-findings.ts';

/* What `prepare` says it did, in German: forms of its lines, the parts in order. */

const FORMS: readonly (readonly [english: RegExp, german: string])[] = [
  [
    /^- (\d+) of (\d+) features lie outside and are left out\.$/,
    '- $1 von $2 Kartenobjekten liegen außerhalb und sind weggelassen.',
  ],
  [/^- (\d+) landforms are read off the elevation\.$/, '- $1 Geländeformen sind aus den Höhen gelesen.'],
  [
    /^- The elevation has cells of (\S+) m; it is brought to (\S+) m \(name a cell to keep more\)\.$/,
    '- Die Höhen haben Zellen von $1 m; sie sind auf $2 m gebracht (mit --cell bleibt mehr).',
  ],
  [/: skipped, without a geometry: /, ': übergangen, ohne Geometrie: '],
  [/: skipped, with an empty geometry: /, ': übergangen, mit leerer Geometrie: '],
  [/: numbered, without an id: /, ': nummeriert, ohne Kennung: '],
  [/: split, of several parts: /, ': geteilt, aus mehreren Teilen: '],
  [
    /: property "(.+)" not used, did you mean (\S+)\?: /,
    ': Eigenschaft „$1“ nicht benutzt, gemeint ist vielleicht $2: ',
  ],
  [/^Left out, of no kind that is used here: /, 'Weggelassen, von keiner Art, die hier gebraucht wird: '],
  [/, and (\d+) more sorts$/, ' und $1 weitere Sorten'],
  [/^Lacking on this ground:$/, 'Auf diesem Gelände fehlen:'],
];

/** The lines of `saidText` in German; a line of an unknown form stays as it is. */
export function germanPrepared(said: string): string {
  return said.split('\n').map(lineOf).join('\n');
}

function lineOf(line: string): string {
  const counts = /^(\d+) features: (.+)$/.exec(line);
  if (counts !== null)
    return `${counts[1]} Kartenobjekte: ${counts[2] === 'none' ? 'keine' : kindsIn(counts[2]!)}`;
  const need = /^- no ([a-z, ]+): /.exec(line);
  if (need !== null) return `- ${germanNeed(need[1]!)}`;
  const geometry = /^(- .+): skipped, of no geometry that a (\S+) can have: (.+)$/.exec(line);
  if (geometry !== null) {
    return `${geometry[1]}: übergangen, in keiner Geometrie, die diese Art haben kann (${kindIn(geometry[2]!)}): ${geometry[3]}`;
  }
  const size = /^(.+): (\S+) × (\S+) km, cells of (\S+) m, (\S+)$/.exec(line);
  if (size !== null) {
    const [, name, wide, tall, cell, crs] = size;
    const [w, t, c] = [wide, tall, cell].map((n) => n!.replace('.', ','));
    return `${name}: ${w} × ${t} km, Zellen von ${c} m, ${crs}`;
  }
  const note = line.startsWith('- ') ? `- ${germanNote(line.slice(2))}` : line;
  return FORMS.reduce((text, [english, german]) => text.replace(english, german), note);
}

/** "3 wall, 2 path". */
function kindsIn(counts: string): string {
  return counts.replace(
    /(\d+) ([a-z-]+)/g,
    (_, n: string, kind: string) => `${n} ${kindIn(kind, n !== '1')}`,
  );
}

function kindIn(kind: string, many = false): string {
  if (!FEATURE_KINDS.includes(kind as FeatureKind)) return kind;
  const noun = GERMAN_NOUNS[kind as FeatureKind];
  return many ? noun.plural : labelOf(noun);
}
