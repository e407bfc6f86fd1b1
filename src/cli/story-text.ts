import { measuresOf } from '../door/measures.ts';
import type { Reading } from '../door/reading.ts';
import { distance } from '../math/plane.ts';
import { OUTCOMES } from '../report/report.ts';
import { eventText, TOLD_WORDS } from '../report/told-words.ts';
import type { ToldRoute } from '../study/tell.ts';
import { CLI_WORDS } from './words.ts';

/** One attempt as lines to read: minute, leg, what happened, and how far the party was from where it believed it was. */
export function storyText({ name, ends, story }: ToldRoute, reading: Reading): string {
  const words = CLI_WORDS[reading.language];
  const told = TOLD_WORDS[reading.language];
  const { short } = measuresOf(reading);
  const lines = story.events.map((e) => {
    const minute = String(Math.round(e.seconds / 60)).padStart(4);
    const happened = eventText(e.kind, e.leg, ends, told);
    return words.event(minute, e.leg + 1, happened, short(distance(e.at, e.believed)), short(e.sdMetres));
  });
  const minutes = Math.round(story.seconds / 60);
  return [words.told(name, story.trial, told.outcomes[OUTCOMES[story.outcome]!], minutes), ...lines, ''].join(
    '\n',
  );
}
