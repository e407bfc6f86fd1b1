import { measuresOf } from '../door/measures.ts';
import type { Reading } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import { germanAt, germanLabel, germanName, isProper } from '../features/german-names.ts';
import type { EndPlace, RouteWords, Side, WayAlong } from './words.ts';

/*
 * The terms are those of German mountain and map training, from memory, no source: Marschzahl (bearing to march on), Leitlinie (handrail),
 * Auffanglinie (catching feature), Angriffspunkt (attack point), Doppelschritte (double paces), bewusst versetzt (aiming off).
 */

const COMPASS = ['Norden', 'Nordosten', 'Osten', 'Südosten', 'Süden', 'Südwesten', 'Westen', 'Nordwesten'];

const REASONS: Readonly<Record<string, string>> = {
  ground: 'weil das Gelände nicht der Karte entspricht',
  'party-day': 'durch den Tagesfehler der Gruppe bei Richtung oder Schrittmaß',
  leg: 'durch die dort eingestellte Richtung oder die Schrittzählung',
  step: 'durch Abweichen unterwegs',
  seeing: 'weil ungesehen daran vorbeigegangen wird',
  several: 'durch mehrere Fehler zusammen',
};

const SIDES: Readonly<Record<Side, string>> = { left: 'links', right: 'rechts' };

