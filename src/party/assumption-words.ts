import type { Language } from '../door/reading.ts';
import type { Skill, SkillLevel } from './party.ts';

/** What the parameters of a party are called and how their values are said, once per language. */
interface AssumptionWords {
  readonly rows: Readonly<Record<keyof Skill, Row>>;
  /** Rows that are said otherwise in feet, yards and miles. */
  readonly imperial: Readonly<Partial<Record<keyof Skill, Row>>>;
  readonly practice: string;
  readonly preset: (skill: SkillLevel) => string;
  readonly inPlaceOf: (value: string) => string;
  readonly day: (air: 'all' | 'below' | 'above') => string;
  readonly dayValue: (speed: string, bearing: string, pace: string, detection: string) => string;
  readonly daySource: string;
}

interface Row {
  readonly name: string;
  /** The value filled in, `{mean}` and `{sd}` where there are two of them. */
  readonly value: string;
}

/** A value of `wanderMetres` that follows from re-sighting is said for marks near and far; `{m}` is the unit. */
export const WANDER_BOTH: Readonly<Record<Language, string>> = {
  en: '{with} {m} per √(100 {m}) with marks every {near} {m}, {without} {m} without (every {far} {m})',
  de: '{with} {m} je √(100 {m}) mit Peilmarken alle {near} {m}, {without} {m} ohne (alle {far} {m})',
};

const ENGLISH: AssumptionWords = {
  rows: {
    // drift's direction alone is taught and published
    bearingDegrees: { name: 'bearing taken and followed, 1 SD', value: '{}°' },
    resightDegrees: { name: 're-sighting, 1 SD', value: '{}°' },
    wanderMetres: { name: 'wander, 1 SD', value: '{} m per √(100 m)' },
    paceShare: { name: 'pace count, 1 SD of the day', value: '{} % of the distance' },
    miscountPerKm: { name: 'miscount by 100 m', value: '{} % per km paced' },
    timingShare: { name: 'timing, 1 SD', value: '{} % of the distance' },
    timingBiasShare: { name: 'bias of timing', value: '{} % of the distance' },
    driftDegrees: { name: 'drift downhill across a slope', value: '{}° × tangent of the slope' },
    reverseShare: { name: 'needle followed the wrong way round', value: '{} % of bearings' },
    slipShare: { name: 'slip of 10° in setting a bearing', value: '{} % of bearings' },
    declinationShare: { name: 'declination left out or reversed', value: '{} % of days' },
    contourMetres: { name: 'height when contouring', value: '{mean} ± {sd} m per 100 m on a slope of 20°' },
    aspectDegrees: { name: 'aspect of a slope, 1 SD', value: '{}°' },
    noticedShare: { name: 'tick-off feature noticed when in range', value: '{} %' },
    recognisedShare: { name: 'small target recognised when seen', value: '{} %' },
    overrun: { name: 'overrun before turning back', value: '{} × the distance' },
    lookalikeShare: { name: 'lookalike accepted at a clash of 2 SD', value: '{} %' },
    admitsLostShare: { name: 'admits to be lost at a clash of 2 SD', value: '{} % per 100 m' },
    junctionShare: { name: 'wrong turn at a junction', value: '{} %' },
    handrailLossPerKm: { name: 'loss of a handrail', value: '{} × the rate of its kind' },
    speedShare: { name: "day's walking speed, 1 SD", value: '{} %' },
    searchMetresPerMinute: { name: 'searching pace of one person', value: '{} m/min' },
  },
  imperial: {
    wanderMetres: { name: 'wander, 1 SD', value: '{} yd per √(100 yd)' },
    // the model counts in hundreds of metres
    miscountPerKm: { name: 'miscount by 110 yd', value: '{} % per mile paced' },
    contourMetres: { name: 'height when contouring', value: '{mean} ± {sd} ft per 100 yd on a slope of 20°' },
    admitsLostShare: { name: 'admits to be lost at a clash of 2 SD', value: '{} % per 100 yd' },
    searchMetresPerMinute: { name: 'searching pace of one person', value: '{} yd/min' },
  },
  practice: 'common practice, no published source',
  preset: (skill) => `${skill} preset`,
  inPlaceOf: (value) => `the task, in place of ${value}`,
  day: (air) =>
    `multipliers of the day${air === 'all' ? '' : air === 'below' ? ' below cloud' : ' in cloud'}, off the path`,
  dayValue: (speed, bearing, pace, detection) =>
    `speed × ${speed}, bearing error × ${bearing}, pace error × ${pace}, range of sight × ${detection}`,
  daySource: 'by visibility, light, wind and wetness',
};

