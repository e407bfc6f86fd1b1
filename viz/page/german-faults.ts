import type { Forms } from '../../src/door/german/form.ts';
import { faultText, germanMessage } from '../../src/door/german-faults.ts';
import { UserError } from '../../src/door/user-error.ts';
import { wishedLanguage } from './reader-wishes.ts';

/** What the page itself finds wrong with files and texts, besides the engine (`src/door/german-faults.ts`). */
export const PAGE_FAULTS: Forms = [
  ['terrain.json is no JSON', 'terrain.json ist kein JSON'],
  ['this folder holds no task', 'in diesem Ordner liegt keine Aufgabe'],
  ['a file *.task.yaml or *.task.json beside it', 'daneben eine Datei *.task.yaml oder *.task.json'],
  ['the world file does not place the picture', 'die World-Datei legt das Bild nirgends hin'],
  [
    'six numbers: a cell east, 0, 0, a cell south as a negative, easting and northing of the first cell',
    'sechs Zahlen: eine Zelle nach Ost, 0, 0, eine Zelle nach Süd als negative Zahl, Rechts- und Hochwert der ersten Zelle',
  ],
  [
    'the features are no collection, so nothing can be added to them',
    'die Kartenobjekte sind keine Sammlung, nichts lässt sich hinzufügen',
  ],
  ['too many lines at once', 'zu viele Zeilen auf einmal'],
  ['no kind that is known here', 'keine Art, die hier bekannt ist'],
  ['"{}"', '„{1}“'],
  [
    'grid reference, kind, name; for example a boulder, a cairn, a spring',
    'Gitterkoordinate, Art, Name; zum Beispiel Felsblock, Steinmann, Quelle',
  ],
  ['the picture cannot be read', 'das Bild lässt sich nicht lesen'],
  [
    'the picture lies in another system than the ground',
    'das Bild liegt in einem anderen Koordinatensystem als das Gelände',
  ],
  [
    'the middle of this elevation holds no heights to plan on',
    'in der Mitte dieser Höhen sind keine, auf denen sich planen ließe',
  ],
  ['this archive cannot be read', 'dieses Archiv lässt sich nicht lesen'],
  ['no end record', 'kein Schlusseintrag'],
  ['{#} files', '{1} Dateien'],
  ['a directory that is none', 'ein Verzeichnis, das keines ist'],
  ['more than {#} MB inside', 'mehr als {1} MB darin'],
  ['a way of packing that is not read ({})', 'eine Art zu packen, die nicht gelesen wird ({1})'],
  ['a damaged {}', 'beschädigt: {1}'],
  ['an end before its time', 'ein Ende vor der Zeit'],
  ['reading took more than a minute', 'das Lesen dauerte länger als eine Minute'],
];

/** What is wrong, in the reader's language; a fault of ours stays as it is. */
export function problemText(error: unknown): string {
  if (error instanceof UserError) return faultText(error, wishedLanguage(), PAGE_FAULTS);
  return error instanceof Error ? error.message : String(error);
}

/** The same for the message of a UserError that a worker met. */
export function problemSaid(message: string): string {
  return wishedLanguage() === 'de' ? germanMessage(message, PAGE_FAULTS) : message;
}
