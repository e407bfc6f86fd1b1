import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import { thousands } from '../theme/words.ts';

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

export function notFoundText(report: Report, c: Candidate): string {
  const { limits } = report;
  const last = c.legs[c.legs.length - 1];
  const back = last?.from ?? report.task.start.name;
  const parts: string[] = [];
  if (limits.searchMinutes > 0) {
    const abreast = limits.searchPeopleAbreast > 1 ? `, ${limits.searchPeopleAbreast} abreast` : '';
    parts.push(
      `Search for up to ${limits.searchMinutes} minutes${abreast}, in sight and voice of each other.`,
    );
  }
  parts.push(
    limits.relaunches > 0
      ? `Then back to ${back} and try ${limits.relaunches === 1 ? 'once' : `${limits.relaunches} times`} more.`
      : `Then back to ${back}.`,
  );
  if (limits.turnRoundMinutes !== null) {
    parts.push(`Turn round ${limits.turnRoundMinutes} minutes after setting off, found or not.`);
  }
  return parts.join(' ');
}

/** A way out stands on the card only where hazards are assessed and parties that followed it kept out of them. */
export function wayOutText(report: Report, c: Candidate): string {
  const way = c.wayOut;
  const clear = way !== undefined && way.hazardTrials * WAY_OUT_ONE_IN < way.trials;
  if (c.hazard !== 'not assessed' && clear) {
    return `${way.says} (${thousands(way.hazardTrials)} of ${thousands(way.trials)} simulated parties entered a hazard)`;
  }
  return `None found: turn back to ${report.task.start.name}, the way you came.`;
}

export function hazardText(c: Candidate, leg: ReportLeg): string {
  if (c.hazard === 'not assessed') return 'not assessed';
  return leg.hazardSide === undefined
    ? 'none within 50 m in the data'
    : `${leg.hazardSide === 'both sides' ? 'on' : 'on the'} ${leg.hazardSide}`;
}

/** What tells that the leg has gone too far. */
export function stopsText(leg: ReportLeg): string | null {
  return leg.catching === undefined
    ? null
    : `${leg.catching.name}, ${Math.round(leg.catching.beyondMetres)} m beyond`;
}

export function aimText(leg: ReportLeg): string | null {
  return leg.aimOff === undefined
    ? null
    : `${Math.round(leg.aimOff.metres)} m ${leg.aimOff.side}: on the line turn ${leg.aimOff.side === 'left' ? 'right' : 'left'}`;
}
