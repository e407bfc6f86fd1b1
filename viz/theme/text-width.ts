/** A generous guess of the width of a text in px: drawings are laid out without a font at hand. */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const c of text) ems += /[ilj.,:;'’|!\s]/.test(c) ? 0.32 : /[mwMW—…]/.test(c) ? 0.92 : 0.6;
  return ems * size;
}

/** A text cut to a width, with an ellipsis where something was left out. */
export function fitted(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  let kept = text;
  while (kept.length > 1 && textWidth(`${kept}…`, size) > width) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}
