import { placeOf } from '../../src/features/areas.ts';
import type { Called, Feature } from '../../src/features/feature.ts';
import { distance, nearestOnLine, type Point, snapPoint } from '../../src/math/plane.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import { parseGridReference, printGridReference } from '../../src/terrain/grid-reference.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';
import type { GroundFacts } from './messages.ts';
import { wishedLanguage } from './reader-wishes.ts';
import { LANGUAGES, type Words } from './words.ts';

type WrittenPlace = WrittenTask['start'];

/** What stands on the ground, asked by name, by place and by what lies near. */
export class Places {
  readonly facts: GroundFacts;
  private readonly byId: ReadonlyMap<string, Feature>;

  constructor(facts: GroundFacts) {
    this.facts = facts;
    this.byId = new Map(facts.features.map((f) => [f.id, f]));
  }

  get crs(): string {
    return this.facts.grid.crs;
  }

  feature(id: string | undefined): Feature | undefined {
    return id === undefined ? undefined : this.byId.get(id);
  }

  /** Points and small areas with a name, to be offered. */
  offered(): string[] {
    const names = this.facts.features
      .filter((f) => f.geometry.type !== 'line')
      .flatMap((f) => LANGUAGES[wishedLanguage()].routes.ownName(f) ?? []);
    return [...new Set(names)].sort();
  }

  /** A place as a person types it: a feature's name or id, else a grid reference. Throws UserError. */
  typed(text: string): WrittenPlace {
    const wanted = text.trim().toLowerCase();
    const found = this.facts.features.find(
      (f) => f.geometry.type !== 'line' && namesOf(f).some((name) => name.toLowerCase() === wanted),
    );
    if (found !== undefined) return { feature: found.id };
    return { at: [...parseGridReference(text, this.crs)] as [number, number] };
  }

  /** Where a written place lies; null where it is none. */
  at(place: WrittenPlace): Point | null {
    if (place.at !== undefined) return place.at;
    if (place.lonLat !== undefined) return fromLonLat(this.crs, place.lonLat);
    const feature = this.feature(place.feature);
    if (feature !== undefined) return feature.geometry.type === 'line' ? null : placeOf(feature);
    try {
      return place.grid === undefined ? null : parseGridReference(place.grid, this.crs);
    } catch {
      return null;
    }
  }

  /** What a written place is called. */
  said(place: WrittenPlace & { name?: string | undefined }): string {
    const feature = this.feature(place.feature);
    if (feature !== undefined) return this.shortly(feature);
    if (place.feature !== undefined) return place.feature;
    if (place.grid !== undefined) return place.grid;
    const at = this.at(place);
    return at === null ? '' : this.reference(at);
  }

  /** A place to ten metres, as people write it down. */
  reference(at: Point): string {
    return printGridReference(at, this.crs, 8) ?? `${Math.round(at[0])} ${Math.round(at[1])}`;
  }

  /** The point feature nearest to a place; those with a sign or a name of their own come before derived ones. */
  pointNear(at: Point, metres: number): Feature | null {
    let best: Feature | null = null;
    let least = metres;
    for (const f of this.facts.features) {
      if (f.geometry.type !== 'point') continue;
      const away = distance(f.geometry.at, at);
      if (away <= least) [best, least] = [f, away];
    }
    return best;
  }

  /** Lines that pass within so many metres of both places, the nearest first. */
  linesThrough(a: Point, b: Point, metres: number): Feature[] {
    const found: { f: Feature; away: number }[] = [];
    for (const f of this.facts.features) {
      const line = lineOf(f);
      if (line === null) continue;
      const away = Math.max(nearestOnLine(a, line).away, nearestOnLine(b, line).away);
      if (away <= metres) found.push({ f, away });
    }
    return found.sort((x, y) => x.away - y.away).map(({ f }) => f);
  }

  /** The nearest place on a line. */
  onLine(line: Feature, at: Point): Point {
    const points = lineOf(line);
    return points === null ? at : snapPoint(nearestOnLine(at, points).at);
  }

  /** Its name, as a person reads and types it; without one its id. */
  shortly(feature: Feature): string {
    return LANGUAGES[wishedLanguage()].routes.ownName(feature) ?? feature.id;
  }

  called(feature: Called, words: Words): string {
    return words.routes.ownName(feature) ?? words.kind(feature.kind);
  }

  inside(at: Point): boolean {
    const { west, north, cell, columns, rows } = this.facts.grid;
    const column = Math.floor((at[0] - west) / cell);
    const row = Math.floor((north - at[1]) / cell);
    if (column < 0 || row < 0 || column >= columns || row >= rows) return false;
    return !Number.isNaN(this.facts.heights[row * columns + column]!);
  }
}

/** Id and name, and the names that the program gives in every language. */
function namesOf(feature: Feature): string[] {
  const names = Object.values(LANGUAGES).flatMap(({ routes }) => routes.ownName(feature) ?? []);
  return [feature.id, ...names];
}

/** A line, or the edge of an area. */
function lineOf(f: Feature): readonly Point[] | null {
  if (f.geometry.type === 'line') return f.geometry.points;
  return f.geometry.type === 'area' ? (f.geometry.rings[0] ?? null) : null;
}
