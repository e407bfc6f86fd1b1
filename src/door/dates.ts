import type { Language } from './reading.ts';

const MONTHS: Readonly<Record<Language, readonly string[]>> = {
  en: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  // abbreviations of DIN 5008 with a point, months of up to four letters whole; from memory
  de: ['Jan.', 'Feb.', 'März', 'Apr.', 'Mai', 'Juni', 'Juli', 'Aug.', 'Sep.', 'Okt.', 'Nov.', 'Dez.'],
};

/** "25 Nov 2026", "25. Nov. 2026" for an ISO date; a year, or a year and month, likewise. Anything else stays as it is. */
export function dateText(iso: string, language: Language): string {
  const hit = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?(?:T.*)?$/.exec(iso);
  if (hit === null) return iso;
  const [, year, month, day] = hit;
  if (month === undefined) return year!;
  const name = MONTHS[language][Number(month) - 1];
  if (name === undefined) return iso;
  if (day === undefined) return `${name} ${year}`;
  return `${Number(day)}${language === 'de' ? '.' : ''} ${name} ${year}`;
}
