import type { Conditions } from '../conditions/conditions.ts';
import type { Reading } from '../door/reading.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party } from '../party/party.ts';
import type { Technique } from '../route/leg.ts';

export const REPORT_VERSION = 1;

/** The seven ways an attempt can end; shares sum to 1. */
export const OUTCOMES = [
  'cleanHit',
  'foundBySearch',
  'late',
  'falseFind',
  'lost',
  'turnedBack',
  'nearMiss',
] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** Which kind of error a lost attempt is put down to. */
export const REASONS = ['ground', 'party-day', 'leg', 'step', 'seeing', 'several'] as const;
export type Reason = (typeof REASONS)[number];

/** A statement the figures rest on, with its mark. */
export interface Assumption {
  readonly name: string;
  readonly value: string;
  readonly mark: 'published' | 'common practice' | 'derived' | 'given in the task';
  readonly source: string;
}

export interface ReportLeg {
  readonly technique: Technique;
  /** Plain words: "from the ruin", "to the stream, 60 m left of its end". */
  readonly from: string;
  readonly to: string;
  readonly says: string;
  readonly gridBearingDegrees: number;
  /** Null without a date in the task. */
  readonly magneticBearingDegrees: number | null;
  readonly distanceMetres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly doublePaces: number;
  readonly minutes: number;
  /** Share of all attempts whose loss began on this leg. */
  readonly lostHereShare: number;
  readonly reasons: Readonly<Partial<Record<Reason, number>>>;
  readonly ticks: readonly { readonly name: string; readonly atMetres: number }[];
  readonly path: readonly Point[];
  /** Minutes from setting off by which nine tenths of the attempts that end this leg have ended it. */
  readonly stopByMinutes?: number;
  readonly aimOff?: { readonly side: 'left' | 'right'; readonly metres: number };
  /** The line that stops an overrun. */
  readonly catching?: { readonly name: string; readonly beyondMetres: number };
  /** Where a mapped hazard lies, facing the way one walks. */
  readonly hazardSide?: 'left' | 'right' | 'both sides';
}

export interface Candidate {
  readonly id: string;
  /** A, B, C … as lettered on map and charts. */
  readonly letter: string;
  readonly name: string;
  readonly origin: 'drawn' | 'found';
  readonly strategy: string;
  /** One sentence: what it relies on and what it risks, in counts of 100 parties. */
  readonly why?: string;
  readonly distanceMetres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly minutes: {
    readonly p10: number;
    readonly p50: number;
    readonly p90: number;
    readonly mean: number;
  };
  readonly success: {
    readonly trials: number;
    readonly hits: number;
    readonly share: number;
    readonly low: number;
    readonly high: number;
  };
  readonly outcomes: Readonly<Record<Outcome, number>>;
  /** Present once skill and map trust were varied. */
  readonly assumption?: { readonly low: number; readonly high: number };
  /** [minutes, share found by then]. */
  readonly foundBy: readonly (readonly [number, number])[];
  readonly legs: readonly ReportLeg[];
  readonly line: readonly Point[];
  /** [metres along, height]. */
  readonly profile: readonly (readonly [number, number])[];
  /** Where the first attempts ended, with their outcome; at most 50. */
  readonly endPoints: readonly { readonly at: Point; readonly outcome: Outcome }[];
  readonly hazard: { readonly share: number } | 'not assessed';
  /** A way out that simulated parties followed, and how many of them entered a hazard; absent when none was tried. */
  readonly wayOut?: { readonly says: string; readonly trials: number; readonly hazardTrials: number };
  /** Single attempts told, the first that finds the target and the first that does not; leading routes only. */
  readonly walks?: readonly SampleWalk[];
  /** What the search found that walks nearly the same, and how it differs: "aiming off 60 m to the left". */
  readonly alike?: readonly string[];
  /** What one change would do; absent where none was tried. */
  readonly changes?: Changes;
  /** Things that the route leans on and that may not be there, with the share of finds either way. */
  readonly leansOn?: readonly Leaning[];
}

/** One attempt as it went, and as the party believed it to go. */
export interface SampleWalk {
  /** Number of the attempt among those counted, from 0. */
  readonly trial: number;
  readonly outcome: Outcome;
  readonly minutes: number;
  readonly events: readonly WalkEvent[];
  readonly track: readonly Point[];
  readonly believedTrack: readonly Point[];
}

