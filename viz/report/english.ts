import type { Conditions } from '../../src/conditions/conditions.ts';
import { dateText } from '../../src/door/dates.ts';
import { measuresOf } from '../../src/door/measures.ts';
import type { Reading } from '../../src/door/reading.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import type { Assumption } from '../../src/report/report.ts';
import { TOLD_WORDS } from '../../src/report/told-words.ts';
import { englishFigures } from '../theme/english-figures.ts';
import { kindName, kindPlural, listed, ofHundred, thousands } from '../theme/words.ts';

type Side = 'left' | 'right';

/** Every word that the pages of a report add to what the document says. German has the same keys or does not compile. */
export function englishPages(reading: Reading) {
  const m = measuresOf(reading);
  const imperial = reading.units === 'imperial';
  const mils = reading.bearings === 'mils' ? ', mils' : '';
  const date = (iso: string) => dateText(iso, 'en');
  return {
    reading,
    measures: m,
    told: TOLD_WORDS.en,
    figures: englishFigures(reading),
    date,
    ofHundred,
    afterCount: ' of 100',
    listed,
    kind: kindName as (kind: FeatureKind) => string,
    kindPlural: kindPlural as (kind: FeatureKind) => string,
    route: (letter: string, name: string) => `Route ${letter}, ${name}`,
    invented: ', invented ground',
    light: 'turn day and night',
    modelled: 'Modelled, not observed.',
    heights: (cell: number) =>
      `Heights every ${m.cell(cell)}: relief smaller than ${m.cell(2 * cell)} is not seen.`,
    hazardsNot: 'Hazards not assessed.',
    asTable: 'As a table',
    notAssessed: 'not assessed',

    given: {
      /** Words of the sentence that are set in bold. */
      strong: (skill: SkillLevel, c: Conditions) => [skill, c.ground, c.light] as readonly string[],
      party: (skill: SkillLevel, people: number) =>
        people === 1 ? `one ${skill} person` : `${skill} party of ${people}`,
      clear: (below: number) => `visibility ${m.long(below)}`,
      cloud: (base: number, above: number) =>
        `cloud base ${m.height(base)}, visibility ${m.long(above)} in it`,
      ground: (ground: Conditions['ground']) => `ground ${ground}`,
      light: (light: Conditions['light']): string => (light === 'dark' ? 'in the dark' : 'by day'),
      trials: (trials: number) => `${thousands(trials)} attempts per route`,
      modelled: 'modelled, not observed',
    },

    map: {
      heading: 'Map',
      layers: 'Layers of the map',
      routes: 'routes',
      routesNote: 'S start, T target; a full letter is an unbeaten route',
      ends: 'end points',
      found: 'found',
      notFound: 'not found',
      endsNote: (ends: number, trials: number) => `${ends} of ${thousands(trials)} attempts per route`,
      features: 'features',
      names: 'names',
      ground: 'ground cover and water',
      contours: (interval: number) => `contours every ${m.height(interval)}`,
      relief: 'relief',
      unassessed: 'Hazards not assessed: a place without a hatch is not a place without danger.',
      hatched: 'Hatched: steep or barred ground in the data.',
      sure: 'there in 90 of 100 or more',
      likely: '60 to 90',
      doubtful: 'under 60',
      table: 'Features and their doubt, as a table',
      caption: 'Features of the map',
      heads: heads('feature', 'kind', 'there, of 100', `place, ± ${m.unit.short}`),
    },

    routes: {
      label: 'Routes',
      drawn: ' · drawn',
      up: (far: string, climb: string) => `${far}, ${climb} up`,
      hazardsNot: 'hazards not assessed',
      hazard: (count: string) => `hazard entered by ${count}`,
      beside: (wrong: string, lost: string, hazard: string) =>
        `false finds ${wrong}, lost ${lost}, ${hazard}`,
    },

    foundBy: {
      heading: 'Found by when',
      note: 'How many of 100 parties have found the target within so many minutes. A curve that flattens early stays where it is: more time would not help those parties.',
      caption: 'Found within so many minutes, of 100',
      minutes: 'minutes',
    },

    timeSuccess: {
      heading: 'Time against success',
      sampling: 'Thick bar: the luck of sampling. ',
      varied: 'Thin bar: skill and trust in the map varied. ',
      notVaried: 'Assumptions not varied. ',
      note: 'Full letter: unbeaten, no other route is both quicker and more certain. Times are over all attempts, failures included, without rests.',
      caption: 'Time and success',
      heads: heads(
        'route',
        'quick tenth, min',
        'middle, min',
        'slow tenth, min',
        'found, of 100',
        'sampling',
        'assumptions',
        'unbeaten',
        'hazard entered, of 100',
      ),
      fixed: 'not varied',
      yes: 'yes',
    },

    outcomes: {
      heading: 'Of 100 such parties',
      caption: 'How attempts ended, of 100',
      outcome: 'outcome',
    },

    ends: {
      heading: 'End points',
      note: (radius: number) =>
        `The ground around the target. Full dots found it, open dots did not; the ring is the distance at which it is found, ${m.short(radius)}.`,
      caption: 'End points drawn and their distance from the target',
      heads: heads('route', 'drawn', `half within, ${m.unit.short}`, `nine tenths within, ${m.unit.short}`),
      of: (drawn: number, trials: number) => `${drawn} of ${thousands(trials)}`,
    },

    legs: {
      heading: 'Where parties leave the line',
      note: 'Strips share one scale of distance and height. Each black square is one of 100 parties that did not find the target and left the line on that leg.',
      caption: (letter: string, name: string) => `Legs of route ${letter}, ${name}`,
      leg: 'leg',
      what: 'what to do',
      grid: `grid${mils}`,
      magnetic: `magnetic${mils}`,
      metres: imperial ? 'yards' : 'metres',
      climb: imperial ? 'climb, ft' : 'climb',
      doublePaces: 'double paces',
      minutes: 'min',
      left: 'left it here, of 100',
      fromTo: (from: string, to: string) => `${from} → ${to}`,
      meets: (ticks: readonly { readonly name: string; readonly atMetres: number }[]) =>
        ` · meets ${ticks.map((t) => `${t.name} at ${stretch(m.short(t.atMetres))}`).join(', ')}`,
      none: 'No attempt failed on a leg.',
      onlyLeg: (count: string, why: string | null) =>
        `On its one leg ${count} leave the line${why === null ? '' : `, mainly: ${why}`}.`,
      worstLeg: (leg: number, count: string, why: string | null) =>
        `Most leave the line on leg ${leg}, ${count}${why === null ? '' : `, mainly: ${why}`}.`,
    },

    helps: {
      heading: 'What would help',
      changes: (looked: number) =>
        `One thing done otherwise, the rest as it is, walked by the same parties on the same days. ${looked} changes were looked at; those that help beyond the noise are listed, with the interval of the difference.`,
      caption: 'One change that helps',
      heads: heads('route', 'change', 'finds of 100', 'mean minutes'),
      none: (letter: string, looked: number) =>
        `${letter}: none of the ${looked} changes looked at helps beyond the noise.`,
      leans: 'Finds of 100 where something doubtful is there, and where it is gone',
      leansHeads: heads('route', 'leans on', 'there on days of 100', 'where it is there', 'where it is gone'),
      check: (name: string, there: string, gone: string, unknowing: string, gain: string, interval: string) =>
        `Worth a look or a call beforehand: ${name}. If it is there take ${there}, if not ${gone}; without knowing ${unknowing} finds most. Choosing by the answer finds about ${gain} more of 100 (${interval}).`,
      noCheck:
        'To know beforehand whether one of these is there would not change which route to take, as far as these attempts tell.',
      alike: (letter: string, alike: readonly string[]) =>
        `The search also proposes ${letter}: ${alike.join('; ')}.`,
      to: (low: string, high: string) => `${low} to ${high}`,
    },

    walks: {
      heading: 'Single attempts',
      note: 'The first attempt that finds the target and the first that does not, on the routes that most parties find it by. One attempt proves nothing; it shows how such a day goes.',
      label: (letter: string) => `Attempts on route ${letter}`,
      show: (n: number) => `Show ${n} attempts`,
      title: (trial: number, outcome: string, time: string) =>
        `Attempt ${thousands(trial)}: ${outcome}, ${time}`,
      key: 'Full line: the true track. Broken line: where the party believed it was. Thin line: the plan. Full dots are true places, open ones believed, numbered as in the table.',
      caption: (trial: number, letter: string) =>
        `What happened in attempt ${thousands(trial)} on route ${letter}`,
      heads: heads(
        'no.',
        'min',
        'leg',
        'what happened',
        `off its belief, ${m.unit.short}`,
        `sure to, ${m.unit.short}`,
      ),
      /** Of the stepper, filled in by the page's script. */
      stepper: {
        back: 'back',
        on: 'on',
        all: 'all',
        every: 'all {n}',
        now: `{k} of {n}: {min} min, {what}, {off} ${m.unit.short} off its belief`,
      },
    },

    basis: {
      assumptions: 'Assumptions',
      note: 'Every figure above rests on these. Common practice is what instructors use and nobody has published: change it in the task where you know better.',
      caption: 'Assumptions and their marks',
      heads: heads('assumption', 'value', 'mark', 'source'),
      marks: {
        published: 'published',
        'common practice': 'common practice',
        derived: 'derived',
        'given in the task': 'given in the task',
      } satisfies Record<Assumption['mark'], string> as Record<Assumption['mark'], string>,
      /** What a source says of common practice, which its mark says already. */
      practice: /;?\s*common practice, no (?:published )?source/,
      cautions: 'Cautions',
      data: 'Limits of the data',
      source: (source: string, cell: number, crs: string) =>
        // the data themselves are metric, whoever reads of them
        `Heights: ${source}, one every ${m.number(cell)} m, ${crs}. What is smaller than ${m.cell(2 * cell)} is not in them.`,
      lacking: (kinds: readonly FeatureKind[]) =>
        `Kinds that the data lack: ${listed(kinds.map(kindPlural))}. What is absent from the data may still be there.`,
      noHazards: (kinds: readonly FeatureKind[]) =>
        `No ${listed(kinds.map(kindPlural))} mapped here: hazards not assessed.`,
      noMapDate: 'The map carries no date.',
      mapDate: (iso: string) => `Map of ${date(iso)}.`,
      noNorths: 'No date in the task, so grid bearings only.',
      norths: (iso: string, model: string) => `Magnetic bearings for ${date(iso)} by ${model}.`,
      closing: (generator: string, seed: number, trials: number) =>
        `${generator}, seed ${seed}, ${thousands(trials)} attempts per route. The same task and seed give the same figures.`,
    },

    places: {
      noDate: 'Bearings are from grid north; the task has no date, so none from magnetic north.',
      same: 'grid and magnetic are the same to half a degree',
      turn: (add: boolean, turn: string) => `grid to magnetic: ${add ? 'add' : 'take off'} ${turn}`,
      norths: (rule: string, model: string, iso: string, grid: string, magnetic: string) =>
        `${rule} (${model}, ${date(iso)}; grid lies ${grid} and magnetic north ${magnetic} of true north).`,
      eastWest: (degrees: number) => `${Math.abs(degrees).toFixed(1)}° ${degrees < 0 ? 'west' : 'east'}`,
    },

    card: {
      title: (letter: string, target: string) => `Route ${letter} to ${target}`,
      whole: (far: string, climb: string, found: string, wrong: string, lost: string, middle: string) =>
        `${far}, ${climb} up. Found by about ${found} such parties, false finds ${wrong}, lost ${lost}; half of all attempts end within ${middle}. Modelled, not observed.`,
      doublePaces: (n: number) => `${m.paces(n).count} double paces to ${m.paces(n).to}.`,
      leg: (i: number, n: number) => `Leg ${i} of ${n}`,
      from: (place: string) => `from ${place}`,
      magnetic: `magnetic${mils}`,
      towardsMagnetic: `towards, magnetic${mils}`,
      grid: `grid${mils}`,
      towardsGrid: `towards, grid${mils}`,
      metres: imperial ? 'yards' : 'metres',
      pacesHead: 'double paces',
      climb: 'climb',
      minutes: 'minutes',
      stopBy: 'stop by, from start',
      aimOff: 'aim off',
      aim: (metres: number, side: Side) =>
        `${m.short(metres)} ${side}: on the line turn ${side === 'left' ? 'right' : 'left'}`,
      tickOff: 'tick off',
      tick: (name: string, metres: number) => `${name} at ${m.short(metres)}`,
      tooFar: 'too far',
      beyond: (name: string, metres: number) => `${name}, ${m.short(metres)} beyond`,
      hazard: 'hazard',
      noHazard: `none within ${m.short(50)} in the data`,
      hazardSide: (side: Side | 'both sides') => `${side === 'both sides' ? 'on' : 'on the'} ${side}`,
      notThere: 'not there by then',
      stop: (place: string) => `stop; back to ${place}`,
      notFound: 'If it is not found',
      search: (minutes: number, abreast: number) =>
        `Search for up to ${minutes} minutes${abreast > 1 ? `, ${abreast} abreast` : ''}, in sight and voice of each other.`,
      thenBack: (place: string, more: number) =>
        more > 0
          ? `Then back to ${place} and try ${more === 1 ? 'once' : `${more} times`} more.`
          : `Then back to ${place}.`,
      turnRound: (minutes: number) => `Turn round ${minutes} minutes after setting off, found or not.`,
      wayOut: 'Way out',
      entered: (hazard: number, trials: number) =>
        `(${thousands(hazard)} of ${thousands(trials)} simulated parties entered a hazard)`,
      noWayOut: (start: string) => `None found: turn back to ${start}, the way you came.`,
      ifLost: 'If lost',
      lost: 'Stop, shelter, think; call the local emergency number. Never split the party out of sight and voice.',
      smallPrint:
        'For learning and planning: the ground, the weather and the qualified leader decide. “Stop by” is the slow tenth of attempts, or the turn-round.',
      screens: 'Screens',
      back: 'back',
      on: 'on',
    },

    print: {
      title: (task: string, scale: number) => `${task}, map 1:${scale}`,
      sheet: (task: string, i: number, n: number) => `${task}, sheet ${i} of ${n}`,
      foot: (scale: string, bar: number) =>
        `1:${scale} if the bar measures ${m.onPaper(bar)}; grid north is up.`,
      contours: (interval: number) => `Contours every ${m.height(interval)}.`,
      doubt:
        'Lines and signs: solid where a feature is there in 90 of 100 or more, broken from 60, dotted below.',
      unassessed: 'Hazards not assessed: what is absent may still be there.',
      hatched: 'Hatched: steep or barred ground in the data.',
    },

    task: {
      title: (task: string) => `${task}, task`,
      start: 'start',
      target: 'target',
      allowed: 'allowed',
      limits: (minutes: number | null, search: number) =>
        `${minutes === null ? 'no time limit' : `${minutes} minutes`}, ${search} minutes of search`,
      norths: 'norths',
      myRoute: 'My route',
      caption: 'One line for each leg',
      heads: heads(
        '',
        'technique',
        'to',
        'bearing',
        imperial ? 'yards' : 'metres',
        'double paces',
        'minutes',
        'what tells me I am there',
        'too far when',
      ),
      confidence: 'Of 100 parties like mine, so many find it this way',
      notFound: 'If I do not find it',
      name: 'Name',
    },
  };
}

/** Heads of columns: as many in every language. */
function heads<T extends readonly string[]>(...texts: T): { readonly [K in keyof T]: string } {
  return texts as { readonly [K in keyof T]: string };
}

/** A figure and its unit stay on one line. */
function stretch(text: string): string {
  return text.replace(' ', '\u00a0');
}
