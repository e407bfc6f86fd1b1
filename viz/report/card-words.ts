import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import type { ReportWords } from './words.ts';

/** Fewer than one simulated party in so many may enter a hazard on a way out that is printed. */
const WAY_OUT_ONE_IN = 200;

/**
 * Minutes from setting off by which each leg should be ended: nine tenths of attempts, as simulated where the report says it, else
 * the slow tenth of all attempts shared over the legs as their planned minutes are. Never later than the task lets anybody walk on.
 */
export function stopByMinutes(c: Candidate, limits: Report['limits']): number[] {
  const end = Math.min(
    limits.minutes ?? Number.POSITIVE_INFINITY,
    limits.turnRoundMinutes ?? Number.POSITIVE_INFINITY,
  );
  const planned = c.legs.reduce((sum, l) => sum + l.minutes, 0);
  let walked = 0;
  let latest = 0;
  return c.legs.map((l) => {
    walked += l.minutes;
    const slow = l.stopByMinutes ?? (planned > 0 ? (c.minutes.p90 * walked) / planned : c.minutes.p90);
    // a leg that too few attempts ended to tell ends no sooner than the one before it
    latest = Math.max(latest, Math.min(slow, end));
    return latest;
  });
}

export function notFoundText(report: Report, c: Candidate, { card: say }: ReportWords): string {
  const { limits } = report;
  const back = c.legs[c.legs.length - 1]?.from ?? report.task.start.name;
  return [
    ...(limits.searchMinutes > 0 ? [say.search(limits.searchMinutes, limits.searchPeopleAbreast)] : []),
    say.thenBack(back, limits.relaunches),
    ...(limits.turnRoundMinutes === null ? [] : [say.turnRound(limits.turnRoundMinutes)]),
  ].join(' ');
}

/** A way out stands on the card only where hazards are assessed and parties that followed it kept out of them. */
export function wayOutText(report: Report, c: Candidate, { card: say }: ReportWords): string {
  const way = c.wayOut;
  const clear = way !== undefined && way.hazardTrials * WAY_OUT_ONE_IN < way.trials;
  return c.hazard !== 'not assessed' && clear
    ? `${way.says} ${say.entered(way.hazardTrials, way.trials)}`
    : say.noWayOut(report.task.start.name);
}

export function hazardText(c: Candidate, leg: ReportLeg, words: ReportWords): string {
  if (c.hazard === 'not assessed') return words.notAssessed;
  return leg.hazardSide === undefined ? words.card.noHazard : words.card.hazardSide(leg.hazardSide);
}
