import { version } from '../../package.json';

export const VERSION: string = version;
/** How reports name the program that made them. */
export const GENERATOR = `mistwise ${version}`;
