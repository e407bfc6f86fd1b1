import type { Limits, Party, Skill, SkillLevel } from './party.ts';

/*
 * Three levels of skill. Every figure is common practice without a published source: a visible, editable default that
 * the report lists as an assumption (`assumptionsOf`).
 */
const SKILLS: Readonly<Record<SkillLevel, Skill>> = {
  novice: {
    bearingDegrees: 5,
    resightDegrees: 6,
    wanderMetres: null,
    paceShare: 0.1,
    miscountPerKm: 0.08,
    timingShare: 0.2,
    timingBiasShare: 0,
    driftDegrees: 15,
    reverseShare: 0.02,
    slipShare: 0.03,
    declinationShare: 0.15,
    contourMetres: { mean: -4, sd: 5 },
    aspectDegrees: 20,
    noticedShare: 0.8,
    recognisedShare: 0.7,
    overrun: 1.5,
    lookalikeShare: 0.6,
    admitsLostShare: 0.15,
    junctionShare: 0.08,
    handrailLossPerKm: 2,
    speedShare: 0.1,
    searchMetresPerMinute: 25,
  },
  competent: {
    bearingDegrees: 2.5,
    resightDegrees: 3.2,
    wanderMetres: null,
    paceShare: 0.05,
    miscountPerKm: 0.03,
    timingShare: 0.12,
    timingBiasShare: 0,
    driftDegrees: 7,
    reverseShare: 0.004,
    slipShare: 0.01,
    declinationShare: 0.03,
    contourMetres: { mean: -2, sd: 3 },
    aspectDegrees: 10,
    noticedShare: 0.92,
    recognisedShare: 0.9,
    overrun: 1.2,
    lookalikeShare: 0.25,
    admitsLostShare: 0.4,
    junctionShare: 0.03,
    handrailLossPerKm: 1,
    speedShare: 0.1,
    searchMetresPerMinute: 25,
  },
  expert: {
    bearingDegrees: 1.2,
    resightDegrees: 1.6,
    wanderMetres: null,
    paceShare: 0.025,
    miscountPerKm: 0.01,
    timingShare: 0.08,
    timingBiasShare: 0,
    driftDegrees: 3,
    reverseShare: 0.001,
    slipShare: 0.003,
    declinationShare: 0.005,
    contourMetres: { mean: -0.5, sd: 1.5 },
    aspectDegrees: 6,
    noticedShare: 0.97,
    recognisedShare: 0.97,
    overrun: 1.1,
    lookalikeShare: 0.08,
    admitsLostShare: 0.7,
    junctionShare: 0.01,
    handrailLossPerKm: 0.5,
    speedShare: 0.1,
    searchMetresPerMinute: 25,
  },
};

/** The preset of a level, every parameter filled. */
export function skillOf(level: SkillLevel): Skill {
  return SKILLS[level];
}

/** The party of a task that says nothing about it. */
export const DEFAULT_PARTY: Party = {
  skill: 'competent',
  set: skillOf('competent'),
  people: 4,
  altimeter: false,
  compass: true,
  speed: 'irmischer-clarke',
  doublePacesPer100: 65,
};

/** The teaching allowance: ten minutes of search once and one relaunch. */
export const DEFAULT_LIMITS: Limits = {
  minutes: null,
  searchMinutes: 10,
  relaunches: 1,
  searchPeopleAbreast: 1,
  turnRoundMinutes: null,
  slopeDegrees: 35,
};
