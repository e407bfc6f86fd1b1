import type { Feature } from '../features/feature.ts';
import { nameOf } from '../route/says.ts';
import type { Task } from '../study/task.ts';

/** The conditions and the party in one sentence: what every figure stands under. */
export function sentenceOf(task: Task): string {
  const { conditions, party, limits } = task;
  const { below, above, cloudBase } = conditions.visibility;
  const air =
    cloudBase === null || below === above
      ? `visibility ${distanceText(below)}`
      : `cloud at ${cloudBase} m (${distanceText(above)} to be seen in it, ${distanceText(below)} below)`;
  const wind = conditions.wind.metresPerSecond >= 5 ? `, wind ${conditions.wind.metresPerSecond} m/s` : '';
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
  return `From ${startName(task)} to ${targetName(task)}: ${air}, ground ${conditions.ground}${wind}${light}; ${people}${compass}${time}${search}.`;
}

export function startName(task: Task): string {
  return task.start.feature === null ? 'the start' : plainName(task.start.feature);
}

export function targetName(task: Task): string {
  return plainName(task.target.feature);
}

function plainName(feature: Feature): string {
  return nameOf(feature);
}

function distanceText(metres: number): string {
  return metres >= 1000 ? `${Math.round(metres / 100) / 10} km` : `${Math.round(metres)} m`;
}

function article(word: string): string {
  return /^[aeiou]/.test(word) ? 'an' : 'a';
}

function times(n: number): string {
  return n === 0 ? 'no second try' : n === 1 ? 'one second try' : `${n} further tries`;
}
