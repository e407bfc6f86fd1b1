import { measuresOf } from '../door/measures.ts';
import type { Reading } from '../door/reading.ts';
import type { Called, Feature } from '../features/feature.ts';
import type { EndPlace, RouteWords, WayAlong } from './words.ts';

/** The eight compass words, clockwise from north. */
const COMPASS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'];

const REASONS: Readonly<Record<string, string>> = {
  ground: 'because the ground is not as mapped',
  'party-day': "by the day's own error of bearing or pace",
  leg: 'by the bearing or the count taken there',
  step: 'by straying on the way',
  seeing: 'because what they look for was passed unseen',
  several: 'by several errors together',
};

/** "the boulder", or a name. */
export function englishName(feature: Called): string {
  return feature.name ?? `the ${kindText(feature)}`;
}

function kindText({ kind }: Called): string {
  switch (kind) {
    case 're-entrant':
      return 're-entrant';
    case 'right-of-way':
      return 'right of way';
    case 'stream-end':
      return 'end of the stream';
    case 'line-end':
      return 'end of the line';
    case 'other':
      return 'marked point';
    default:
      return kind.replaceAll('-', ' ');
  }
}

/** "a", "a and b", "a, b and c". */
function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

export function englishRoute(reading: Reading): RouteWords {
  const figures = measuresOf(reading);
  const about = figures.about;
  const line = (feature: Feature | undefined) => (feature ? englishName(feature) : 'the line');
  const place = (p: EndPlace): string => {
    switch (p.is) {
      case 'feature':
        return englishName(p.feature);
      case 'beside':
        return `${line(p.line)}, ${about(p.metres)} ${p.side} of the place wanted`;
      case 'on line':
        return `a place on ${line(p.line)}`;
      case 'open':
        return 'a point in the open';
      case 'start':
        return 'the start';
      case 'target':
        return 'the target';
    }
  };
  const way = (w: WayAlong): string => {
    if (w === null) return '';
    return w === 'down' ? 'downstream' : w === 'up' ? 'upstream' : COMPASS[w.eighth]!;
  };
  return {
    feature: englishName,
    ownName: (f) => f.name ?? null,
    place,
    listed,
    joined: (parts) => parts.join(', then '),
    leg: (l) => {
      const metres = about(l.metres);
      const bearing = figures.bearingSaid(l.bearingDegrees);
      const end = place(l.end);
      const main = (): string => {
        switch (l.technique) {
          case 'handrail':
            return `Follow ${line(l.line)} ${way(l.way)} for ${metres} to ${end}`;
          case 'bearing':
            return `Walk on a bearing of ${bearing} for ${metres}, about ${l.doublePaces} double paces, to ${end}`;
          case 'timing':
            return `Walk on a bearing of ${bearing} for about ${Math.round(l.minutes)} minutes (${metres}) to ${end}`;
          case 'aim-off': {
            const turn = l.side === 'left' ? 'right' : 'left';
            return `Walk on a bearing of ${bearing} for ${metres} on to ${line(l.line)}, aiming ${about(l.offsetMetres)} to the ${l.side} so that you know to turn ${turn}`;
          }
          case 'contour':
            return `Hold your height round the slope for ${metres}, setting off ${COMPASS[l.eighth]!}, to ${end}`;
          case 'sight':
            return `Walk by sight for ${metres}, ${COMPASS[l.eighth]!}, to ${end}`;
          case 'box':
            return `Box round the obstacle: ${about(l.offsetMetres)} out to the ${l.side}, ${about(l.straightMetres)} along, as far back, to ${end}`;
        }
      };
      const ticks = l.ticks.map((t) => `${t.feature ? englishName(t.feature) : t.id} at ${about(t.metres)}`);
      const tickText = ticks.length === 0 ? '' : `; tick off ${listed(ticks)}`;
      const catchText =
        l.catching === null
          ? ''
          : `; ${line(l.catching.line)} ${about(l.catching.beyondMetres)} behind it says you are past`;
      return `${main()}${tickText}${catchText}.`;
    },
    far: ({ lines, open, how, end }) => {
      if (lines.length === 0) {
        const by = how === 'sight' ? 'by sight' : how === 'slope' ? 'round the slope' : 'over open ground';
        return `${by} to ${place(end)}`;
      }
      const names = lines.map(line);
      const by = names.length > 3 ? `${names[0]}, ${names[1]} and other lines` : listed(names);
      return `by ${by}${open ? ' and over open ground' : ''} to ${place(end)}`;
    },
    near: (part) => {
      const metres = about(part.metres);
      const end = place(part.end);
      switch (part.technique) {
        case 'handrail': {
          const name = part.same ? 'it' : line(part.line);
          const water = part.way === 'down' || part.way === 'up' ? `${way(part.way)} ` : '';
          return `${water}along ${name} to ${end}`;
        }
        case 'aim-off':
          return `aim off ${part.side} to ${line(part.line)}`;
        case 'bearing':
          return `${metres} on a bearing to ${end}`;
        case 'timing':
          return `${metres} by the clock to ${end}`;
        case 'contour':
          return `${metres} round the slope to ${end}`;
        case 'sight':
          return `by sight to ${end}`;
        case 'box':
          return `box the obstacle to ${end}`;
      }
    },
    relies: ({ things, alongPercent, metres, bySight }) => {
      if (things.length === 0) {
        return bySight
          ? 'Relies on seeing the target all the way'
          : `Relies on compass and count alone for ${about(metres)}`;
      }
      const names = things.map((t) =>
        'is' in t
          ? t.is === 'meeting'
            ? `meeting ${englishName(t.line)} on the known side`
            : place(t)
          : englishName(t),
      );
      const share = alongPercent === null ? '' : `, ${alongPercent} % of it along lines`;
      return `Relies on ${listed([...new Set(names)].slice(0, 3))}${share}`;
    },
    risks: ({ last, metres, end, count, reason }) => {
      const where = last ? `the last ${about(metres)}` : `the ${about(metres)} to ${place(end)}`;
      const why = reason === undefined ? '' : `, mostly ${REASONS[reason] ?? `by ${reason}`}`;
      return `risks ${where}: about ${count} of 100 such parties go wrong there${why}`;
    },
    late: (count) => `about ${count} of 100 come too late`,
    wrong: (count) => `about ${count} of 100 take the wrong thing for it`,
    noRisk: 'no single leg loses more than 2 of 100 such parties',
    routeName: ({ line: along, from, straight, more }) => {
      const base = [along ? `by ${englishName(along)}` : '', from ? `from ${englishName(from)}` : '']
        .filter((part) => part !== '')
        .join(', ');
      const plain = base === '' ? STRAIGHT[straight] : base;
      switch (more?.is) {
        case undefined:
          return plain;
        case 'aim':
          return `${plain}, aiming off ${more.side}`;
        case 'with':
        case 'past':
          return `${plain}, ${more.is} ${englishName(more.feature)}`;
        case 'backstop':
          return `${plain}, with a backstop`;
        case 'open':
          return `${plain}, ${more.legs === 0 ? 'along lines all the way' : `${more.legs} leg${more.legs === 1 ? '' : 's'} in the open`}`;
      }
    },
    differs: ({ aim, from, catching, last }) =>
      listed([
        ...(aim ? [`aiming off ${figures.short(aim.metres)} to the ${aim.side}`] : []),
        ...(from ? [`setting out from ${englishName(from)}`] : []),
        ...(catching === undefined
          ? []
          : [catching ? 'with a catching feature' : 'without a catching feature']),
        ...(last === undefined
          ? []
          : [
              last === 'timing'
                ? 'the last leg by the clock'
                : last === 'sight'
                  ? 'the last leg by sight'
                  : 'the last leg on a bearing',
            ]),
      ]),
    change: (c) => {
      const { short } = figures;
      switch (c.is) {
        case 'aim off': {
          const instead = c.before ? ` instead of ${short(c.before.metres)} to the ${c.before.side}` : '';
          return `aim off ${short(c.metres)} to the ${c.side} on ${englishName(c.line)}${instead}`;
        }
        case 'attack point': {
          const before = c.before
            ? `, aiming off ${c.before.side} on to ${englishName(c.before.line)} before it`
            : '';
          const after = c.after ? `, then aiming off ${c.after.side} on to ${englishName(c.after.line)}` : '';
          return `${c.first ? 'go by' : 'attack from'} ${englishName(c.spot)}, ${short(c.metres)} from the target${before}${after}`;
        }
        case 'catching':
          return `let ${englishName(c.line)}, ${short(c.metres)} behind, stop leg ${c.leg}`;
        case 'ticks':
          return `tick off ${c.features.map(englishName).join(', ')} on leg ${c.leg}`;
        case 'stay':
          return `stay on ${englishName(c.line)} until ${short(c.metres)} from the target`;
        case 'slope':
          return `hold the height round the slope on leg ${c.leg}`;
        case 'clock':
          return `measure leg ${c.leg} by the clock`;
        case 'count':
          return `measure leg ${c.leg} by counting`;
        case 'straight':
          return `walk straight to ${englishName(c.to)} instead of along ${englishName(c.line)} on leg ${c.leg}`;
        case 'endgame': {
          const stop =
            c.stops === null
              ? ''
              : c.stops === 'without'
                ? `, without ${line(c.without)} to stop at`
                : `, with ${line(c.behind)} behind to stop at`;
          return `from ${c.from ? englishName(c.from) : 'the start'}: ${c.phrase}${stop}`;
        }
      }
    },
  };
}

const STRAIGHT = {
  open: 'over open ground',
  sight: 'straight, by sight',
  contour: 'round the slope',
  box: 'round the obstacle',
  handrail: 'straight on one bearing',
  bearing: 'straight on one bearing',
  timing: 'straight on one bearing',
  'aim-off': 'straight on one bearing',
} as const;
