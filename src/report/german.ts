import { measuresOf } from '../door/measures.ts';
import type { Reading } from '../door/reading.ts';
import { GERMAN_NOUNS } from '../features/german-kinds.ts';
import { germanAt, germanLabel, isProper } from '../features/german-names.ts';
import { germanWarning } from '../speed/german.ts';
import { germanNote } from '../terrain/german-notes.ts';
import { GERMAN_CAUTIONS } from './cautions.ts';
import type { Judged, ReportSentences } from './words.ts';

/* Terms from memory, as German hill and rescue training uses them; no source. */

export const GERMAN_GROUNDS = {
  dry: 'Boden trocken',
  normal: 'Boden normal',
  wet: 'Boden nass',
  saturated: 'Boden wassergesättigt',
  spate: 'Bäche im Hochwasser',
} as const;
export const GERMAN_SKILLS = {
  novice: 'unerfahrene',
  competent: 'geübte',
  expert: 'sehr erfahrene',
} as const;

const DOUBTS: Readonly<Record<string, string>> = {
  exists: 'vorhanden',
  positionMetres: 'Lage ± m',
  rangeMetres: 'Sichtweite m',
  sweepWidthMetres: 'Suchstreifenbreite m',
  contrast: 'Kontrast',
  visibility: 'Auffälligkeit',
  alike: 'Verwechslung',
  extraPerGap: 'weitere je Lücke',
  lastSeen: 'zuletzt gesehen',
  head: 'Bachanfang',
};

