import { getIssues } from '@placemarkio/check-geojson';
import type { GeoJSON, Geometry as GeoJsonGeometry, Position } from 'geojson';
import { didYouMean, suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import { doubtOf, type MapAge } from './doubt.ts';
import type { Feature, Geometry } from './feature.ts';
import { DOUBT_NAMES, givenDoubt } from './given-doubt.ts';
import { FEATURE_KINDS, type FeatureKind } from './kinds.ts';
import { plainText } from './plain-text.ts';
import { fitShape, shapeOfKind } from './shape.ts';
import { checkLength, checkNesting, MOST_FEATURES, MOST_VERTICES } from './text-limits.ts';

export interface ReadOptions {
  /** CRS of the terrain, for messages. */
  readonly crs: string;
  /** Name of the file, for messages. */
  readonly where: string;
  /** Metres of the terrain's CRS of a longitude and latitude in degrees. */
  readonly fromLonLat: (lon: number, lat: number) => Point;
  /** True when the file holds metres of the terrain's CRS instead of degrees. */
  readonly featuresInCrs?: boolean;
  readonly age?: MapAge;
  /** Where the features come from; `mapped` unless said. */
  readonly origin?: Feature['origin'];
  /** Kind of an item that has no `kind` property of ours; null skips it, with a note. */
  readonly kindOf?: (properties: Properties, shape: Geometry['type']) => FeatureKind | null;
}

export type Properties = Readonly<Record<string, unknown>>;

export interface FeaturesRead {
  readonly features: Feature[];
  /** What was skipped, split or made up, for people. */
  readonly notes: string[];
}

const OUR_NAMES = ['id', 'kind', 'name', 'row', 'rowPlace', ...DOUBT_NAMES];

/** Reads map features from GeoJSON (RFC 7946). Positions are snapped to the lattice. Throws one UserError about the first thing wrong. */
export function readFeatures(text: string, options: ReadOptions): FeaturesRead {
  const { where } = options;
  checkLength(text.length, where);
  checkNesting(text, where);
  const items = itemsOf(parse(text, where), where);
  if (items.length > MOST_FEATURES) throw tooMany('features', items.length, MOST_FEATURES, where);

  const reading = new Reading(text, options);
  items.forEach((item, i) => {
    reading.take(item, i);
  });
  return { features: reading.features, notes: reading.tally() };
}

interface Item {
  readonly id?: unknown;
  readonly geometry: GeoJsonGeometry | null;
  readonly properties: Properties;
}

function parse(text: string, where: string): GeoJSON {
  try {
    // a byte order mark is not JSON, but many programs write one
    return JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text) as GeoJSON;
  } catch {
    throw faultOf(text, where, 'this is not JSON');
  }
}

function itemsOf(json: GeoJSON, where: string): Item[] {
  const record = json as unknown;
  if (!isRecord(record)) throw notGeoJson(where, record);
  const list = record.type === 'FeatureCollection' ? record.features : [record];
  if (!Array.isArray(list)) throw notGeoJson(where, record.features);
  return list.map((f: unknown) => {
    if (!isRecord(f) || f.type !== 'Feature') throw notGeoJson(where, isRecord(f) ? f.type : f);
    const properties = f.properties;
    return {
      id: f.id,
      geometry: (f.geometry ?? null) as GeoJsonGeometry | null,
      properties: isRecord(properties) ? properties : {},
    };
  });
}

/** One file being read: ids seen, vertices counted, notes gathered. */
class Reading {
  readonly features: Feature[] = [];
  private readonly ids = new Set<string>();
  private readonly notes = new Map<string, string[]>();
  private vertices = 0;
  private readonly text: string;
  private readonly options: ReadOptions;

  constructor(text: string, options: ReadOptions) {
    this.text = text;
    this.options = options;
  }