export interface WalkEvent {
  readonly kind: string;
  /** From 1. */
  readonly leg: number;
  readonly minutes: number;
  readonly at: Point;
  readonly believed: Point;
  /** How sure the party is of its place, metres. */
  readonly sdMetres: number;
}

/** After minus before over the same attempts, with its interval. */
export interface Difference {
  readonly difference: number;
  readonly low: number;
  readonly high: number;
}

/** Routes that differ from a candidate in one thing, and find more or take less time beyond the noise. */
export interface Changes {
  /** Changes looked at, and attempts that confirmed the best of them. */
  readonly looked: number;
  readonly trials: number;
  readonly helped: readonly {
    readonly kind: string;
    readonly says: string;
    /** Of the share of finds. */
    readonly success: Difference;
    /** Of the mean minutes of all attempts. */
    readonly minutes: Difference;
  }[];
}

/** Attempts on the days on which a feature was there, or was gone. */
export interface Split {
  readonly trials: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

export interface Leaning {
  readonly name: string;
  readonly exists: number;
  readonly there: Split;
  readonly gone: Split;
}

/** A doubtful feature that is worth a look beforehand: which candidate to take either way, and the share of finds gained by choosing so. */
export interface WorthChecking {
  readonly name: string;
  readonly exists: number;
  /** Ids of candidates. */
  readonly ifThere: string;
  readonly ifGone: string;
  readonly unknowing: string;
  readonly gain: Difference;
}

/** A raster in the document: little-endian Int16 of (value / scale), deflated, base64, north row first; −32768 is missing. */
export interface PackedLayer {
  readonly name: 'elevation';
  readonly scale: number;
  readonly data: string;
}

export interface ReportFeature {
  readonly id: string;
  readonly kind: FeatureKind;
  readonly name: string | null;
  readonly exists: number;
  readonly positionMetres: number;
  readonly geometry:
    | { readonly type: 'point'; readonly at: Point }
    | { readonly type: 'line'; readonly points: readonly Point[] }
    | { readonly type: 'area'; readonly rings: readonly (readonly Point[])[] };
}

/** `report.json`: everything shown, nothing else needed. */
export interface Report {
  readonly version: typeof REPORT_VERSION;
  readonly generator: string;
  /** In what language its sentences are and in what units they and the pages are written; left out for English, metres and degrees. */
  readonly reading?: Reading;
  readonly task: {
    readonly name: string;
    readonly terrain: string;
    readonly invented: boolean;
    readonly start: { readonly name: string; readonly at: Point; readonly grid: string | null };
    readonly target: {
      readonly name: string;
      readonly at: Point;
      readonly grid: string | null;
      readonly kind: FeatureKind;
      readonly findRadiusMetres: number;
    };
    readonly trials: number;
    readonly mapDate: string | null;
  };
  readonly seed: number;
  readonly conditions: Conditions;
  readonly party: Party;
  readonly limits: Limits;
  /** The conditions and the party as one sentence; every percentage stands under it. */
  readonly sentence: string;
  /** The verdict in words and counts. */
  readonly verdict: readonly string[];
  readonly assumptions: readonly Assumption[];
  readonly cautions: readonly string[];
  readonly candidates: readonly Candidate[];
  /** Ids of the candidates that no other beats in both time and success. */
  readonly unbeaten: readonly string[];
  /** The most valuable first; absent where nothing is worth it. */
  readonly worthChecking?: readonly WorthChecking[];
  readonly notes: readonly string[];
  readonly ground: {
    readonly crs: string;
    /** Outer north-west corner. */
    readonly origin: Point;
    readonly cell: number;
    readonly columns: number;
    readonly rows: number;
    readonly layers: readonly PackedLayer[];
    readonly source: string;
    /** Cell of the terrain itself (the layers here may be coarser). */
    readonly terrainCell: number;
    readonly lacking: readonly FeatureKind[];
  };
  readonly norths: {
    readonly declinationDegrees: number;
    readonly convergenceDegrees: number;
    readonly model: string;
    readonly date: string;
  } | null;
  readonly features: readonly ReportFeature[];
  readonly attributions: readonly string[];
}