export function germanReport(reading: Reading): ReportSentences {
  const figures = measuresOf(reading);
  const counted = (route: Judged) => `etwa ${route.count} von 100`;
  const quoted = (route: Judged) => `„${route.name}“`;
  return {
    sentence: ({ start, target, conditions, party, limits }) => {
      const { below, above, cloudBase } = conditions.visibility;
      const base =
        reading.units === 'metric' ? `${figures.number(cloudBase ?? 0)} m` : figures.height(cloudBase ?? 0);
      const air =
        cloudBase === null || below === above
          ? `Sicht ${figures.far(below)}`
          : `Wolken auf ${base} (darin ${figures.far(above)} Sicht, darunter ${figures.far(below)})`;
      const speed = conditions.wind.metresPerSecond;
      const wind = speed >= 5 ? `, Wind ${figures.wind(speed)}` : '';
      const light = conditions.light === 'dark' ? ', bei Dunkelheit' : '';
      const skill = GERMAN_SKILLS[party.skill];
      const people = party.people === 1 ? `eine ${skill} Person` : `eine ${skill} Gruppe von ${party.people}`;
      const compass = party.compass ? '' : ' ohne Kompass';
      const time = limits.minutes === null ? '' : `, ${limits.minutes} Minuten Zeit`;
      const search =
        limits.searchMinutes > 0
          ? `, ${limits.searchMinutes} Minuten Suche und ${times(limits.relaunches)}`
          : ', keine Suche';
      const from = start === null ? 'Vom Start' : germanAt('von', start).replace(/^v/, 'V');
      const to = isProper(target) ? `nach ${germanLabel(target)}` : germanAt('zu', target);
      return `${from} ${to}: ${air}, ${GERMAN_GROUNDS[conditions.ground]}${wind}${light}; ${people}${compass}${time}${search}.`;
    },
    verdict: {
      none: 'Keine Route wurde gezeichnet und keine gefunden.',
      surest: (c) =>
        `Auf ${c.letter}, ${quoted(c)}, finden ${counted(c)} solchen Gruppen das Ziel, unter diesen Annahmen; die Hälfte aller Versuche endet innerhalb von ${c.minutes} Minuten.`,
      quickest: (c, saved, clear) => {
        const how = saved >= 1 ? `endet etwa ${saved} Minuten früher` : 'dauert etwa ebenso lang';
        return clear
          ? `${c.letter}, ${quoted(c)}, ${how}; auf ihr finden ${counted(c)} das Ziel.`
          : `${c.letter}, ${quoted(c)}, ${how}, ohne klaren Unterschied im Erfolg (${counted(c)}): nach den Folgen wählen.`;
      },
      between: (routes) =>
        `Dazwischen, in beidem zugleich ungeschlagen: ${routes.map((c) => `${c.letter} (${counted(c)}, ${c.minutes} min)`).join(', ')}.`,
      wrong: (letter, count) => `Auf ${letter} halten etwa ${count} von 100 etwas Falsches für das Ziel.`,
      lost: (letter, count) => `Auf ${letter} verirren sich etwa ${count} von 100.`,
      hazard: (counts) =>
        `So viele von 100 geraten zu nahe an einen verzeichneten Abbruch oder in zu steiles Gelände: ${counts.map((c) => `${c.letter} ${c.count}`).join(', ')}.`,
      notAssessed: 'Gefahren sind nicht beurteilt: Die Daten verzeichnen hier keine.',
    },
    limits: (unseen, hazardsMapped, lacking) => {
      const hazards = hazardsMapped
        ? ''
        : '; weder Felswände noch Steilgelände verzeichnet, Gefahren daher nicht beurteilt';
      const kinds =
        lacking === 0 ? '' : `; den Daten fehlen ${lacking} Arten von Kartenobjekten, unten aufgeführt`;
      return `Daten: Geländeformen unter ${figures.cell(unseen)} bleiben unsichtbar${hazards}${kinds}.`;
    },
    notes: {
      ofTerrain: germanNote,
      relief: (unseen, cell) =>
        `Geländeformen unter etwa ${figures.cell(unseen)} zeigen die Zellen von ${figures.cell(cell)} nicht.`,
      always: [
        'Spanne der Annahmen: Fehler der Gruppe × 0,7 bis 1,4, Zweifel an Kartenobjekten × 0,5 bis 2 und Sicht × 0,8 bis 1,25, in neun Einstellungen zu 200 Versuchen.',
        'Gefundene Routen werden mit eigenen Versuchen ausgewählt, die hier nicht mitzählen. Eine Änderung, die hilft, ist an den gezählten Versuchen ihrer Route bestätigt, Tag für Tag.',
        'Gründe sind die der ersten gescheiterten Versuche, noch einmal gegangen, wobei je eine Art von Fehlern wegbleibt.',
      ],
      smallTarget: (metres) =>
        `Das Ziel zeigt sich auf ${figures.short(metres)}, weniger als eine Zelle: Das Gelände darum ist glatter gezeichnet, als es ist.`,
      noHazards: 'Weder Felswände noch Steilgelände sind hier verzeichnet: Gefahren sind nicht beurteilt.',
      lacking: (kinds) =>
        `Die Daten enthalten nichts von: ${kinds.map((k) => GERMAN_NOUNS[k].plural).join(', ')}.`,
      invented: 'Das Gelände ist erfunden.',
      noDate: 'Kein Datum gegeben: Richtungen gelten nur ab Gitternord.',
    },
    assumptions: {
      speed: 'Gehtempo',
      sourced: (model) => `${model.source}. ${germanWarning(model)}`,
      detection: 'Entdecken',
      definite: 'gesehen innerhalb der halben Suchstreifenbreite',
      lateral: 'Kurve der seitlichen Entdeckung',
      detectionSource: 'Koester et al. 2014, Suchstreifenbreite aus der Entdeckungsweite',
      climb: 'Anstieg',
      climbValue: `Höhen entlang des Plans, Auf und Ab unter ${figures.height(5)} weggelassen`,
      practice: 'übliche Praxis, ohne veröffentlichte Quelle',
      theTask: 'die Aufgabe',
      doubt: (key) => DOUBTS[key] ?? key,
    },
    cautions: GERMAN_CAUTIONS,
    wayOut: (start, metres, minutes, legs) => {
      const whole = `${figures.about(metres)}, etwa ${minutes} min`;
      const to = start === null ? 'zum Start' : germanAt('zu', start);
      return `Zurück ${to}, ${whole}: ${legs.join('; dann ')}.`;
    },
  };
}

function times(n: number): string {
  return n === 0 ? 'kein zweiter Anlauf' : n === 1 ? 'ein zweiter Anlauf' : `${n} weitere Anläufe`;
}