/** "a", "a und b", "a, b und c". */
function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} und ${words[words.length - 1]}`;
}

const nominative = (line: Feature | undefined) => (line ? germanName(line, 'nominative') : 'die Linie');
const accusative = (line: Feature | undefined) => (line ? germanName(line, 'accusative') : 'die Linie');
const dative = (line: Feature | undefined) => (line ? germanName(line, 'dative') : 'der Linie');
const at = (line: Feature | undefined) => (line ? germanAt('an', line) : 'an der Linie');

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function germanRoute(reading: Reading): RouteWords {
  const figures = measuresOf(reading);
  const { about, short } = figures;
  /** By itself, as a label. */
  const place = (p: EndPlace): string => {
    switch (p.is) {
      case 'feature':
        return germanLabel(p.feature);
      case 'beside':
        return `${p.line ? germanLabel(p.line) : 'Linie'}, ${about(p.metres)} ${SIDES[p.side]} der gesuchten Stelle`;
      case 'on line':
        return `Stelle ${at(p.line)}`;
      case 'open':
        return 'Punkt im Gelände';
      case 'start':
        return 'Start';
      case 'target':
        return 'Ziel';
    }
  };
  const until = (p: EndPlace): string => {
    switch (p.is) {
      case 'feature':
        return `bis ${isProper(p.feature) ? germanLabel(p.feature) : germanAt('zu', p.feature)}`;
      case 'beside':
        return `bis an ${accusative(p.line)}, ${about(p.metres)} ${SIDES[p.side]} der gesuchten Stelle`;
      case 'on line':
        return `bis zu einer Stelle ${at(p.line)}`;
      case 'open':
        return 'bis zu einem Punkt im Gelände';
      case 'start':
        return 'bis zum Start';
      case 'target':
        return 'bis zum Ziel';
    }
  };
  /** As the object of "auf". */
  const object = (p: EndPlace): string => {
    switch (p.is) {
      case 'feature':
        return germanName(p.feature, 'accusative');
      case 'beside':
        return `${accusative(p.line)}, ${about(p.metres)} ${SIDES[p.side]} der gesuchten Stelle`;
      case 'on line':
        return `eine Stelle ${at(p.line)}`;
      case 'open':
        return 'einen Punkt im Gelände';
      case 'start':
        return 'den Start';
      case 'target':
        return 'das Ziel';
    }
  };
  const way = (w: WayAlong): string => {
    if (w === null) return '';
    return w === 'down' ? 'bachabwärts' : w === 'up' ? 'bachaufwärts' : `nach ${COMPASS[w.eighth]!}`;
  };
  return {
    feature: germanLabel,
    ownName: (f) => (f.name === undefined ? null : germanLabel(f)),
    place,
    listed,
    joined: (parts) => parts.join(', dann '),
    leg: (l) => {
      const metres = about(l.metres);
      const bearing = figures.bearingSaid(l.bearingDegrees);
      const end = until(l.end);
      const main = (): string => {
        switch (l.technique) {
          case 'handrail':
            return `${[capital(dative(l.line)), way(l.way), 'folgen'].filter((w) => w !== '').join(' ')}, ${metres} ${end}`;
          case 'bearing':
            return `Nach Marschzahl ${bearing} gehen, ${metres}, etwa ${l.doublePaces} Doppelschritte, ${end}`;
          case 'timing':
            return `Nach Marschzahl ${bearing} etwa ${Math.round(l.minutes)} Minuten gehen (${metres}) ${end}`;
          case 'aim-off': {
            const turn = l.side === 'left' ? 'right' : 'left';
            return `Nach Marschzahl ${bearing} gehen, ${metres} bis an ${accusative(l.line)}, dabei bewusst ${about(l.offsetMetres)} nach ${SIDES[l.side]} versetzt: an der Linie dann nach ${SIDES[turn]}`;
          }
          case 'contour':
            return `Den Hang auf gleicher Höhe queren, ${metres}, anfangs nach ${COMPASS[l.eighth]!}, ${end}`;
          case 'sight':
            return `Auf Sicht gehen, ${metres} nach ${COMPASS[l.eighth]!}, ${end}`;
          case 'box':
            return `Das Hindernis im Rechteck umgehen: ${about(l.offsetMetres)} nach ${SIDES[l.side]} hinaus, ${about(l.straightMetres)} daran entlang, ebenso weit zurück, ${end}`;
        }
      };
      const ticks = l.ticks.map((t) => `${t.feature ? germanLabel(t.feature) : t.id} bei ${about(t.metres)}`);
      const tickText = ticks.length === 0 ? '' : `; unterwegs abhaken: ${listed(ticks)}`;
      const catchText =
        l.catching === null
          ? ''
          : `; Auffanglinie: ${nominative(l.catching.line)}, ${about(l.catching.beyondMetres)} dahinter, wer dort steht, ist zu weit`;
      return `${main()}${tickText}${catchText}.`;
    },
    far: ({ lines, open, how, end }) => {
      if (lines.length === 0) {
        const by =
          how === 'sight'
            ? 'auf Sicht'
            : how === 'slope'
              ? 'auf gleicher Höhe am Hang entlang'
              : 'über freies Gelände';
        return `${by} ${until(end)}`;
      }
      const names = lines.map(accusative);
      const by = names.length > 3 ? `${names[0]}, ${names[1]} und weitere Linien` : listed(names);
      return `über ${by}${open ? ' und freies Gelände' : ''} ${until(end)}`;
    },
    near: (part) => {
      const metres = about(part.metres);
      const end = until(part.end);
      switch (part.technique) {
        case 'handrail': {
          const water = part.way === 'down' || part.way === 'up' ? `${way(part.way)} ` : '';
          return `${water}${part.same ? 'daran' : at(part.line)} entlang ${end}`;
        }
        case 'aim-off':
          return `bewusst nach ${SIDES[part.side]} versetzt an ${accusative(part.line)}`;
        case 'bearing':
          return `${metres} nach Marschzahl ${end}`;
        case 'timing':
          return `${metres} nach der Uhr ${end}`;
        case 'contour':
          return `${metres} auf gleicher Höhe am Hang entlang ${end}`;
        case 'sight':
          return `auf Sicht ${end}`;
        case 'box':
          return `im Rechteck um das Hindernis ${end}`;
      }
    },
    relies: ({ things, alongPercent, metres, bySight }) => {
      if (things.length === 0) {
        return bySight
          ? 'Stützt sich darauf, das Ziel die ganze Zeit zu sehen'
          : `Verlässt sich ${about(metres)} weit allein auf Kompass und Doppelschritte`;
      }
      const names = things.map((t) =>
        'is' in t
          ? t.is === 'meeting'
            ? `das Auftreffen auf ${germanName(t.line, 'accusative')} von der bekannten Seite`
            : object(t)
          : germanName(t, 'accusative'),
      );
      const share = alongPercent === null ? '' : `, ${alongPercent} % davon an Leitlinien entlang`;
      return `Stützt sich auf ${listed([...new Set(names)].slice(0, 3))}${share}`;
    },
    risks: ({ last, metres, end, count, reason }) => {
      const where = last ? `die letzten ${about(metres)}` : `die ${about(metres)} ${until(end)}`;
      const why = reason === undefined ? '' : `, meist ${REASONS[reason] ?? reason}`;
      return `heikel sind ${where}: Dort scheitern etwa ${count} von 100 solchen Gruppen${why}`;
    },
    late: (count) => `etwa ${count} von 100 kommen zu spät`,
    wrong: (count) => `etwa ${count} von 100 halten etwas Falsches dafür`,
    noRisk: 'kein einzelner Abschnitt kostet mehr als 2 von 100 solchen Gruppen das Ziel',
    routeName: ({ line, from, straight, more }) => {
      const base = [
        line ? `über ${germanName(line, 'accusative')}` : '',
        from ? `ab ${isProper(from) ? germanLabel(from) : germanName(from, 'dative')}` : '',
      ]
        .filter((part) => part !== '')
        .join(', ');
      const plain = base === '' ? STRAIGHT[straight] : base;
      switch (more?.is) {
        case undefined:
          return plain;
        case 'aim':
          return `${plain}, nach ${SIDES[more.side]} versetzt`;
        case 'with':
          return `${plain}, mit ${germanName(more.feature, 'dative')}`;
        case 'past':
          return `${plain}, vorbei ${germanAt('an', more.feature)}`;
        case 'backstop':
          return `${plain}, mit Auffanglinie`;
        case 'open':
          return `${plain}, ${more.legs === 0 ? 'ganz an Leitlinien entlang' : `${more.legs} ${more.legs === 1 ? 'Abschnitt' : 'Abschnitte'} in freiem Gelände`}`;
      }
    },
    differs: ({ aim, from, catching, last }) =>
      listed([
        ...(aim ? [`${short(aim.metres)} nach ${SIDES[aim.side]} versetzt`] : []),
        ...(from ? [`ab ${germanName(from, 'dative')}`] : []),
        ...(catching === undefined ? [] : [catching ? 'mit Auffanglinie' : 'ohne Auffanglinie']),
        ...(last === undefined
          ? []
          : [
              last === 'timing'
                ? 'der letzte Abschnitt nach der Uhr'
                : last === 'sight'
                  ? 'der letzte Abschnitt auf Sicht'
                  : 'der letzte Abschnitt nach Marschzahl',
            ]),
      ]),
    change: (c) => {
      switch (c.is) {
        case 'aim off': {
          const instead = c.before ? ` statt ${short(c.before.metres)} nach ${SIDES[c.before.side]}` : '';
          return `${short(c.metres)} nach ${SIDES[c.side]} versetzt an ${germanName(c.line, 'accusative')} gehen${instead}`;
        }
        case 'attack point': {
          const before = c.before
            ? `, davor nach ${SIDES[c.before.side]} versetzt an ${germanName(c.before.line, 'accusative')}`
            : '';
          const after = c.after
            ? `, dann nach ${SIDES[c.after.side]} versetzt an ${germanName(c.after.line, 'accusative')}`
            : '';
          const spot = germanName(c.spot, c.first ? 'accusative' : 'nominative');
          const how = c.first ? `über ${spot} gehen` : `anderer Angriffspunkt: ${spot}`;
          return `${how}, ${short(c.metres)} vom Ziel${before}${after}`;
        }
        case 'catching':
          return `Auffanglinie für Abschnitt ${c.leg}: ${germanName(c.line, 'nominative')}, ${short(c.metres)} dahinter`;
        case 'ticks':
          return `auf Abschnitt ${c.leg} abhaken: ${c.features.map(germanLabel).join(', ')}`;
        case 'stay':
          return `${germanAt('an', c.line)} bleiben bis ${short(c.metres)} vor dem Ziel`;
        case 'slope':
          return `auf Abschnitt ${c.leg} den Hang auf gleicher Höhe queren`;
        case 'clock':
          return `Abschnitt ${c.leg} nach der Uhr messen`;
        case 'count':
          return `Abschnitt ${c.leg} nach Doppelschritten messen`;
        case 'straight':
          return `auf Abschnitt ${c.leg} geradewegs ${germanAt('zu', c.to)} statt ${germanAt('an', c.line)} entlang`;
        case 'endgame': {
          const stop =
            c.stops === null
              ? ''
              : c.stops === 'without'
                ? `, ohne ${accusative(c.without)} als Auffanglinie`
                : `, mit ${dative(c.behind)} dahinter als Auffanglinie`;
          return `ab ${c.from ? germanName(c.from, 'dative') : 'dem Start'}: ${c.phrase}${stop}`;
        }
      }
    },
  };
}

const STRAIGHT = {
  open: 'über freies Gelände',
  sight: 'geradewegs, auf Sicht',
  contour: 'auf gleicher Höhe am Hang entlang',
  box: 'um das Hindernis',
  handrail: 'geradewegs nach einer Marschzahl',
  bearing: 'geradewegs nach einer Marschzahl',
  timing: 'geradewegs nach einer Marschzahl',
  'aim-off': 'geradewegs nach einer Marschzahl',
} as const;
