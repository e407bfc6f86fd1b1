import type { Measures } from '../../src/door/measures.ts';
import { PLAIN_READING } from '../../src/door/reading.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Outcome } from '../../src/report/report.ts';
import type { Technique } from '../../src/route/leg.ts';
import { englishFigures } from './english-figures.ts';

/** The words inside of drawings, one object per language. */
export interface FigureWords {
  readonly measures: Measures;
  readonly ofHundred: (share: number) => string;
  readonly afterCount: string;
  readonly foundOfHundred: string;
  readonly foundWithin: string;
  readonly inTheEnd: (count: string) => string;
  readonly minutesSince: string;
  readonly limit: (minutes: number) => string;
  readonly timeAgainstSuccess: string;
  readonly minutesAndCount: (minutes: number, count: string) => string;
  readonly minutesAll: string;
  readonly minutesAllShort: string;
  readonly legByLeg: (letter: string) => string;
  readonly leavesHere: (leg: number, technique: string, metres: number, count: string) => string;
  readonly height: string;
  readonly heightInCloud: (base: number) => string;
  /** What the hachures under the profile mean. */
  readonly dropNear: (metres: number) => string;
  /** In two lines beside the squares. */
  readonly offTheLine: readonly [string, string];
  readonly ofSuchParties: string;
  readonly findIt: (letter: string, count: string) => string;
  readonly outcomes: Readonly<Record<Outcome, string>>;
  readonly whereEnded: string;
  readonly panels: (metres: number) => string;
  readonly drawnOf: (drawn: number, trials: number) => string;
  readonly outside: (count: number) => string;
  readonly attempt: (trial: number, letter: string) => string;
  readonly attemptShown: string;
  readonly mapTitle: (start: string, target: string) => string;
  readonly mapShown: (routes: readonly string[], terrain: string) => string;
  readonly printTitle: (scale: number) => string;
  readonly printShown: (start: string, target: string, terrain: string) => string;
  readonly techniques: Readonly<Record<Technique, string>>;
  readonly kind: (kind: FeatureKind) => string;
  /** A name as it is shown: what the program named ("end of Oskle Sike") in this language. Without a kind it goes by the name alone. */
  readonly shownName: (name: string, kind?: FeatureKind) => string;
  /** Where magnetic north lies from grid north, for a wide and a narrow foot of the map. The date is an ISO date. */
  readonly norths: (degrees: string, east: boolean, model: string, date: string, narrow: boolean) => string;
  readonly gridNorth: (narrow: boolean) => string;
}

export const ENGLISH: FigureWords = englishFigures(PLAIN_READING);