const LEVELS: Readonly<Record<SkillLevel, string>> = {
  novice: 'unerfahren',
  competent: 'geübt',
  expert: 'sehr erfahren',
};

// terms from memory, no source
const GERMAN: AssumptionWords = {
  rows: {
    bearingDegrees: { name: 'Marschzahl eingestellt und gegangen, 1 Standardabweichung', value: '{}°' },
    resightDegrees: { name: 'erneutes Anpeilen, 1 Standardabweichung', value: '{}°' },
    wanderMetres: { name: 'Abweichen unterwegs, 1 Standardabweichung', value: '{} m je √(100 m)' },
    paceShare: { name: 'Schrittzählung, 1 Standardabweichung des Tages', value: '{} % der Strecke' },
    miscountPerKm: { name: 'Verzählen um 100 m', value: '{} % je gezähltem km' },
    timingShare: { name: 'Messen nach der Uhr, 1 Standardabweichung', value: '{} % der Strecke' },
    timingBiasShare: { name: 'systematischer Fehler beim Messen nach der Uhr', value: '{} % der Strecke' },
    driftDegrees: { name: 'Abdrift hangabwärts beim Queren', value: '{}° × Tangens der Hangneigung' },
    reverseShare: { name: 'Nadel falsch herum abgelesen', value: '{} % der Marschzahlen' },
    slipShare: { name: 'Einstellfehler von 10°', value: '{} % der Marschzahlen' },
    declinationShare: { name: 'Missweisung vergessen oder falsch herum angebracht', value: '{} % der Tage' },
    contourMetres: {
      name: 'Höhe beim höhengleichen Queren',
      value: '{mean} ± {sd} m je 100 m auf einem Hang von 20°',
    },
    aspectDegrees: { name: 'Exposition eines Hangs, 1 Standardabweichung', value: '{}°' },
    noticedShare: { name: 'Merkpunkt in Sichtweite bemerkt', value: '{} %' },
    recognisedShare: { name: 'kleines Ziel erkannt, wenn gesehen', value: '{} %' },
    overrun: { name: 'Weitergehen über das Ziel hinaus vor dem Umkehren', value: '{} × die Strecke' },
    lookalikeShare: {
      name: 'Verwechslung hingenommen bei Widerspruch von 2 Standardabweichungen',
      value: '{} %',
    },
    admitsLostShare: {
      name: 'gibt zu, verirrt zu sein, bei Widerspruch von 2 Standardabweichungen',
      value: '{} % je 100 m',
    },
    junctionShare: { name: 'falsch abgebogen an einer Abzweigung', value: '{} %' },
    handrailLossPerKm: { name: 'Verlieren einer Leitlinie', value: '{} × die Rate ihrer Art' },
    speedShare: { name: 'Gehtempo des Tages, 1 Standardabweichung', value: '{} %' },
    searchMetresPerMinute: { name: 'Suchtempo einer Person', value: '{} m/min' },
  },
  imperial: {
    wanderMetres: { name: 'Abweichen unterwegs, 1 Standardabweichung', value: '{} yd je √(100 yd)' },
    miscountPerKm: { name: 'Verzählen um 110 yd', value: '{} % je gezählter Meile' },
    contourMetres: {
      name: 'Höhe beim höhengleichen Queren',
      value: '{mean} ± {sd} ft je 100 yd auf einem Hang von 20°',
    },
    admitsLostShare: {
      name: 'gibt zu, verirrt zu sein, bei Widerspruch von 2 Standardabweichungen',
      value: '{} % je 100 yd',
    },
    searchMetresPerMinute: { name: 'Suchtempo einer Person', value: '{} yd/min' },
  },
  practice: 'übliche Praxis, ohne veröffentlichte Quelle',
  preset: (skill) => `Voreinstellung „${LEVELS[skill]}“`,
  inPlaceOf: (value) => `die Aufgabe, statt ${value}`,
  day: (air) =>
    `Faktoren des Tages${air === 'all' ? '' : air === 'below' ? ' unter den Wolken' : ' in den Wolken'}, abseits von Wegen`,
  dayValue: (speed, bearing, pace, detection) =>
    `Tempo × ${speed}, Richtungsfehler × ${bearing}, Schrittfehler × ${pace}, Sichtweite × ${detection}`,
  daySource: 'nach Sicht, Licht, Wind und Nässe',
};

export const ASSUMPTION_WORDS: Readonly<Record<Language, AssumptionWords>> = { en: ENGLISH, de: GERMAN };
