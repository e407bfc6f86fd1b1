import { PLAIN_READING, type Reading } from '../door/reading.ts';
import type { Called, Feature } from '../features/feature.ts';
import { englishRoute } from './english.ts';
import { germanRoute } from './german.ts';
import type { Technique } from './leg.ts';

/** Where a leg ends, before it is said in a language. Metres. */
export type EndPlace =
  | { readonly is: 'feature'; readonly feature: Feature }
  | {
      readonly is: 'beside';
      readonly line: Feature | undefined;
      readonly metres: number;
      readonly side: Side;
    }
  | { readonly is: 'on line'; readonly line: Feature | undefined }
  | { readonly is: 'open' | 'start' | 'target' };

export type Side = 'left' | 'right';

/** Which way along a line: with or against the water, else an eighth of the compass clockwise from north; null where unknown. */
export type WayAlong = 'down' | 'up' | { readonly eighth: number } | null;

/** What is said of a leg. A feature that the map has no more is undefined; lengths in metres. */
export interface LegSaid {
  readonly technique: Technique;
  readonly end: EndPlace;
  readonly line: Feature | undefined;
  readonly way: WayAlong;
  readonly metres: number;
  /** Metres straight from end to end. */
  readonly straightMetres: number;
  readonly bearingDegrees: number;
  /** Of the compass, clockwise from north. */
  readonly eighth: number;
  readonly doublePaces: number;
  readonly minutes: number;
  readonly side: Side;
  readonly offsetMetres: number;
  readonly ticks: readonly {
    readonly feature: Feature | undefined;
    readonly id: string;
    readonly metres: number;
  }[];
  readonly catching: { readonly line: Feature | undefined; readonly beyondMetres: number } | null;
}

/** The beginning of a route, up to the last sure place. */
export interface FarPart {
  /** Lines followed, each once. */
  readonly lines: readonly (Feature | undefined)[];
  readonly open: boolean;
  readonly how: 'sight' | 'slope' | 'open';
  readonly end: EndPlace;
}

/** A leg of the endgame. */
export interface NearPart {
  readonly technique: Technique;
  readonly metres: number;
  readonly end: EndPlace;
  readonly line: Feature | undefined;
  /** The line is the one that the leg before aimed at. */
  readonly same: boolean;
  readonly way: WayAlong;
  readonly side: Side;
}

/** What a route relies on. */
export interface Relied {
  readonly things: readonly (Feature | EndPlace | { readonly is: 'meeting'; readonly line: Feature })[];
  readonly alongPercent: number | null;
  readonly metres: number;
  readonly bySight: boolean;
}

/** The leg on which most is lost. */
export interface Risked {
  readonly last: boolean;
  readonly metres: number;
  readonly end: EndPlace;
  readonly count: number;
  readonly reason: string | undefined;
}

/** What a found route is called after. */
export interface RouteNamed {
  readonly line: Called | undefined;
  readonly from: Called | undefined;
  readonly straight: Technique | 'open';
  readonly more?:
    | { readonly is: 'aim'; readonly side: Side }
    | { readonly is: 'with' | 'past'; readonly feature: Called }
    | { readonly is: 'backstop' }
    | { readonly is: 'open'; readonly legs: number };
}

/** What one plan does otherwise than another. */
export interface Differs {
  readonly aim?: { readonly metres: number; readonly side: Side };
  readonly from?: Feature;
  readonly catching?: boolean;
  readonly last?: Technique;
}

/** A single change to a route. Legs are counted from 1. */
export type ChangeSaid =
  | {
      readonly is: 'aim off';
      readonly metres: number;
      readonly side: Side;
      readonly line: Feature;
      readonly before?: { readonly metres: number; readonly side: Side };
    }
  | {
      readonly is: 'attack point';
      readonly first: boolean;
      readonly spot: Feature;
      readonly metres: number;
      readonly before?: { readonly side: Side; readonly line: Feature };
      readonly after?: { readonly side: Side; readonly line: Feature };
    }
  | { readonly is: 'catching'; readonly line: Feature; readonly metres: number; readonly leg: number }
  | { readonly is: 'ticks'; readonly features: readonly Feature[]; readonly leg: number }
  | { readonly is: 'stay'; readonly line: Feature; readonly metres: number }
  | { readonly is: 'slope' | 'clock' | 'count'; readonly leg: number }
  | { readonly is: 'straight'; readonly to: Feature; readonly line: Feature; readonly leg: number }
  | {
      readonly is: 'endgame';
      readonly from: Feature | null;
      readonly phrase: string;
      readonly without?: Feature | undefined;
      readonly behind?: Feature | undefined;
      readonly stops: 'without' | 'behind' | null;
    };

/** Every sentence about routes and legs, once per language. */
export interface RouteWords {
  /** What people call a feature: its name, or its kind. */
  readonly feature: (feature: Called) => string;
  /** Its name if it has one, in this language where the program gave it. */
  readonly ownName: (feature: Called) => string | null;
  readonly place: (place: EndPlace) => string;
  readonly listed: (words: readonly string[]) => string;
  readonly leg: (leg: LegSaid) => string;
  readonly far: (part: FarPart) => string;
  readonly near: (part: NearPart) => string;
  /** Parts of a way one after the other. */
  readonly joined: (parts: readonly string[]) => string;
  readonly relies: (relied: Relied) => string;
  readonly risks: (risked: Risked) => string;
  readonly late: (count: number) => string;
  readonly wrong: (count: number) => string;
  readonly noRisk: string;
  readonly routeName: (name: RouteNamed) => string;
  readonly differs: (differs: Differs) => string;
  readonly change: (change: ChangeSaid) => string;
}

const made = new Map<string, RouteWords>();

/** The words for a reader; for people that wish nothing, English and metres. */
export function routeWords(reading: Reading = PLAIN_READING): RouteWords {
  const key = JSON.stringify([reading.language, reading.units, reading.bearings]);
  const known = made.get(key) ?? (reading.language === 'de' ? germanRoute(reading) : englishRoute(reading));
  made.set(key, known);
  return known;
}
