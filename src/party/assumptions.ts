import type { Conditions } from '../conditions/conditions.ts';
import { type Air, dayFactors } from '../conditions/factors.ts';
import { FOOT, MILE, measuresOf, YARD } from '../door/measures.ts';
import { type Language, PLAIN_READING, type Reading } from '../door/reading.ts';
import type { Assumption } from './assumption.ts';
import { ASSUMPTION_WORDS, WANDER_BOTH } from './assumption-words.ts';
import type { Party, Skill } from './party.ts';
import { skillOf } from './presets.ts';
import { RESIGHT_WITH_MARKS, RESIGHT_WITHOUT_MARKS, wanderMetres } from './straight-leg.ts';

/** Parameters that are shares and said in per cent. */
const SHARES: ReadonlySet<keyof Skill> = new Set([
  'paceShare',
  'miscountPerKm',
  'timingShare',
  'timingBiasShare',
  'reverseShare',
  'slipShare',
  'declinationShare',
  'noticedShare',
  'recognisedShare',
  'lookalikeShare',
  'admitsLostShare',
  'junctionShare',
  'speedShare',
]);

/** What turns a value in metres into the one that its imperial row says; of the wander because it grows with the root of the way. */
const IMPERIAL: Readonly<Partial<Record<keyof Skill, number>>> = {
  wanderMetres: 1 / Math.sqrt(YARD),
  miscountPerKm: MILE / 1000,
  contourMetres: YARD / FOOT,
  admitsLostShare: YARD,
  searchMetresPerMinute: 1 / YARD,
};

/** Every parameter of a party with its mark: the preset's are common practice, those that differ from it were given in the task. */
export function assumptionsOf(party: Party, reading: Reading = PLAIN_READING): Assumption[] {
  const { language, units } = reading;
  const words = ASSUMPTION_WORDS[language];
  const preset = skillOf(party.skill);
  return (Object.keys(words.rows) as (keyof Skill)[]).map((key): Assumption => {
    const given = JSON.stringify(party.set[key]) !== JSON.stringify(preset[key]);
    return {
      name: ((units === 'imperial' && words.imperial[key]) || words.rows[key]).name,
      value: valueSaid(party.set, key, reading),
      mark: given ? 'given in the task' : 'common practice',
      source: given
        ? words.inPlaceOf(valueSaid(preset, key, reading))
        : `${words.preset(party.skill)}; ${words.practice}`,
    };
  });
}

/** What the day multiplies speed and errors by, off the path, below and above the cloud base. */
export function assumptionsOfDay(conditions: Conditions, language: Language = 'en'): Assumption[] {
  const { below, above } = dayFactors(conditions);
  return conditions.visibility.cloudBase === null
    ? [dayRow('all', below, language)]
    : [dayRow('below', below, language), dayRow('above', above, language)];
}

function dayRow(where: 'all' | 'below' | 'above', air: Air, language: Language): Assumption {
  const words = ASSUMPTION_WORDS[language];
  const { speed, bearing, pace, detection } = air.offPath;
  const [s, b, p, d] = [speed, bearing, pace, detection].map((x) => figure(x, language));
  return {
    name: words.day(where),
    value: words.dayValue(s!, b!, p!, d!),
    mark: 'common practice',
    source: `${words.daySource}; ${words.practice}`,
  };
}

function valueSaid(skill: Skill, key: keyof Skill, { language, units }: Reading): string {
  const { rows, imperial } = ASSUMPTION_WORDS[language];
  const own = units === 'imperial' ? imperial[key] : undefined;
  const template = (own ?? rows[key]).value;
  const said = (value: number) => figure(own === undefined ? value : value * IMPERIAL[key]!, language);
  if (key === 'contourMetres') {
    const { mean, sd } = skill.contourMetres;
    return template.replace('{mean}', said(mean)).replace('{sd}', said(sd));
  }
  if (key === 'wanderMetres') {
    const [marked, unmarked] = [true, false].map((marks) => said(wanderMetres(skill, marks)));
    if (skill.wanderMetres !== null) return template.replace('{}', marked!);
    const { short, unit } = measuresOf({ language, units, bearings: 'degrees' });
    const every = (metres: number) => short(metres).replace(/\D+$/, '');
    return WANDER_BOTH[language]
      .replace('{with}', marked!)
      .replace('{without}', unmarked!)
      .replace('{near}', every(RESIGHT_WITH_MARKS))
      .replace('{far}', every(RESIGHT_WITHOUT_MARKS))
      .replaceAll('{m}', unit.short);
  }
  const value = skill[key];
  return template.replace('{}', said(SHARES.has(key) ? 100 * value : value));
}

/** At most two decimals, none for show; a minus sign, no hyphen. */
function figure(value: number, language: Language): string {
  const text = String(Math.round(Math.abs(value) * 100) / 100);
  const sign = value < 0 && text !== '0' ? '−' : '';
  return sign + (language === 'de' ? text.replace('.', ',') : text);
}
