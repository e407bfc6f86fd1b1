import type { Doubt } from '../features/feature.ts';
import type { Skill } from '../party/party.ts';

/** A ruin, a wall, a wood is hardly mistaken once seen. Common practice. */
const PLAIN_TO_ALL = 0.95;

/**
 * Chance that a thing that is seen is also recognised, one draw per trial and object. Low visibility (a tiny spring) takes the
 * skill's share, high is at least .95, medium lies halfway.
 */
export function recognisedShare(skill: Skill, doubt: Doubt): number {
  const low = skill.recognisedShare;
  const high = Math.max(low, PLAIN_TO_ALL);
  return doubt.visibility === 'low' ? low : doubt.visibility === 'high' ? high : (low + high) / 2;
}
