/** Purposes of the keyed streams. A number once released keeps its meaning, or old seeds change their results. */
export const GROUND = 1;
export const WEATHER = 2;
export const DAY = 3;
export const LEG = 4;
export const STEP = 5;
export const SEEING = 6;
export const RIVULETS = 7;
export const CHOICE = 8;
export const FOLLOWING = 9;
export const TRODS = 10;
export const CAIRNS = 11;

/** Errors that a rerun can leave out, to learn which of them lost the attempt. */
export const MUTE_GROUND = 1;
export const MUTE_DAY = 2;
export const MUTE_LEG = 4;
export const MUTE_STEP = 8;
export const MUTE_SEEING = 16;
