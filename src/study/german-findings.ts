import { dateText } from '../door/dates.ts';
import { germanMessage } from '../door/german-faults.ts';
import { GERMAN_NOUNS, labelOf } from '../features/german-kinds.ts';
import { germanGiven } from '../features/german-names.ts';
import { FEATURE_KINDS } from '../features/kinds.ts';

/*
 * What `check` says, in German: every form of sentence with its parts in order. A part is a name, a number or a list, which stays. Terms
 * from memory, no source.
 */

/** Things without a name are said by their kind. */
const KINDS = new Map(
  FEATURE_KINDS.map((kind) => [`the ${kind.replaceAll('-', ' ')}`, labelOf(GERMAN_NOUNS[kind])]),
);
KINDS.set('the re-entrant', labelOf(GERMAN_NOUNS['re-entrant']));
KINDS.set('the marked point', labelOf(GERMAN_NOUNS.other));

/** A name, a list of names, or a number in German. */
function part(text: string): string {
  return (KINDS.get(text) ?? germanGiven(text))
    .replace(/ and (\d+) more$/, ' und $1 weitere')
    .replace(/^(\d+)\.(\d+)/, '$1,$2')
    .replace(/^less than 1 in 100$/, 'weniger als 1 von 100')
    .replace(/^(\d+) in 100$/, '$1 von 100');
}

const NEEDS: Readonly<Record<string, string>> = {
  'cliffs, crags, steep ground':
    'Felswände, Felsen, Steilgelände: Gefahren sind nicht beurteilt, was hier fehlt, kann dennoch da sein',
  'walls, fences': 'Mauern, Zäune: die verlässlichsten Leitlinien offenen Geländes fehlen',
  streams: 'Bäche: an keinen Bach kann man versetzt gehen und keinem folgen',
  'tracks, paths': 'Fahrwege, Pfade: jede Route führt über freies Gelände',
  'springs, wells': 'Quellen, Brunnen: Quellen sind selten verzeichnet; bekannte ergänzen',
  'cairns, posts, boundary stones':
    'Steinmänner, Pfosten, Grenzsteine: kleine Marken sind von Hand zu ergänzen',
  boulders: 'Felsblöcke: einzelne Blöcke sind von Hand zu ergänzen',
  'ruins, folds, buildings': 'Ruinen, Pferche, Gebäude: die besten letzten Angriffspunkte fehlen',
  'tarns, pools, lakes': 'Bergseen, Tümpel, Seen: kein stehendes Gewässer für eine Standortbestimmung',
  'gates, stiles, bridges': 'Tore, Überstiege, Brücken: wo Mauern und Bäche zu queren sind, ist unbekannt',
  sinkholes: 'Dolinen: Löcher sind von Hand zu ergänzen',
  'ground cover': 'Bewuchs: alles offene Gelände gilt als kurzes Gras',
};

/** A group of kinds that the map lacks, and what that means. */
export function germanNeed(name: string): string {
  return NEEDS[name] ?? name;
}

type Form = readonly [english: RegExp, german: (...parts: string[]) => string];