  take({ id: outerId, geometry, properties }: Item, index: number): void {
    const { where, kindOf, age, origin = 'mapped' } = this.options;
    const wanted = idOf(properties.id ?? outerId);
    const label = wanted ?? `feature ${index + 1}`;
    const place = `${where}, ${wanted === null ? label : `feature "${wanted}"`}`;
    if (geometry === null) {
      this.note('without a geometry were skipped', label);
      return;
    }

    const parts = this.geometries(geometry, place);
    if (parts.length === 0) {
      this.note('with an empty geometry were skipped', label);
      return;
    }
    const kind = this.kind(properties, parts[0]!.type, place, kindOf);
    if (kind === null) {
      this.note('of no kind that this program knows were skipped', label);
      return;
    }

    const fitted = parts.map((part) => fitShape(kind, part)).filter((f) => f !== null);
    if (fitted.length === 0) {
      throw new UserError({
        what: `a feature of kind ${kind} cannot have this geometry`,
        where: place,
        got: geometry.type,
        expected:
          shapeOfKind(kind) === 'area' ? 'Polygon or a closed LineString' : NATURAL[shapeOfKind(kind)],
      });
    }
    const shapes = fitted.flat();
    if (wanted === null) this.note('have no id; they were numbered', label);
    const id = wanted ?? `${kind}-${index + 1}`;
    const given = givenDoubt(properties, place);
    this.warnOfMisspelling(properties, label);
    const name = typeof properties.name === 'string' ? plainText(properties.name) : '';
    const row = idOf(properties.row);
    const rowPlace = rowPlaceOf(properties.rowPlace, place);
    const shared = {
      kind,
      ...(name === '' ? {} : { name }),
      given,
      doubt: doubtOf(kind, given, {}, age),
      ...(row === null ? {} : { row }),
      ...(rowPlace === null ? {} : { rowPlace }),
      origin,
    };
    if (shapes.length > 1) this.note('of several parts were split', label);
    shapes.forEach((shape, k) => {
      this.add({ id: shapes.length === 1 ? id : `${id}.${k + 1}`, geometry: shape, ...shared }, place);
    });
  }

  private add(feature: Feature, place: string): void {
    if (this.ids.has(feature.id)) {
      throw new UserError({
        what: 'two features have the same id',
        where: place,
        got: `"${feature.id}" twice`,
        expected: 'an id of its own for each feature',
      });
    }
    this.ids.add(feature.id);
    this.features.push(feature);
  }

  private kind(
    properties: Properties,
    shape: Geometry['type'],
    place: string,
    kindOf: ReadOptions['kindOf'],
  ): FeatureKind | null {
    const said = properties.kind;
    if ((FEATURE_KINDS as readonly unknown[]).includes(said)) return said as FeatureKind;
    if (kindOf !== undefined) return kindOf(properties, shape);
    const shown =
      typeof said === 'string' ? plainText(said, 40) : (JSON.stringify(said) ?? 'nothing').slice(0, 40);
    const hint = typeof said === 'string' ? suggestion(said, FEATURE_KINDS) : '';
    throw new UserError({
      what: said === undefined ? 'this feature has no kind' : 'the kind of this feature is not known',
      where: place,
      got: `${shown}${hint}`,
      expected: 'a kind such as wall, stream, path, spring, cairn, knoll or marsh',
    });
  }

  private geometries(geometry: GeoJsonGeometry, place: string): Geometry[] {
    const { type } = geometry;
    switch (type) {
      case 'Point':
        return [{ type: 'point', at: this.point(geometry.coordinates, place) }];
      case 'MultiPoint':
        return this.list(geometry.coordinates, place).map((p) => ({
          type: 'point',
          at: this.point(p, place),
        }));
      case 'LineString':
        return this.line(geometry.coordinates, place);
      case 'MultiLineString':
        return this.list(geometry.coordinates, place).flatMap((l) => this.line(l, place));
      case 'Polygon':
        return this.area(geometry.coordinates, place);
      case 'MultiPolygon':
        return this.list(geometry.coordinates, place).flatMap((a) => this.area(a, place));
      case 'GeometryCollection':
        return this.list(geometry.geometries, place).flatMap((g) =>
          isRecord(g) ? this.geometries(g as unknown as GeoJsonGeometry, place) : [],
        );
      default:
        throw this.badGeometry(place, `a geometry of type ${JSON.stringify(type) ?? 'nothing'}`.slice(0, 60));
    }
  }

  private line(positions: readonly Position[], place: string): Geometry[] {
    const points = withoutRepeats(this.list(positions, place).map((p) => this.point(p, place)));
    return points.length < 2 ? [] : [{ type: 'line', points }];
  }

  private area(rings: readonly (readonly Position[])[], place: string): Geometry[] {
    const closed = this.list(rings, place)
      .map((ring) => withoutRepeats(this.list(ring, place).map((p) => this.point(p, place))))
      .map((ring) =>
        ring.length > 0 && !same(ring[0]!, ring[ring.length - 1]!) ? [...ring, ring[0]!] : ring,
      );
    // a hole that has collapsed is nothing; an outline that has is no area
    const [outer, ...holes] = closed;
    if (outer === undefined || outer.length < 4) return [];
    return [{ type: 'area', rings: [outer, ...holes.filter((h) => h.length >= 4)] }];
  }

  private list<T>(value: readonly T[], place: string): readonly T[] {
    if (Array.isArray(value)) return value;
    throw this.badGeometry(place, 'coordinates that are no list');
  }

