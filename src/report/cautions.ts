/** What is printed with every figure. Local rules and the qualified leader stand above all of it. */
export const CAUTIONS: readonly string[] = [
  'For learning and planning. On the day the ground and the weather decide, and the qualified leader and the event’s rules above any figure here.',
  'A legal way may be no path on the ground, and a path may be no legal way: follow local access law, closures and wildlife notices.',
  'Carry map, compass, watch, whistle, light and shelter; a phone is an extra. A compass errs near iron.',
  'Keep off edges and out of streams in spate. What is absent from the data may still be there.',
  'If the target is not found within the allowance, go back to a known point. Never split the party out of sight and voice.',
  'If lost: stop, shelter, think; call the local emergency number if need be. Leave your plan and an overdue time with somebody.',
  'Times leave out rests and injuries, and the slowest sets the pace. Steep ground, snow, ice and avalanche ground are not assessed.',
  'Do not publish sensitive sites. Every figure is modelled, not observed.',
];
