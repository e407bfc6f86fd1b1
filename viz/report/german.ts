import { dateText } from '../../src/door/dates.ts';
import { measuresOf } from '../../src/door/measures.ts';
import type { Reading } from '../../src/door/reading.ts';
import { GERMAN_NOUNS } from '../../src/features/german-kinds.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { GERMAN_GROUNDS, GERMAN_SKILLS } from '../../src/report/german.ts';
import { TOLD_WORDS } from '../../src/report/told-words.ts';
import { germanFigures } from '../theme/german.ts';
import { germanKind } from '../theme/german-kinds.ts';
import { thousands } from '../theme/words.ts';
import type { ReportWords } from './words.ts';

/*
 * Terms of German map and mountain training, from memory, no source: Marschzahl, Leitlinie, Auffanglinie, Doppelschritte; Missweisung is magnetic
 * north from true north, Meridiankonvergenz grid north from true north, Nadelabweichung magnetic north from grid north.
 */

const SIDES = { left: 'links', right: 'rechts' } as const;

const plural = (kind: FeatureKind) => GERMAN_NOUNS[kind].plural;

function listed(names: readonly string[]): string {
  return names.length < 2
    ? (names[0] ?? '')
    : `${names.slice(0, -1).join(', ')} und ${names[names.length - 1]}`;
}

/** "83 von 100", "weniger als 1 von 100". */
function germanOfHundred(share: number): string {
  if (share > 0 && share < 0.005) return 'weniger als 1 von 100';
  if (share < 1 && share > 0.995) return 'mehr als 99 von 100';
  return `${Math.round(share * 100)} von 100`;
}