const FORMS: readonly Form[] = [
  [
    /^no attribution: .*/,
    () => 'keine Namensnennung: ein Bericht aus diesen Daten darf anderen nicht gezeigt werden',
  ],
  [/^no licence is named$/, () => 'keine Lizenz genannt'],
  [
    /^no map date: .*/,
    () => 'kein Kartendatum: wie viel sich seither geändert hat, lässt sich nicht abschätzen',
  ],
  [
    /^(.+) of the cells have no height; .*/,
    (n) => `${n} Zellen haben keine Höhe; keine Route führt hindurch`,
  ],
  [
    /^(\d+) cells? stands? more than (\S+) m out of all neighbours: .*/,
    (n, m) =>
      `${n} ${n === '1' ? 'Zelle ragt' : 'Zellen ragen'} mehr als ${m} m aus allen Nachbarn heraus: Spitzen oder Löcher in den Daten`,
  ],
  [
    /^(.+) of the cells lie on a whole 10 m: .*/,
    (n) => `${n} Zellen liegen auf vollen 10 m: aus Höhenlinien gemacht, mit falschen Terrassen`,
  ],
  [
    /^cells of (\S+) m: knolls, hollows and crags narrower than (\S+) m are not in it$/,
    (c, m) => `Zellen von ${c} m: Kuppen, Mulden und Felsen schmaler als ${m} m sind nicht enthalten`,
  ],
  [
    /^(.+) of the ground is steeper than 35° on these cells; .*/,
    (n) => `${n} Zellen sind steiler als 35°; einzelne Felsen können steiler sein, als sie zeigen`,
  ],
  [
    /^none of the (\d+) features lies on the elevation: .*/,
    (n) =>
      `keines der ${n} Kartenobjekte liegt auf den Höhen: sie gehören an einen anderen Ort oder in ein anderes Koordinatensystem`,
  ],
  [
    /^(\d+) features? lies? wholly off the elevation: (.+)$/,
    (n, ids) => `${n} ${n === '1' ? 'Kartenobjekt' : 'Kartenobjekte'} ganz außerhalb der Höhen: ${ids}`,
  ],
  [
    /^mapped twice, of one kind within (\d+) m: (.+)$/,
    (m, ids) => `doppelt verzeichnet, von einer Art innerhalb ${m} m: ${ids.replaceAll(' and ', ' und ')}`,
  ],
  [
    /^(\d+) ends? of (?:a way|ways) nearly meets? another: (.+)$/,
    (n, ids) =>
      `${n} ${n === '1' ? 'Wegende trifft' : 'Wegenden treffen'} einen anderen Weg knapp nicht: ${ids.replaceAll(/ stops (\d+) m short of /g, ' endet $1 m vor ')}`,
  ],
  [
    /^standing water on a slope: (.+); the layers .*/,
    (ids) => `stehendes Gewässer am Hang: ${ids}; die Ebenen liegen womöglich nicht übereinander`,
  ],
  [/^the row "(.+)" has one member only$/, (row) => `die Reihe „${row}“ hat nur ein Glied`],
  [
    /^the members of the row "(.+)" have no clear order: .*/,
    (row) =>
      `die Glieder der Reihe „${row}“ haben keine klare Reihenfolge: jedes braucht einen eigenen rowPlace`,
  ],
  [/^no ([a-z, ]+) mapped: .+$/, (kinds) => `nicht verzeichnet: ${germanNeed(kinds)}`],
  [
    /^(\d+) of 100 metres of mapped stream lie in a valley of the elevation \(cells of (\S+) m\)$/,
    (n, c) => `${n} von 100 Metern der verzeichneten Bäche liegen in einem Tal der Höhen (Zellen von ${c} m)`,
  ],
  [
    /^(\d+) of 100 metres of mapped stream lie in a valley of the elevation \(cells of (\S+) m\); moved (.+), more of it would: .*/,
    (n, c, by) =>
      `${n} von 100 Metern der verzeichneten Bäche liegen in einem Tal der Höhen (Zellen von ${c} m); um ${moved(by)} verschoben wären es mehr: die Ebenen liegen womöglich nicht übereinander`,
  ],
  [
    /^streams that mostly do not lie in a valley: (.+)$/,
    (ids) => `Bäche, die meist in keinem Tal liegen: ${ids}`,
  ],
  [
    /^streams that climb more than (\S+) m on their way: (.+)$/,
    (m, ids) => `Bäche, die unterwegs mehr als ${m} m steigen: ${ids}`,
  ],
  [
    /^route "(.+)" ends with (\d+) m on a bearing: more than (\d+) m to a small target$/,
    (name, m, most) =>
      `Route „${name}“ endet mit ${m} m nach Marschzahl: mehr als ${most} m zu einem kleinen Ziel`,
  ],
  [
    /^(.+) is found when the party comes within (\S+) m of it on this day$/,
    (name, m) => `gefunden an diesem Tag, wenn die Gruppe auf ${m} m herankommt: ${name}`,
  ],
  [
    /^the ground is known in cells of (\d+) m and (.+) is found within (\S+) m: the figures show the workflow, not the last (\d+) m$/,
    (c, name, m, last) =>
      `das Gelände ist in Zellen von ${c} m bekannt, das Ziel (${name}) wird auf ${m} m gefunden: die Zahlen zeigen den Ablauf, nicht die letzten ${last} m`,
  ],
  [
    /^(\d+) things? within (\d+) m could be taken for (.+?): (.+)$/,
    (n, m, name, told) => `${n} innerhalb ${m} m zu verwechseln mit dem Ziel (${name}): ${kinds(told)}`,
  ],
  [
    /^the start, (.+), has a lookalike within (\d+) m: (.+); make sure .*/,
    (name, m, ids) =>
      `der Start (${name}) ist innerhalb ${m} m zu verwechseln: ${ids}; vergewissern, dass die Gruppe am richtigen steht`,
  ],
  [
    /^(.+) is there on (\d+) of 100 such days only: .*/,
    (name, n) => `an nur ${n} von 100 solchen Tagen vorhanden: ${name}; keine Route kann das übertreffen`,
  ],
  [/^the place of (.+) is known to (\d+) m only$/, (name, m) => `Lage nur auf ${m} m bekannt: ${name}`],
  [
    /^no sure point between (\d+) and (\d+) m from (.+) to set off from: .*/,
    (a, b, name) =>
      `kein verlässlicher Angriffspunkt zwischen ${a} und ${b} m vom Ziel (${name}): der letzte Abschnitt wird lang, oder ergänzen, was dort bekannt ist`,
  ],
  [
    /^no line within (\d+) m of (.+) to aim off to or to stop an overrun$/,
    (m, name) =>
      `keine Linie innerhalb ${m} m vom Ziel (${name}), um versetzt anzulaufen oder aufgefangen zu werden`,
  ],
  [
    /^hazards not assessed: .*/,
    () => 'Gefahren nicht beurteilt: die Karte zeigt weder Felswände noch Steilgelände',
  ],
  [
    /^the (start|target) lies within (\d+) m of a mapped drop or steep ground$/,
    (end, m) =>
      `${end === 'start' ? 'der Start' : 'das Ziel'} liegt innerhalb ${m} m von einem verzeichneten Abbruch oder Steilgelände`,
  ],
  [
    /^start or target lies (\d+) m from the edge of the elevation: .*/,
    (m) => `Start oder Ziel liegt ${m} m vom Rand der Höhen: Umwege außerhalb sind unbekannt`,
  ],
  [
    /^(\d+) m as the crow flies cannot be walked in (\S+) minutes$/,
    (m, min) => `${m} m Luftlinie sind in ${min} Minuten nicht zu gehen`,
  ],
  [
    /^no date: only grid bearings .*/,
    () => 'kein Datum: nur Richtungen ab Gitternord, und nichts zum Tageslicht',
  ],
  [
    /^(\S+) hours of daylight on (\S+): .*/,
    (h, date) =>
      `${h} Stunden Tageslicht am ${dateText(date, 'de')}: wenig Spielraum für einen späten Aufbruch`,
  ],
];

function kinds(told: string): string {
  return told.replace(
    /(^|\), )([^()]+) \(/g,
    (_, before, name) => `${before}${KINDS.get(name) ?? germanGiven(name)} (`,
  );
}

function moved(by: string): string {
  return by
    .replaceAll(' and ', ' und ')
    .replaceAll('east', 'nach Osten')
    .replaceAll('west', 'nach Westen')
    .replaceAll('north', 'nach Norden')
    .replaceAll('south', 'nach Süden');
}

/** A finding's sentence in German, or a message about wrong input, which has its form elsewhere. */
export function germanFinding(says: string): string {
  for (const [english, german] of FORMS) {
    const hit = english.exec(says);
    if (hit !== null) return german(...hit.slice(1).map(part));
  }
  return germanMessage(says);
}
