import type { Reading } from '../../src/door/reading.ts';
import type { Feature } from '../../src/features/feature.ts';
import type { Georeference } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import type { DrawnLeg } from '../../src/route/drawn.ts';
import type { Route } from '../../src/route/leg.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { Bounds } from '../map/view.ts';
import type { Folder, Suggestion } from './work.ts';

/* What the page and its workers say to each other. */

/** The files of a terrain folder, with what the user has drawn already among the features. */
export interface GroundFiles {
  readonly terrainJson: string;
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** GeoJSON; null when there is none. */
  readonly features: string | null;
}

/** What the page must know of the ground to draw on it. */
export interface GroundFacts {
  readonly name: string;
  readonly grid: Georeference;
  readonly heights: Float32Array;
  /** Mapped, drawn and derived ones (junctions, stream ends …). */
  readonly features: readonly Feature[];
  readonly hazardsMapped: boolean;
  readonly notes: readonly string[];
}

/** How a drawn route was understood: its legs, and where each written leg ends. */
export interface Understood {
  readonly name: string;
  readonly ends: readonly Point[];
  /** Written legs, all with a place to go to where a line was drawn by hand. */
  readonly legs: readonly DrawnLeg[];
  /** How many planned legs each written one became. */
  readonly counts: readonly number[];
}

/** Results for one state of the task; `coarse` before every attempt has been walked. */
export interface Results {
  readonly state: number;
  readonly coarse: boolean;
  readonly report: Report;
  readonly routes: readonly Route[];
  readonly understood: readonly Understood[];
}

/** The figures of a route that is being dragged. */
export interface Probe {
  readonly number: number;
  readonly trials: number;
  readonly share: number;
  readonly minutes: number;
  readonly metres: number;
  readonly line: readonly Point[];
}

export type ToThinker =
  | { readonly do: 'ports'; readonly ports: readonly MessagePort[] }
  | { readonly do: 'ground'; readonly ground: GroundFiles; readonly number: number }
  | {
      readonly do: 'task';
      readonly state: number;
      readonly task: WrittenTask;
      /** Routes that a search has found before; walked again until a new search is done. */
      readonly found: readonly Route[];
    }
  | {
      readonly do: 'probe';
      readonly number: number;
      readonly route: NonNullable<WrittenTask['routes']>[number];
    }
  | {
      readonly do: 'interpret';
      readonly number: number;
      readonly name: string;
      readonly line: readonly Point[];
    }
  | {
      /** The whole job once more, with all that a report tells beside the figures. */
      readonly do: 'report';
      readonly state: number;
      readonly task: WrittenTask;
      readonly reading: Reading;
    }
  | { readonly do: 'stop' };

export type FromThinker =
  | { readonly tells: 'ground'; readonly facts: GroundFacts }
  | { readonly tells: 'results'; readonly results: Results }
  | {
      readonly tells: 'problem';
      readonly state: number;
      readonly message: string;
      readonly ours: boolean;
      /** The ground or the task as documents are at fault, not what they say together. */
      readonly unreadable?: boolean;
    }
  | { readonly tells: 'progress'; readonly state: number; readonly share: number }
  | { readonly tells: 'report'; readonly state: number; readonly report: Report }
  | { readonly tells: 'probe'; readonly probe: Probe }
  | {
      readonly tells: 'interpreted';
      readonly number: number;
      readonly name: string;
      readonly legs: readonly DrawnLeg[];
    };

/** What was dropped on the page, for a worker of its own to read. */
export interface ToOpener {
  readonly files: readonly NamedBytes[];
  /** Of the first file, without its ending. */
  readonly stem: string;
  /** The ground as it lies there, and with what was drawn. */
  readonly folder: Folder;
  readonly joined: GroundFiles;
}

export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Where a picture lies, in metres of the ground's CRS. */
export interface PlacedPicture {
  readonly picture: Blob;
  readonly bounds: Bounds;
}

/** What dropped files came to. */
export type Opened =
  /** Another ground with its task, or another task on this ground. */
  | { readonly folder: Folder; readonly task: WrittenTask }
  | { readonly task: WrittenTask }
  | { readonly features: readonly Feature[] }
  | { readonly suggestions: readonly Suggestion[] }
  | { readonly line: string }
  | PlacedPicture
  | { readonly nothing: true }
  | { readonly problem: string; readonly ours: boolean };