  private point(position: Position, place: string): Point {
    const { crs, where, fromLonLat, featuresInCrs = false } = this.options;
    this.vertices++;
    if (this.vertices > MOST_VERTICES) throw tooMany('vertices', this.vertices, MOST_VERTICES, where);
    const x: unknown = Array.isArray(position) ? position[0] : undefined;
    const y: unknown = Array.isArray(position) ? position[1] : undefined;
    if (!isFiniteNumber(x) || !isFiniteNumber(y)) {
      throw this.badGeometry(place, `a position ${JSON.stringify(position) ?? 'nothing'}`.slice(0, 60));
    }
    if (featuresInCrs) {
      // ten earth radii: more is no place on any map, and would drown the lattice
      if (Math.abs(x) > 6e7 || Math.abs(y) > 6e7) throw this.badGeometry(place, `a position [${x}, ${y}]`);
      return snapPoint([x, y]);
    }
    if (Math.abs(x) > 180 || Math.abs(y) > 90) {
      throw new UserError({
        what: 'a position is not longitude and latitude in degrees',
        where: place,
        got: `[${x}, ${y}]`,
        expected: `degrees, or "featuresCrs": "${crs}" in terrain.json when the file is in metres`,
      });
    }
    const at = snapPoint(fromLonLat(x, y));
    if (Number.isFinite(at[0]) && Number.isFinite(at[1])) return at;
    throw new UserError({
      what: `a position lies outside the area of ${crs}`,
      where: place,
      got: `[${x}, ${y}]`,
      expected: 'a position near the terrain',
    });
  }

  private badGeometry(place: string, got: string): UserError {
    return faultOf(this.text, place, 'the geometry is wrong', got);
  }

  private warnOfMisspelling(properties: Properties, label: string): void {
    for (const name of Object.keys(properties)) {
      if (OUR_NAMES.includes(name)) continue;
      const meant = name.length > 3 ? didYouMean(name, DOUBT_NAMES) : null;
      if (meant !== null && properties[meant] === undefined) {
        this.note(`have a property "${plainText(name, 40)}" that is not used; did you mean ${meant}?`, label);
      }
    }
  }

  private note(what: string, label: string): void {
    const labels = this.notes.get(what);
    if (labels === undefined) this.notes.set(what, [label]);
    else labels.push(label);
  }

  tally(): string[] {
    return [...this.notes].map(([what, labels]) => {
      const some = labels.slice(0, 3).join(', ');
      return `${labels.length} feature${labels.length === 1 ? '' : 's'} ${what} (${some}${labels.length > 3 ? ', …' : ''})`;
    });
  }
}

const NATURAL = { point: 'Point or Polygon', line: 'LineString or Polygon', area: 'Polygon' } as const;

/** The fault as GeoJSON's grammar sees it, with line and column, for texts small enough to be checked twice. */
function faultOf(text: string, where: string, what: string, got?: string): UserError {
  const fault = text.length < 20_000_000 ? firstIssue(text) : null;
  if (fault !== null)
    return new UserError({ what: fault.what, where: `${where}, ${fault.at}`, ...gotOf(got) });
  return new UserError({ what, where, ...gotOf(got), expected: 'GeoJSON as in RFC 7946' });
}

const gotOf = (got: string | undefined) => (got === undefined ? {} : { got });

function firstIssue(text: string): { what: string; at: string } | null {
  try {
    const issue = getIssues(text)[0];
    if (issue === undefined) return null;
    const before = text.slice(0, issue.from);
    const line = before.split('\n').length;
    const column = issue.from - before.lastIndexOf('\n');
    return { what: plainText(issue.message, 160), at: `line ${line}, column ${column}` };
  } catch {
    // the checker itself gave up on this text
    return null;
  }
}

function notGeoJson(where: string, got: unknown): UserError {
  const shown = isRecord(got)
    ? plainText(String(got.type ?? 'an object'), 40)
    : plainText(JSON.stringify(got) ?? 'nothing', 40);
  return new UserError({
    what: 'this is not a GeoJSON collection of features',
    where,
    got: shown,
    expected: 'a FeatureCollection',
  });
}

function tooMany(things: string, got: number, most: number, where: string): UserError {
  return new UserError({
    what: `too many ${things}; cut the file to the ground of the task first`,
    where,
    got: String(got),
    expected: `at most ${most}`,
  });
}

function idOf(value: unknown): string | null {
  const text =
    typeof value === 'number' && Number.isFinite(value)
      ? String(value)
      : typeof value === 'string'
        ? plainText(value, 100)
        : '';
  return text === '' ? null : text;
}

function rowPlaceOf(value: unknown, where: string): number | null {
  if (value === undefined || value === null) return null;
  if (isFiniteNumber(value)) return value;
  throw new UserError({
    what: 'rowPlace of a feature is wrong',
    where,
    got: plainText(JSON.stringify(value) ?? '', 40),
    expected: 'a number',
  });
}

function withoutRepeats(points: readonly Point[]): Point[] {
  return points.filter((p, i) => i === 0 || !same(p, points[i - 1]!));
}

function same(a: Point, b: Point): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

function isFiniteNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
