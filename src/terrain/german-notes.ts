/** What is noted while heights are read, in German: the forms of the sentences, with their figures in order. */
const FORMS: readonly (readonly [english: RegExp, german: string])[] = [
  [
    /^(\d+) cells of exactly 0 m amid high ground are taken for an undeclared void and have no height\.$/,
    '$1 Zellen mit genau 0 m inmitten hohen Geländes gelten als unerklärte Lücke und haben keine Höhe.',
  ],
  [
    /^(\d+) cells of exactly 0 m amid high ground are taken for (\d+) undeclared voids and have no height\.$/,
    '$1 Zellen mit genau 0 m inmitten hohen Geländes gelten als $2 unerklärte Lücken und haben keine Höhe.',
  ],
  [
    /^The file holds a mask of another size or kind, which is left aside\.$/,
    'Die Datei enthält eine Maske anderer Größe oder Art, die unbeachtet bleibt.',
  ],
  [/^The file's mask hides (\d+) cells\.$/, 'Die Maske der Datei verdeckt $1 Zellen.'],
  [/^The first of (\d+) bands is taken as height\.$/, 'Das erste von $1 Bändern gilt als Höhe.'],
  [
    /^The first of (\d+) images in the file is taken as height\.$/,
    'Das erste von $1 Bildern in der Datei gilt als Höhe.',
  ],
  [/^Heights are turned from (.+) to metres\.$/, 'Höhen sind aus „$1“ in Meter umgerechnet.'],
  [
    /^Heights are stored with scale (\S+) and offset (\S+), both applied\.$/,
    'Höhen sind mit Faktor $1 und Versatz $2 gespeichert, beide sind angewandt.',
  ],
  [/^(\d+) of (\d+) cells have no height(.*)\.$/, '$1 von $2 Zellen haben keine Höhe$3.'],
  [
    /(\d+) of (\d+) cells hold a height that no ground has \(below (\S+) m or above (\S+) m\) and are taken as missing/,
    '$1 von $2 Zellen enthalten eine Höhe, die kein Gelände hat (unter $3 m oder über $4 m), und gelten als fehlend',
  ],
  [/^Heights are resampled to cells of (\S+) m;/, 'Höhen sind auf Zellen von $1 m umgerechnet;'],
  [
    /^Heights are reprojected from (\S+) to (\S+), bilinear, cells of (\S+) m, places right to (\S+) of a source cell;/,
    'Höhen sind von $1 nach $2 umprojiziert, bilinear, Zellen von $3 m, Orte richtig auf $4 einer Quellzelle;',
  ],
  [
    /read back at the source's cells, heights differ by (\S+) m in the mean and by (\S+) m or less at 95 of 100\.$/,
    'an den Zellen der Quelle zurückgelesen, weichen Höhen im Mittel um $1 m und an 95 von 100 um höchstens $2 m ab.',
  ],
];

/** A note of the readers in German; one of an unknown form stays as it is. */
export function germanNote(note: string): string {
  return FORMS.reduce((text, [english, german]) => text.replace(english, german), note);
}
