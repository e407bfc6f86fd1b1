import type { Conditions } from '../conditions/conditions.ts';
import type { Reading } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Limits, Party } from '../party/party.ts';
import type { SpeedModel } from '../speed/model.ts';
import { englishReport } from './english.ts';
import { germanReport } from './german.ts';

/** What the sentence of conditions is made of. */
export interface Given {
  /** Null for a start in the open. */
  readonly start: Feature | null;
  readonly target: Feature;
  readonly conditions: Conditions;
  readonly party: Party;
  readonly limits: Limits;
}

/** A route in the verdict; counts are of 100. */
export interface Judged {
  readonly letter: string;
  readonly name: string;
  readonly count: number;
  readonly minutes: number;
}

/** Every sentence of the report document beside those on routes and legs, once per language. */
export interface ReportSentences {
  readonly sentence: (given: Given) => string;
  readonly verdict: {
    readonly none: string;
    readonly surest: (route: Judged) => string;
    /** `saved` in whole minutes, 0 for about as long. */
    readonly quickest: (route: Judged, saved: number, clear: boolean) => string;
    readonly between: (routes: readonly Judged[]) => string;
    readonly wrong: (letter: string, count: number) => string;
    readonly lost: (letter: string, count: number) => string;
    readonly hazard: (counts: readonly { readonly letter: string; readonly count: number }[]) => string;
    readonly notAssessed: string;
  };
  /** What the data cannot show; metres, and the number of kinds that no source has. */
  readonly limits: (unseenMetres: number, hazardsMapped: boolean, lacking: number) => string;
  readonly notes: {
    readonly ofTerrain: (note: string) => string;
    readonly relief: (unseenMetres: number, cellMetres: number) => string;
    /** What the figures rest on, whatever the task. */
    readonly always: readonly string[];
    readonly smallTarget: (metres: number) => string;
    readonly noHazards: string;
    readonly lacking: (kinds: readonly FeatureKind[]) => string;
    readonly invented: string;
    readonly noDate: string;
  };
  readonly assumptions: {
    readonly speed: string;
    /** The source of a travel-time model, and what is to be known of it. */
    readonly sourced: (model: SpeedModel) => string;
    readonly detection: string;
    readonly definite: string;
    readonly lateral: string;
    readonly detectionSource: string;
    readonly climb: string;
    readonly climbValue: string;
    readonly practice: string;
    readonly theTask: string;
    /** A key of the task file's doubts. */
    readonly doubt: (key: string) => string;
  };
  readonly cautions: readonly string[];
  /** A way back, leg by leg. */
  readonly wayOut: (
    start: Feature | null,
    metres: number,
    minutes: number,
    legs: readonly string[],
  ) => string;
}

/** The sentences for a reader. */
export function reportSentences(reading: Reading): ReportSentences {
  return reading.language === 'de' ? germanReport(reading) : englishReport(reading);
}