export function germanPages(reading: Reading): ReportWords {
  const m = measuresOf(reading);
  const imperial = reading.units === 'imperial';
  const mils = reading.bearings === 'mils' ? ', Strich' : '';
  const date = (iso: string) => dateText(iso, 'de');
  return {
    reading,
    measures: m,
    told: TOLD_WORDS.de,
    figures: germanFigures(reading),
    date,
    ofHundred: germanOfHundred,
    afterCount: ' von 100',
    listed,
    kind: germanKind,
    kindPlural: plural,
    route: (letter, name) => `Route ${letter}, ${name}`,
    invented: ', erfundenes Gelände',
    light: 'Tag- und Nachtfarben tauschen',
    modelled: 'Modellrechnung, keine Beobachtung.',
    heights: (cell) =>
      `Höhen alle ${m.cell(cell)}: Geländeformen unter ${m.cell(2 * cell)} bleiben unsichtbar.`,
    hazardsNot: 'Gefahren nicht beurteilt.',
    asTable: 'Als Tabelle',
    notAssessed: 'nicht beurteilt',

    given: {
      strong: (skill, c) => [
        GERMAN_SKILLS[skill],
        GERMAN_GROUNDS[c.ground].replace('Boden ', ''),
        c.light === 'dark' ? 'Dunkelheit' : 'Tag',
      ],
      party: (skill, people) =>
        people === 1 ? `eine ${GERMAN_SKILLS[skill]} Person` : `${GERMAN_SKILLS[skill]} Gruppe von ${people}`,
      clear: (below) => `Sicht ${m.long(below)}`,
      cloud: (base, above) => `Wolkenuntergrenze ${m.height(base)}, darin ${m.long(above)} Sicht`,
      ground: (ground) => GERMAN_GROUNDS[ground],
      light: (light) => (light === 'dark' ? 'bei Dunkelheit' : 'bei Tag'),
      trials: (trials) => `${thousands(trials)} Versuche je Route`,
      modelled: 'Modellrechnung, keine Beobachtung',
    },

    map: {
      heading: 'Karte',
      layers: 'Ebenen der Karte',
      routes: 'Routen',
      routesNote: 'S Start, T Ziel; ein voller Buchstabe ist eine ungeschlagene Route',
      ends: 'Endpunkte',
      found: 'gefunden',
      notFound: 'nicht gefunden',
      endsNote: (ends, trials) => `${ends} von ${thousands(trials)} Versuchen je Route`,
      features: 'Kartenobjekte',
      names: 'Namen',
      ground: 'Bewuchs und Gewässer',
      contours: (interval) => `Höhenlinien alle ${m.height(interval)}`,
      relief: 'Schummerung',
      unassessed: 'Gefahren nicht beurteilt: Wo nichts schraffiert ist, kann dennoch Gefahr sein.',
      hatched: 'Schraffiert: steiles oder gesperrtes Gelände in den Daten.',
      sure: 'in 90 von 100 Fällen oder mehr vorhanden',
      likely: '60 bis 90',
      doubtful: 'unter 60',
      table: 'Kartenobjekte und wie verlässlich sie sind, als Tabelle',
      caption: 'Kartenobjekte',
      heads: ['Objekt', 'Art', 'vorhanden, von 100', `Lage, ± ${m.unit.short}`],
    },

    routes: {
      label: 'Routen',
      drawn: ' · gezeichnet',
      // Hm, Höhenmeter: the trade's unit of climb
      up: (far, climb) => `${far}, ${imperial ? `${climb} Anstieg` : climb.replace(' m', ' Hm')}`,
      hazardsNot: 'Gefahren nicht beurteilt',
      hazard: (count) => `in eine Gefahrenstelle geraten ${count}`,
      beside: (wrong, lost, hazard) => `falsche Funde ${wrong}, verirrt ${lost}, ${hazard}`,
    },

    foundBy: {
      heading: 'Bis wann gefunden',
      note: 'Wie viele von 100 Gruppen das Ziel in so vielen Minuten gefunden haben. Eine Kurve, die früh abflacht, bleibt dort: Mehr Zeit würde jenen Gruppen nicht helfen.',
      caption: 'Gefunden in so vielen Minuten, von 100',
      minutes: 'Minuten',
    },

    timeSuccess: {
      heading: 'Zeit und Erfolg',
      sampling: 'Dicker Balken: Zufall der Stichprobe. ',
      varied: 'Dünner Balken: Können und Vertrauen in die Karte verändert. ',
      notVaried: 'Annahmen nicht verändert. ',
      note: 'Voller Buchstabe: ungeschlagen, keine andere Route ist zugleich schneller und verlässlicher. Zeiten gelten für alle Versuche, auch gescheiterte, ohne Rasten.',
      caption: 'Zeit und Erfolg',
      heads: [
        'Route',
        'schnellstes Zehntel, min',
        'Mitte, min',
        'langsamstes Zehntel, min',
        'gefunden, von 100',
        'Stichprobe',
        'Annahmen',
        'ungeschlagen',
        'in eine Gefahrenstelle geraten, von 100',
      ],
      fixed: 'nicht verändert',
      yes: 'ja',
    },

    outcomes: {
      heading: 'Von 100 solchen Gruppen',
      caption: 'Wie Versuche endeten, von 100',
      outcome: 'Ausgang',
    },

    ends: {
      heading: 'Endpunkte',
      note: (radius) =>
        `Das Gelände um das Ziel. Volle Punkte fanden es, offene nicht; der Ring ist die Entfernung, auf die es gefunden wird, ${m.short(radius)}.`,
      caption: 'Gezeichnete Endpunkte und ihre Entfernung vom Ziel',
      heads: [
        'Route',
        'gezeichnet',
        `die Hälfte innerhalb, ${m.unit.short}`,
        `neun Zehntel innerhalb, ${m.unit.short}`,
      ],
      of: (drawn, trials) => `${drawn} von ${thousands(trials)}`,
    },

    legs: {
      heading: 'Wo Gruppen von der Linie abkommen',
      note: 'Alle Streifen haben denselben Maßstab für Strecke und Höhe. Jedes schwarze Quadrat ist eine von 100 Gruppen, die das Ziel nicht fand und auf diesem Abschnitt von der Linie abkam.',
      caption: (letter, name) => `Abschnitte der Route ${letter}, ${name}`,
      leg: 'Abschnitt',
      what: 'was zu tun ist',
      grid: `Gitter${mils}`,
      magnetic: `magnetisch${mils}`,
      metres: imperial ? 'Yard' : 'Meter',
      climb: imperial ? 'Anstieg, ft' : 'Hm',
      doublePaces: 'Doppel\u00adschritte',
      minutes: 'min',
      left: 'hier abge\u00adkommen, von 100',
      fromTo: (from, to) => `${from} → ${to}`,
      meets: (ticks) =>
        ` · unterwegs ${ticks.map((t) => `${t.name} bei ${m.short(t.atMetres).replace(' ', '\u00a0')}`).join(', ')}`,
      none: 'Kein Versuch scheiterte auf einem Abschnitt.',
      onlyLeg: (count, why) =>
        `Auf dem einzigen Abschnitt kommen ${count} von der Linie ab${why === null ? '' : `, vor allem: ${why}`}.`,
      worstLeg: (leg, count, why) =>
        `Die meisten kommen auf Abschnitt ${leg} von der Linie ab, ${count}${why === null ? '' : `, vor allem: ${why}`}.`,
    },

    helps: {
      heading: 'Was helfen würde',
      changes: (looked) =>
        `Eines anders gemacht, alles Übrige gleich, von denselben Gruppen an denselben Tagen gegangen. ${looked} Änderungen wurden angesehen; aufgeführt sind jene, die über den Zufall hinaus helfen, mit der Spanne des Unterschieds.`,
      caption: 'Eine Änderung, die hilft',
      heads: ['Route', 'Änderung', 'Funde von 100', 'mittlere Minuten'],
      none: (letter, looked) =>
        `${letter}: Keine der ${looked} angesehenen Änderungen hilft über den Zufall hinaus.`,
      leans: 'Funde von 100, wo etwas Zweifelhaftes vorhanden ist und wo es fehlt',
      leansHeads: [
        'Route',
        'stützt sich auf',
        'vorhanden an Tagen von 100',
        'wo es vorhanden ist',
        'wo es fehlt',
      ],
      check: (name, there, gone, unknowing, gain, interval) =>
        `Vorher einen Blick oder einen Anruf wert: ${name}. Ist es vorhanden, ${there} nehmen, sonst ${gone}; ohne es zu wissen findet ${unknowing} am meisten. Wer nach der Antwort wählt, findet etwa ${gain} mehr von 100 (${interval}).`,
      noCheck:
        'Vorher zu wissen, ob eines davon vorhanden ist, würde die Wahl der Route nicht ändern, soweit diese Versuche es zeigen.',
      alike: (letter, alike) => `Die Suche schlägt für ${letter} auch vor: ${alike.join('; ')}.`,
      to: (low, high) => `${low} bis ${high}`,
    },

    walks: {
      heading: 'Einzelne Versuche',
      note: 'Der erste Versuch, der das Ziel findet, und der erste, der es nicht findet, auf den Routen, auf denen die meisten Gruppen es finden. Ein Versuch beweist nichts; er zeigt, wie ein solcher Tag verläuft.',
      label: (letter) => `Versuche auf Route ${letter}`,
      show: (n) => `${n} Versuche zeigen`,
      title: (trial, outcome, time) => `Versuch ${thousands(trial)}: ${outcome}, ${time}`,
      key: 'Volle Linie: die wahre Spur. Gestrichelt: wo die Gruppe zu sein glaubte. Dünne Linie: der Plan. Volle Punkte sind wahre Orte, offene vermutete, nummeriert wie in der Tabelle.',
      caption: (trial, letter) => `Was in Versuch ${thousands(trial)} auf Route ${letter} geschah`,
      heads: [
        'Nr.',
        'min',
        'Abschn.',
        'was geschah',
        `neben dem vermuteten Ort, ${m.unit.short}`,
        `vermutete Genauigkeit, ${m.unit.short}`,
      ],
      stepper: {
        back: 'zurück',
        on: 'weiter',
        all: 'alle',
        every: 'alle {n}',
        now: `{k} von {n}: {min} min, {what}, {off} ${m.unit.short} neben dem vermuteten Ort`,
      },
    },

    basis: {
      assumptions: 'Annahmen',
      note: 'Jede Zahl oben beruht auf diesen Annahmen. Übliche Praxis ist, womit Ausbildende rechnen und was niemand veröffentlicht hat: in der Aufgabe ändern, wo Sie es besser wissen.',
      caption: 'Annahmen und ihre Herkunft',
      heads: ['Annahme', 'Wert', 'Herkunft', 'Quelle'],
      marks: {
        published: 'veröffentlicht',
        'common practice': 'übliche Praxis',
        derived: 'abgeleitet',
        'given in the task': 'in der Aufgabe gegeben',
      },
      practice: /;?\s*übliche Praxis, ohne veröffentlichte Quelle/,
      cautions: 'Hinweise',
      data: 'Grenzen der Daten',
      source: (source, cell, crs) =>
        `Höhen: ${source}, eine alle ${m.number(cell)} m, ${crs}. Was kleiner ist als ${m.cell(2 * cell)}, ist nicht darin.`,
      lacking: (kinds) =>
        `Arten, die den Daten fehlen: ${listed(kinds.map(plural))}. Was in den Daten fehlt, kann dennoch da sein.`,
      noHazards: (kinds) => `Hier nicht verzeichnet: ${listed(kinds.map(plural))}; Gefahren nicht beurteilt.`,
      noMapDate: 'Die Karte trägt kein Datum.',
      mapDate: (iso) => `Karte vom ${date(iso)}.`,
      noNorths: 'Kein Datum in der Aufgabe, daher nur Richtungen ab Gitternord.',
      norths: (iso, model) => `Magnetische Richtungen für den ${date(iso)} nach ${model}.`,
      closing: (generator, seed, trials) =>
        `${generator}, Startwert ${seed}, ${thousands(trials)} Versuche je Route. Dieselbe Aufgabe und derselbe Startwert ergeben dieselben Zahlen.`,
    },

    places: {
      noDate: 'Richtungen gelten ab Gitternord; die Aufgabe hat kein Datum, daher keine ab magnetisch Nord.',
      same: 'keine Nadelabweichung: Gitternord und magnetisch Nord stimmen auf ein halbes Grad überein',
      turn: (add, turn) =>
        `Nadelabweichung: von Gitter zu magnetisch ${turn} ${add ? 'zuzählen' : 'abziehen'}`,
      norths: (rule, model, iso, grid, magnetic) =>
        `${rule} (${model}, ${date(iso)}; Meridiankonvergenz ${grid}, Missweisung ${magnetic}).`,
      eastWest: (degrees) =>
        `${Math.abs(degrees).toFixed(1).replace('.', ',')}° ${degrees < 0 ? 'westlich' : 'östlich'}`,
    },

    card: {
      title: (letter, target) => `Route ${letter}, Ziel ${target}`,
      whole: (far, climb, found, wrong, lost, middle) =>
        `${far}, ${climb} Anstieg. Gefunden von etwa ${found} solchen Gruppen, falsche Funde ${wrong}, verirrt ${lost}; die Hälfte aller Versuche endet innerhalb von ${middle}. Modellrechnung, keine Beobachtung.`,
      doublePaces: (n) => `${m.paces(n).count} Doppelschritte auf ${m.paces(n).to}.`,
      leg: (i, n) => `Abschnitt ${i} von ${n}`,
      from: (place) => `ab: ${place}`,
      magnetic: `magnetisch${mils}`,
      towardsMagnetic: `Richtung magn.${mils}`,
      grid: `Gitter${mils}`,
      towardsGrid: `Richtung Gitter${mils}`,
      metres: imperial ? 'Yard' : 'Meter',
      pacesHead: 'Doppelschritte',
      climb: 'Anstieg',
      minutes: 'Minuten',
      stopBy: 'spätestens, ab Start',
      aimOff: 'versetzt',
      aim: (metres, side) =>
        `${m.short(metres)} ${SIDES[side]}: an der Linie nach ${side === 'left' ? 'rechts' : 'links'}`,
      tickOff: 'abhaken',
      tick: (name, metres) => `${name} bei ${m.short(metres)}`,
      tooFar: 'zu weit',
      beyond: (name, metres) => `${name}, ${m.short(metres)} dahinter`,
      hazard: 'Gefahr',
      noHazard: `keine innerhalb ${m.short(50)} in den Daten`,
      hazardSide: (side) => (side === 'both sides' ? 'auf beiden Seiten' : SIDES[side]),
      notThere: 'sonst',
      stop: (place) => `anhalten, zurück: ${place}`,
      notFound: 'Wenn das Ziel nicht gefunden wird',
      search: (minutes, abreast) =>
        `Bis zu ${minutes} Minuten suchen${abreast > 1 ? `, ${abreast} nebeneinander` : ''}, in Sicht- und Rufweite voneinander.`,
      thenBack: (place, more) =>
        `Dann zurück zum letzten bekannten Punkt (${place})${more > 0 ? ` und ${more === 1 ? 'noch einmal' : `noch ${more} Mal`} versuchen` : ''}.`,
      turnRound: (minutes) => `${minutes} Minuten nach dem Aufbruch umkehren, gefunden oder nicht.`,
      wayOut: 'Rückzug',
      entered: (hazard, trials) =>
        `(${thousands(hazard)} von ${thousands(trials)} simulierten Gruppen gerieten in eine Gefahrenstelle)`,
      noWayOut: (start) => `Keiner gefunden: auf demselben Weg zurück zum Start (${start}).`,
      ifLost: 'Wenn die Gruppe sich verirrt hat',
      lost: 'Anhalten, Schutz suchen, nachdenken; den örtlichen Notruf wählen. Die Gruppe nie außer Sicht- und Rufweite teilen.',
      smallPrint:
        'Zum Lernen und Planen: Gelände, Wetter und die ausgebildete Leitung entscheiden. „Spätestens“ ist das langsamste Zehntel der Versuche oder die Umkehrzeit.',
      screens: 'Seiten',
      back: 'zurück',
      on: 'weiter',
    },

    print: {
      title: (task, scale) => `${task}, Karte 1:${scale}`,
      sheet: (task, i, n) => `${task}, Blatt ${i} von ${n}`,
      foot: (scale, bar) => `1:${scale}, wenn der Balken ${m.onPaper(bar)} misst; Gitternord oben.`,
      contours: (interval) => `Höhenlinien alle ${m.height(interval)}.`,
      doubt:
        'Durchgezogen: in 90 von 100 Fällen oder mehr vorhanden, gestrichelt: ab 60, gepunktet: darunter.',
      unassessed: 'Gefahren nicht beurteilt: Was fehlt, kann dennoch da sein.',
      hatched: 'Schraffiert: steiles oder gesperrtes Gelände in den Daten.',
    },

    task: {
      title: (task) => `${task}, Aufgabe`,
      start: 'Start',
      target: 'Ziel',
      allowed: 'erlaubt',
      limits: (minutes, search) =>
        `${minutes === null ? 'keine Zeitgrenze' : `${minutes} Minuten`}, ${search} Minuten Suche`,
      norths: 'Norden',
      myRoute: 'Meine Route',
      caption: 'Eine Zeile je Abschnitt',
      heads: [
        '',
        'Technik',
        'bis',
        'Richtung',
        imperial ? 'Yard' : 'Meter',
        'Doppelschritte',
        'Minuten',
        'woran ich merke, dass ich dort bin',
        'zu weit, wenn',
      ],
      confidence: 'Von 100 Gruppen wie meiner finden es so',
      notFound: 'Wenn ich es nicht finde',
      name: 'Name',
    },
  };
}
