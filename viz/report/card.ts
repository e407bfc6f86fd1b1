import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import { type Make, maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { routeStyle } from '../theme/route-style.ts';
import { bearing, duration, kilometres, ofHundred, TECHNIQUE_NAMES, thousands } from '../theme/words.ts';
import { aimText, hazardText, notFoundText, stopByMinutes, stopsText, wayOutText } from './card-words.ts';
import { northsText, placeText } from './places.ts';

/** Techniques that are walked by the needle; on others the bearing is only the general direction. */
const BY_NEEDLE: ReadonlySet<string> = new Set(['bearing', 'timing', 'aim-off', 'box']);

/**
 * The card of one route: on paper A5, on a phone one leg a screen. One file, no script, no network.
 * @param css the theme and the card's own style
 */
export function renderCard(report: Report, candidate: Candidate, css: string): string {
  const document = newDocument();
  const make = maker(document);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(`Route ${candidate.letter} to ${report.task.target.name}`)),
    make('style', {}, css),
  );
  const stopBy = stopByMinutes(candidate, report.limits);
  const last = candidate.legs.length;
  document.body.append(
    make(
      'main',
      { class: `card hue-${routeStyle(candidate.letter).hue}` },
      front(make, report, candidate),
      ...candidate.legs.map((leg, i) => legScreen(make, report, candidate, leg, i, stopBy[i]!)),
      ending(make, report, candidate, last),
    ),
  );
  return document.toString();
}

function front(make: Make, report: Report, c: Candidate): HTMLElement {
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
      `${kilometres(c.distanceMetres)}, ${Math.round(c.climbMetres)} m up. Found by about ${ofHundred(c.success.share)} such parties, false finds ${ofHundred(c.outcomes.falseFind)}, lost ${ofHundred(c.outcomes.lost)}; half of all attempts end within ${duration(c.minutes.p50)}. Modelled, not observed.`,
    ),
    make(
      'p',
      { class: 'norths' },
      `${northsText(report)} ${report.party.doublePacesPer100} double paces to 100 m.`,
    ),
    make(
      'p',
      { class: 'on-screen' },
      make(
        'label',
        {},
        make('input', { type: 'checkbox', id: 'other-light', autocomplete: 'off' }),
        make('span', {}, 'turn day and night'),
      ),
    ),
    steps(make, null, 1),
  );
}

function legScreen(
  make: Make,
  report: Report,
  c: Candidate,
  leg: ReportLeg,
  i: number,
  stopBy: number,
): HTMLElement {
  const at = leg.path[leg.path.length - 1];
  const fact = (name: string, value: string | null, kind = '') =>
    value !== null && make('div', { class: `fact ${kind}` }, make('dt', {}, name), make('dd', {}, value));
  const needle = BY_NEEDLE.has(leg.technique);
  const magnetic = leg.magneticBearingDegrees;
  return make(
    'section',
    { class: 'screen leg', id: `leg-${i + 1}`, 'aria-label': `Leg ${i + 1} of ${c.legs.length}` },
    make('h2', {}, make('span', { class: 'number' }, String(i + 1)), ` ${TECHNIQUE_NAMES[leg.technique]}`),
    make(
      'p',
      { class: 'to' },
      leg.to,
      at !== undefined && make('span', { class: 'grid' }, placeText(at, report)),
    ),
    make('p', { class: 'says' }, leg.says),
    make('p', { class: 'from' }, `from ${leg.from}`),
    make(
      'dl',
      {},
      fact(
        needle ? 'magnetic' : 'towards, magnetic',
        magnetic === null ? null : bearing(magnetic),
        needle ? 'large' : '',
      ),
      fact(
        needle ? 'grid' : 'towards, grid',
        bearing(leg.gridBearingDegrees),
        needle && magnetic === null ? 'large' : '',
      ),
      fact('metres', thousands(leg.distanceMetres), 'large'),
      fact('double paces', thousands(leg.doublePaces)),
      fact('climb', `${Math.round(leg.climbMetres)} m`),
      fact('minutes', String(Math.round(leg.minutes))),
      fact('stop by, from start', `${Math.round(stopBy)} min`),
      fact('aim off', aimText(leg), 'wide'),
      fact(
        'tick off',
        leg.ticks.length === 0
          ? null
          : leg.ticks.map((t) => `${t.name} at ${thousands(t.atMetres)} m`).join(' · '),
        'wide',
      ),
      fact('too far', stopsText(leg), 'wide'),
      fact('hazard', hazardText(c, leg), c.hazard === 'not assessed' ? 'wide stippled' : 'wide'),
      i < c.legs.length - 1 && fact('not there by then', `stop; back to ${leg.from}`, 'wide'),
    ),
    steps(make, i, i + 2),
  );
}

function ending(make: Make, report: Report, c: Candidate, last: number): HTMLElement {
  return make(
    'section',
    { class: 'screen ending', id: `leg-${last + 1}`, 'aria-label': 'If it is not found' },
    make('h2', {}, 'If it is not found'),
    make('p', {}, notFoundText(report, c)),
    make('h2', {}, 'Way out'),
    make('p', {}, wayOutText(report, c)),
    make('h2', {}, 'If lost'),
    make(
      'p',
      {},
      'Stop, shelter, think; call the local emergency number. Never split the party out of sight and voice.',
    ),
    make(
      'p',
      { class: 'small-print' },
      'For learning and planning: the ground, the weather and the qualified leader decide. “Stop by” is the slow tenth of attempts, or the turn-round.',
    ),
    steps(make, last, null),
  );
}

/** From screen to screen by thumb. */
function steps(make: Make, back: number | null, on: number | null): HTMLElement {
  return make(
    'nav',
    { class: 'on-screen steps', 'aria-label': 'Screens' },
    back === null ? make('span', {}) : make('a', { href: `#leg-${back}` }, 'back'),
    on === null ? make('span', {}) : make('a', { href: `#leg-${on}` }, 'on'),
  );
}
