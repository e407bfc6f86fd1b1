/** A–C solid, D–F dashed in the same three hues; then the hues again, dotted. */
export interface RouteStyle {
  readonly hue: 1 | 2 | 3;
  readonly dash: 'solid' | 'dashed' | 'dotted';
  /** Classes for a line or a mark of this route. */
  readonly classes: string;
}

const DASHES = ['solid', 'dashed', 'dotted'] as const;

export function routeStyle(letter: string): RouteStyle {
  const index = Math.max(0, (letter.codePointAt(0) ?? 65) - 65);
  const hue = ((index % 3) + 1) as 1 | 2 | 3;
  const dash = DASHES[Math.floor(index / 3) % 3]!;
  return { hue, dash, classes: `route hue-${hue} ${dash}` };
}

/** Solid where a feature is all but sure, broken where it is likely, dotted where it is not. */
export function doubtDash(exists: number): 'sure' | 'likely' | 'doubtful' {
  return exists >= 0.9 ? 'sure' : exists >= 0.6 ? 'likely' : 'doubtful';
}
