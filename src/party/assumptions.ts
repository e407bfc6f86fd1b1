import type { Conditions } from '../conditions/conditions.ts';
import { type Air, dayFactors } from '../conditions/factors.ts';
import type { Language } from '../door/reading.ts';
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

/** Every parameter of a party with its mark: the preset's are common practice, those that differ from it were given in the task. */
export function assumptionsOf(party: Party, language: Language = 'en'): Assumption[] {
  const words = ASSUMPTION_WORDS[language];
  const preset = skillOf(party.skill);
  return (Object.keys(words.rows) as (keyof Skill)[]).map((key): Assumption => {
    const given = JSON.stringify(party.set[key]) !== JSON.stringify(preset[key]);
    return {
      name: words.rows[key].name,
      value: valueSaid(party.set, key, language),
      mark: given ? 'given in the task' : 'common practice',
      source: given
        ? words.inPlaceOf(valueSaid(preset, key, language))
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

function valueSaid(skill: Skill, key: keyof Skill, language: Language): string {
  const template = ASSUMPTION_WORDS[language].rows[key].value;
  if (key === 'contourMetres') {
    const { mean, sd } = skill.contourMetres;
    return template.replace('{mean}', figure(mean, language)).replace('{sd}', figure(sd, language));
  }
  if (key === 'wanderMetres') {
    const [marked, unmarked] = [true, false].map((marks) => figure(wanderMetres(skill, marks), language));
    if (skill.wanderMetres !== null) return template.replace('{}', marked!);
    return WANDER_BOTH[language]
      .replace('{with}', marked!)
      .replace('{without}', unmarked!)
      .replace('{near}', String(RESIGHT_WITH_MARKS))
      .replace('{far}', String(RESIGHT_WITHOUT_MARKS));
  }
  const value = skill[key];
  return template.replace('{}', figure(SHARES.has(key) ? 100 * value : value, language));
}

/** At most two decimals, none for show; a minus sign, no hyphen. */
function figure(value: number, language: Language): string {
  const text = String(Math.round(Math.abs(value) * 100) / 100);
  const sign = value < 0 && text !== '0' ? '−' : '';
  return sign + (language === 'de' ? text.replace('.', ',') : text);
}
