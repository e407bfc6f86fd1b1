import type { Doubt } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import type { WrittenTask } from '../../src/study/schema.ts';

/** Something that the map lacks, drawn by the user. */
export interface Own {
  readonly id: string;
  readonly kind: FeatureKind;
  readonly name: string;
  readonly shape: 'Point' | 'LineString' | 'Polygon';
  readonly points: readonly Point[];
  /** Of an area: rings that are cut out of it. */
  readonly holes?: readonly (readonly Point[])[];
  readonly exists: number | null;
  readonly lastSeen: string | null;
}

/** A route that somebody would take, sealed until all are opened together. */
export interface Suggestion {
  readonly who: string;
  /** How sure of finding the target, of 100. */
  readonly confidence: number;
  readonly route: NonNullable<WrittenTask['routes']>[number];
  readonly opened: boolean;
}

/** A terrain folder as it was opened. */
export interface Folder {
  readonly terrainJson: string;
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly features: string | null;
}

/** All that the user has made and would not lose. */
export interface Work {
  readonly folder: Folder;
  readonly task: WrittenTask;
  readonly own: readonly Own[];
  readonly suggestions: readonly Suggestion[];
}

/** The work with its past and what was undone. */
export class History {
  private past: Work[] = [];
  private future: Work[] = [];
  now: Work;

  constructor(now: Work) {
    this.now = now;
  }

  change(work: Work): void {
    this.past.push(this.now);
    if (this.past.length > 200) this.past.shift();
    this.future = [];
    this.now = work;
  }

  get canUndo(): boolean {
    return this.past.length > 0;
  }

  get canRedo(): boolean {
    return this.future.length > 0;
  }

  undo(): boolean {
    const before = this.past.pop();
    if (before === undefined) return false;
    this.future.push(this.now);
    this.now = before;
    return true;
  }

  redo(): boolean {
    const after = this.future.pop();
    if (after === undefined) return false;
    this.past.push(this.now);
    this.now = after;
    return true;
  }
}

/** What an own feature says of its doubt, as a feature file writes it. */
export function givenBy({ exists, lastSeen }: Own): Partial<Doubt> {
  return { ...(exists === null ? {} : { exists }), ...(lastSeen === null ? {} : { lastSeen }) };
}
