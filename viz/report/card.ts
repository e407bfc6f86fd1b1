import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import { type Make, maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { routeStyle } from '../theme/route-style.ts';
import { duration, thousands } from '../theme/words.ts';
import { hazardText, notFoundText, stopByMinutes, wayOutText } from './card-words.ts';
import type { Writing } from './page-parts.ts';
import { northsText, placeText } from './places.ts';
import { type ReportWords, wordsOf } from './words.ts';

type Handed = Pick<Writing, 'make' | 'report' | 'words'>;

/** Techniques that are walked by the needle; on others the bearing is only the general direction. */
const BY_NEEDLE: ReadonlySet<string> = new Set(['bearing', 'timing', 'aim-off', 'box']);

/**
 * The card of one route: on paper A5, on a phone one leg a screen. One file, no script, no network.
 * @param css the theme and the card's own style
 */
export function renderCard(report: Report, candidate: Candidate, css: string): string {
  const words = wordsOf(report);
  const document = newDocument(words.reading.language);
  const make = maker(document);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(words.card.title(candidate.letter, report.task.target.name))),
    make('style', {}, css),
  );
  const stopBy = stopByMinutes(candidate, report.limits);
  const last = candidate.legs.length;
  document.body.append(
    make(
      'main',
      { class: `card hue-${routeStyle(candidate.letter).hue}` },
      front(make, report, candidate, words),
      ...candidate.legs.map((leg, i) => legScreen({ make, report, words }, candidate, leg, i, stopBy[i]!)),
      ending({ make, report, words }, candidate, last),
    ),
  );
  return document.toString();
}

function front(make: Make, report: Report, c: Candidate, words: ReportWords): HTMLElement {
  const { card: say, measures: m, ofHundred } = words;
  const unbeaten = report.unbeaten.includes(c.id);
  const { start, target } = report.task;
  return make(
    'header',
    { class: 'screen front', id: 'leg-0' },
    make(
      'h1',
      {},
      make('span', { class: `letter hue-${routeStyle(c.letter).hue}${unbeaten ? ' filled' : ''}` }, c.letter),
      make('span', {}, c.name),
    ),
    make(
      'p',
      { class: 'ends' },
      make('b', {}, start.name),
      ` ${placeText(start.at, report)} → `,
      make('b', {}, target.name),
      ` ${placeText(target.at, report)}`,
    ),
    make('p', { class: 'sentence' }, report.sentence),
    make(
      'p',
      { class: 'whole' },
      say.whole(
        m.long(c.distanceMetres),
        m.height(c.climbMetres),
        ofHundred(c.success.share),
        ofHundred(c.outcomes.falseFind),
        ofHundred(c.outcomes.lost),
        duration(c.minutes.p50),
      ),
    ),
    make(
      'p',
      { class: 'norths' },
      `${northsText(report, words)} ${say.doublePaces(report.party.doublePacesPer100)}`,
    ),
    make(
      'p',
      { class: 'on-screen' },
      make(
        'label',
        {},
        make('input', { type: 'checkbox', id: 'other-light', autocomplete: 'off' }),
        make('span', {}, words.light),
      ),
    ),
    steps(make, words, null, 1),
  );
}

function legScreen(
  { make, report, words }: Handed,
  c: Candidate,
  leg: ReportLeg,
  i: number,
  stopBy: number,
): HTMLElement {
  const { card: say, measures: m } = words;
  const at = leg.path[leg.path.length - 1];
  const fact = (name: string, value: string | null, kind = '') =>
    value !== null && make('div', { class: `fact ${kind}` }, make('dt', {}, name), make('dd', {}, value));
  const needle = BY_NEEDLE.has(leg.technique);
  const magnetic = leg.magneticBearingDegrees;
  return make(
    'section',
    { class: 'screen leg', id: `leg-${i + 1}`, 'aria-label': say.leg(i + 1, c.legs.length) },
    make(
      'h2',
      {},
      make('span', { class: 'number' }, String(i + 1)),
      ` ${words.told.techniques[leg.technique]}`,
    ),
    make(
      'p',
      { class: 'to' },
      leg.to,
      at !== undefined && make('span', { class: 'grid' }, placeText(at, report)),
    ),
    make('p', { class: 'says' }, leg.says),
    make('p', { class: 'from' }, say.from(leg.from)),
    make(
      'dl',
      {},
      fact(
        needle ? say.magnetic : say.towardsMagnetic,
        magnetic === null ? null : m.bearing(magnetic),
        needle ? 'large' : '',
      ),
      fact(
        needle ? say.grid : say.towardsGrid,
        m.bearing(leg.gridBearingDegrees),
        needle && magnetic === null ? 'large' : '',
      ),
      fact(say.metres, thousands(m.bare.short(leg.distanceMetres)), 'large'),
      fact(say.pacesHead, thousands(leg.doublePaces)),
      fact(say.climb, m.height(leg.climbMetres)),
      fact(say.minutes, String(Math.round(leg.minutes))),
      fact(say.stopBy, `${Math.round(stopBy)} min`),
      fact(say.aimOff, leg.aimOff === undefined ? null : say.aim(leg.aimOff.metres, leg.aimOff.side), 'wide'),
      fact(
        say.tickOff,
        leg.ticks.length === 0 ? null : leg.ticks.map((t) => say.tick(t.name, t.atMetres)).join(' · '),
        'wide',
      ),
      fact(
        say.tooFar,
        leg.catching === undefined ? null : say.beyond(leg.catching.name, leg.catching.beyondMetres),
        'wide',
      ),
      fact(say.hazard, hazardText(c, leg, words), c.hazard === 'not assessed' ? 'wide stippled' : 'wide'),
      i < c.legs.length - 1 && fact(say.notThere, say.stop(leg.from), 'wide'),
    ),
    steps(make, words, i, i + 2),
  );
}

function ending({ make, report, words }: Handed, c: Candidate, last: number): HTMLElement {
  const { card: say } = words;
  return make(
    'section',
    { class: 'screen ending', id: `leg-${last + 1}`, 'aria-label': say.notFound },
    make('h2', {}, say.notFound),
    make('p', {}, notFoundText(report, c, words)),
    make('h2', {}, say.wayOut),
    make('p', {}, wayOutText(report, c, words)),
    make('h2', {}, say.ifLost),
    make('p', {}, say.lost),
    make('p', { class: 'small-print' }, say.smallPrint),
    steps(make, words, last, null),
  );
}

/** From screen to screen by thumb. */
function steps(make: Make, { card: say }: ReportWords, back: number | null, on: number | null): HTMLElement {
  return make(
    'nav',
    { class: 'on-screen steps', 'aria-label': say.screens },
    back === null ? make('span', {}) : make('a', { href: `#leg-${back}` }, say.back),
    on === null ? make('span', {}) : make('a', { href: `#leg-${on}` }, say.on),
  );
}
