import { distance } from '../math/plane.ts';
import { OUTCOMES } from '../report/report.ts';
import type { Story } from '../walk/story.ts';
import { NAMES } from './outcome-names.ts';

/** One attempt as lines to read: minute, leg, what happened, and how far the party was from where it believed it was. */
export function storyText(name: string, story: Story): string {
  const minutes = Math.round(story.seconds / 60);
  const lines = story.events.map((e) => {
    const off = Math.round(distance(e.at, e.believed));
    const minute = String(Math.round(e.seconds / 60)).padStart(4);
    return `${minute} min  leg ${e.leg + 1}  ${e.kind} (truly ${off} m from where it believes it is, sure to ${e.sdMetres} m)`;
  });
  return [
    `${name}, attempt ${story.trial}: ${NAMES[OUTCOMES[story.outcome]!]} after ${minutes} minutes`,
    ...lines,
    '',
  ].join('\n');
}
