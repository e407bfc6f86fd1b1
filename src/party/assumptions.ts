import type { Conditions } from '../conditions/conditions.ts';
import { type Air, dayFactors } from '../conditions/factors.ts';
import type { Assumption } from './assumption.ts';
import type { Party, Skill } from './party.ts';
import { skillOf } from './presets.ts';
import { RESIGHT_WITH_MARKS, RESIGHT_WITHOUT_MARKS, wanderMetres } from './straight-leg.ts';

const PRACTICE = 'common practice, no published source';

type Row = readonly [name: string, say: (skill: Skill) => string, key: keyof Skill];

const percent = (share: number) => `${trim(100 * share)} %`;
const signed = (value: number) => (value < 0 ? `−${trim(-value)}` : trim(value));

/** What a parameter is called and how its value is said; drift's direction alone is taught and published. */
const ROWS: readonly Row[] = [
  ['bearing taken and followed, 1 SD', (s) => `${trim(s.bearingDegrees)}°`, 'bearingDegrees'],
  ['re-sighting, 1 SD', (s) => `${trim(s.resightDegrees)}°`, 'resightDegrees'],
  ['wander, 1 SD', wander, 'wanderMetres'],
  ['pace count, 1 SD of the day', (s) => `${percent(s.paceShare)} of the distance`, 'paceShare'],
  ['miscount by 100 m', (s) => `${percent(s.miscountPerKm)} per km paced`, 'miscountPerKm'],
  ['timing, 1 SD', (s) => `${percent(s.timingShare)} of the distance`, 'timingShare'],
  ['bias of timing', (s) => `${signed(100 * s.timingBiasShare)} % of the distance`, 'timingBiasShare'],
  ['drift downhill across a slope', (s) => `${trim(s.driftDegrees)}° × tangent of the slope`, 'driftDegrees'],
  ['needle followed the wrong way round', (s) => `${percent(s.reverseShare)} of bearings`, 'reverseShare'],
  ['slip of 10° in setting a bearing', (s) => `${percent(s.slipShare)} of bearings`, 'slipShare'],
  ['declination left out or reversed', (s) => `${percent(s.declinationShare)} of days`, 'declinationShare'],
  ['height when contouring', contour, 'contourMetres'],
  ['aspect of a slope, 1 SD', (s) => `${trim(s.aspectDegrees)}°`, 'aspectDegrees'],
  ['tick-off feature noticed when in range', (s) => percent(s.noticedShare), 'noticedShare'],
  ['small target recognised when seen', (s) => percent(s.recognisedShare), 'recognisedShare'],
  ['overrun before turning back', (s) => `${trim(s.overrun)} × the distance`, 'overrun'],
  ['lookalike accepted at a clash of 2 SD', (s) => percent(s.lookalikeShare), 'lookalikeShare'],
  [
    'admits to be lost at a clash of 2 SD',
    (s) => `${percent(s.admitsLostShare)} per 100 m`,
    'admitsLostShare',
  ],
  ['wrong turn at a junction', (s) => percent(s.junctionShare), 'junctionShare'],
  ['loss of a handrail', (s) => `${trim(s.handrailLossPerKm)} × the rate of its kind`, 'handrailLossPerKm'],
  ["day's walking speed, 1 SD", (s) => percent(s.speedShare), 'speedShare'],
  ['searching pace of one person', (s) => `${trim(s.searchMetresPerMinute)} m/min`, 'searchMetresPerMinute'],
];

/** Every parameter of a party with its mark: the preset's are common practice, those that differ from it were given in the task. */
export function assumptionsOf(party: Party): Assumption[] {
  const preset = skillOf(party.skill);
  return ROWS.map(([name, say, key]): Assumption => {
    const given = JSON.stringify(party.set[key]) !== JSON.stringify(preset[key]);
    return {
      name,
      value: say(party.set),
      mark: given ? 'given in the task' : 'common practice',
      source: given ? `the task, in place of ${say(preset)}` : `${party.skill} preset; ${PRACTICE}`,
    };
  });
}

/** What the day multiplies speed and errors by, off the path, below and above the cloud base. */
export function assumptionsOfDay(conditions: Conditions): Assumption[] {
  const { below, above } = dayFactors(conditions);
  const rows = [dayRow(conditions.visibility.cloudBase === null ? '' : ' below cloud', below)];
  if (conditions.visibility.cloudBase !== null) rows.push(dayRow(' in cloud', above));
  return rows;
}

function dayRow(where: string, air: Air): Assumption {
  const { speed, bearing, pace, detection } = air.offPath;
  return {
    name: `multipliers of the day${where}, off the path`,
    value: `speed × ${trim(speed)}, bearing error × ${trim(bearing)}, pace error × ${trim(pace)}, range of sight × ${trim(detection)}`,
    mark: 'common practice',
    source: `by visibility, light, wind and wetness; ${PRACTICE}`,
  };
}

function wander(skill: Skill): string {
  const say = (marks: boolean) => `${trim(wanderMetres(skill, marks))} m`;
  if (skill.wanderMetres !== null) return `${say(true)} per √(100 m)`;
  return `${say(true)} per √(100 m) with marks every ${RESIGHT_WITH_MARKS} m, ${say(false)} without (every ${RESIGHT_WITHOUT_MARKS} m)`;
}

function contour({ contourMetres: { mean, sd } }: Skill): string {
  return `${signed(mean)} ± ${trim(sd)} m per 100 m on a slope of 20°`;
}

/** At most two decimals, none for show. */
function trim(value: number): string {
  return String(Math.round(value * 100) / 100);
}
