import { measuresOf } from '../door/measures.ts';
import type { Reading } from '../door/reading.ts';
import { englishName } from '../route/english.ts';
import { CAUTIONS } from './cautions.ts';
import type { Judged, ReportSentences } from './words.ts';

export function englishReport(reading: Reading): ReportSentences {
  const figures = measuresOf(reading);
  const counted = (route: Judged) => `about ${route.count} of 100`;
  const quoted = (route: Judged) => `“${route.name}”`;
  return {
    sentence: ({ start, target, conditions, party, limits }) => {
      const { below, above, cloudBase } = conditions.visibility;
      const base = reading.units === 'metric' ? `${cloudBase} m` : figures.height(cloudBase ?? 0);
      const air =
        cloudBase === null || below === above
          ? `visibility ${figures.far(below)}`
          : `cloud at ${base} (${figures.far(above)} to be seen in it, ${figures.far(below)} below)`;
      const wind =
        conditions.wind.metresPerSecond >= 5 ? `, wind ${figures.wind(conditions.wind.metresPerSecond)}` : '';
      const light = conditions.light === 'dark' ? ', in the dark' : '';
      const people =
        party.people === 1
          ? `one ${party.skill} walker`
          : `${article(party.skill)} ${party.skill} party of ${party.people}`;
      const compass = party.compass ? '' : ' without a compass';
      const time = limits.minutes === null ? '' : `, ${limits.minutes} minutes allowed`;
      const search =
        limits.searchMinutes > 0
          ? `, ${limits.searchMinutes} minutes of search and ${times(limits.relaunches)}`
          : ', no search';
      const from = start === null ? 'the start' : englishName(start);
      return `From ${from} to ${englishName(target)}: ${air}, ground ${conditions.ground}${wind}${light}; ${people}${compass}${time}${search}.`;
    },
    verdict: {
      none: 'No route was drawn and none was found.',
      surest: (c) =>
        `By ${c.letter}, ${quoted(c)}, ${counted(c)} such parties find the target, under these assumptions; half of all attempts end within ${c.minutes} minutes.`,
      quickest: (c, saved, clear) => {
        const how = saved >= 1 ? `ends about ${saved} minutes sooner` : 'takes about as long';
        return clear
          ? `${c.letter}, ${quoted(c)}, ${how}; by it ${counted(c)} find the target.`
          : `${c.letter}, ${quoted(c)}, ${how} with no clear difference in success (${counted(c)}): choose by consequences.`;
      },
      between: (routes) =>
        `Between them, neither beaten in both: ${routes.map((c) => `${c.letter} (${counted(c)}, ${c.minutes} min)`).join(', ')}.`,
      wrong: (letter, count) => `On ${letter} about ${count} of 100 declare the wrong thing.`,
      lost: (letter, count) => `On ${letter} about ${count} of 100 end lost.`,
      hazard: (counts) =>
        `Of 100, so many come too near a mapped drop or on to too steep ground: ${counts.map((c) => `${c.letter} ${c.count}`).join(', ')}.`,
      notAssessed: 'Hazards are not assessed: the data map none here.',
    },
    limits: (unseen, hazardsMapped, lacking) => {
      const hazards = hazardsMapped ? '' : '; no cliffs or steep ground mapped, so hazards are not assessed';
      const kinds = lacking === 0 ? '' : `; the data lack ${lacking} kinds of feature, listed below`;
      return `Data: relief smaller than ${figures.cell(unseen)} unseen${hazards}${kinds}.`;
    },
    notes: {
      ofTerrain: (note) => note,
      relief: (unseen, cell) =>
        `Relief smaller than about ${figures.cell(unseen)} is not seen by the ${figures.cell(cell)} cells.`,
      always: [
        'Assumption range: errors of the party × 0.7 to 1.4, odds against mapped things × 0.5 to 2 and sight × 0.8 to 1.25, in nine settings of 200 attempts.',
        'Found routes are chosen with attempts of their own, which are not among those counted here. A change that helps is confirmed on the counted attempts of its route, day by day.',
        'Reasons are those of the first lost attempts, walked again with one kind of error left out at a time.',
      ],
      smallTarget: (metres) =>
        `The target shows itself within ${figures.short(metres)}, less than one cell: the ground about it is drawn smoother than it is.`,
      noHazards: 'No cliffs or steep ground are mapped here: hazards are not assessed.',
      lacking: (kinds) => `The data hold none of: ${kinds.map((k) => k.replaceAll('-', ' ')).join(', ')}.`,
      invented: 'The ground is invented.',
      noDate: 'No date given: bearings are from grid north only.',
    },
    assumptions: {
      speed: 'walking speed',
      // told in the units of the source, whoever reads it
      sourced: ({ source, warning }) => `${source} ${warning}`,
      detection: 'detection',
      definite: 'seen within half the sweep width',
      lateral: 'lateral range curve',
      detectionSource: 'Koester et al. 2014, sweep width from the range of detection',
      climb: 'climb',
      climbValue: `heights along the plan, ups and downs of less than ${figures.height(5)} left out`,
      practice: 'common practice, no published source',
      theTask: 'the task',
      doubt: (key) => key,
    },
    cautions: CAUTIONS,
    wayOut: (start, metres, minutes, legs) => {
      const whole = `${figures.about(metres)}, about ${minutes} min`;
      return `Back to ${start === null ? 'the start' : englishName(start)}, ${whole}: ${legs.join('; then ')}.`;
    },
  };
}

function article(word: string): string {
  return /^[aeiou]/.test(word) ? 'an' : 'a';
}

function times(n: number): string {
  return n === 0 ? 'no second try' : n === 1 ? 'one second try' : `${n} further tries`;
}
