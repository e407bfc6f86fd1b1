import type { Reading } from './reading.ts';

/** Metres of the international foot and of three of them, a yard (agreement of 1959). */
export const FOOT = 0.3048;
export const YARD = 3 * FOOT;
export const MILE = 1760 * YARD;
const INCH = FOOT / 12;
/** Seconds of an hour, for miles per hour. */
const HOUR = 3600;

/** Figures as people want them: metres or yards and feet, degrees or mils, decimals after a point or a comma. */
export interface Measures {
  readonly units: Reading['units'];
  /** "350 m": whole tens from 100, whole fives below, as it is said aloud. */
  readonly about: (metres: number) => string;
  /** "353 m". */
  readonly short: (metres: number) => string;
  /** "0.35 km" from 995 m on, metres below. */
  readonly long: (metres: number) => string;
  /** "1.5 km" with one decimal where it needs one, metres below 1000. */
  readonly far: (metres: number) => string;
  /** Kilometres or miles with one decimal, without their unit. */
  readonly distance: (metres: number) => string;
  /** Heights and climbs. */
  readonly height: (metres: number) => string;
  /** The side of a cell of data, which may be of half metres. */
  readonly cell: (metres: number) => string;
  /** "9 m/s", "20 mph". */
  readonly wind: (metresPerSecond: number) => string;
  /** A length on paper: "40 mm", "1.44 in". */
  readonly onPaper: (millimetres: number) => string;
  /** Double paces to 100 m, or of as many to 100 yards. */
  readonly paces: (toHundredMetres: number) => { readonly count: string; readonly to: string };
  /** "074°", or of mils, 6400 to the circle, "1316". */
  readonly bearing: (degrees: number) => string;
  /** The same inside a sentence, mils with their name. */
  readonly bearingSaid: (degrees: number) => string;
  /** A number with so many decimals at most, none for show. */
  readonly number: (value: number, decimals?: number) => string;
  /** Units of the columns whose cells are bare numbers. */
  readonly unit: { readonly short: string; readonly height: string };
  readonly bare: { readonly short: (metres: number) => number; readonly height: (metres: number) => number };
}

export function measuresOf({ language, units, bearings }: Reading): Measures {
  const point = (text: string) => (language === 'de' ? text.replace('.', ',') : text);
  const number = (value: number, decimals = 2) => point(String(decimal(value, decimals)));
  const mils = bearings === 'mils';
  const bearing = mils ? milsText : degreesText;
  // "Strich" for the mil of 6400 is from memory
  // of tenths of a degree, as reports keep bearings: a sentence and the table beside it say the same
  const milsSaid = (degrees: number) =>
    `${milsText(decimal(degrees, 1))} ${language === 'de' ? 'Strich' : 'mils'}`;
  const bearingSaid = mils ? milsSaid : degreesText;
  if (units === 'metric') {
    return {
      units,
      about: (m) => `${said(m)} m`,
      short: (m) => `${Math.round(m)} m`,
      long: (m) => (m < 995 ? `${Math.round(m)} m` : `${point((m / 1000).toFixed(m < 9950 ? 2 : 1))} km`),
      far: (m) => (m >= 1000 ? `${number(Math.round(m / 100) / 10, 1)} km` : `${Math.round(m)} m`),
      distance: (m) => point((m / 1000).toFixed(1)),
      height: (m) => `${Math.round(m)} m`,
      cell: (m) => `${number(m, 1)} m`,
      wind: (speed) => `${number(speed)} m/s`,
      onPaper: (mm) => `${number(mm, 1)} mm`,
      paces: (count) => ({ count: number(count), to: '100 m' }),
      bearing,
      bearingSaid,
      number,
      unit: { short: 'm', height: 'm' },
      bare: { short: Math.round, height: Math.round },
    };
  }
  const yards = (m: number) => Math.round(m / YARD);
  const feet = (m: number) => Math.round(m / FOOT);
  return {
    units,
    about: (m) => `${said(m / YARD)} yd`,
    short: (m) => `${yards(m)} yd`,
    long: (m) => (yards(m) < 1750 ? `${yards(m)} yd` : `${point((m / MILE).toFixed(2))} mi`),
    far: (m) => (m >= MILE ? `${number(m / MILE, 1)} mi` : `${yards(m)} yd`),
    distance: (m) => point((m / MILE).toFixed(1)),
    height: (m) => `${feet(m)} ft`,
    cell: (m) => `${yards(m)} yd`,
    wind: (speed) => `${Math.round((speed * HOUR) / MILE)} mph`,
    onPaper: (mm) => `${number(mm / 1000 / INCH, 2)} in`,
    paces: (count) => ({ count: String(Math.round(count * YARD)), to: '100 yd' }),
    bearing,
    bearingSaid,
    number,
    unit: { short: 'yd', height: 'ft' },
    bare: { short: yards, height: feet },
  };
}

/** Whole degrees in three figures. */
function degreesText(degrees: number): string {
  return `${String(Math.round(degrees) % 360).padStart(3, '0')}°`;
}

/** Whole mils in four figures, 6400 to the circle (the mil of NATO's compasses). */
function milsText(degrees: number): string {
  return String(Math.round((degrees * 6400) / 360) % 6400).padStart(4, '0');
}

function said(length: number): number {
  const unit = length >= 100 ? 10 : 5;
  return Math.round(length / unit) * unit;
}

function decimal(value: number, decimals: number): number {
  let unit = 1;
  for (let i = 0; i < decimals; i++) unit *= 10;
  return Math.round(value * unit) / unit;
}
