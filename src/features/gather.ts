import { didYouMean, suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { doubtOf, type MapAge } from './doubt.ts';
import type { Doubt, Feature, Geometry } from './feature.ts';
import { type Projection, ShapeReader } from './geojson-shapes.ts';
import type { Item, Properties } from './geojson-text.ts';
import { DOUBT_NAMES, givenDoubt } from './given-doubt.ts';
import { FEATURE_KINDS, type FeatureKind } from './kinds.ts';
import { plainText } from './plain-text.ts';
import { fitShape, shapeOfKind } from './shape.ts';
import { MOST_FEATURES } from './text-limits.ts';

/** What somebody else's feature is to us. `known` is what its source says of its doubt. */
export interface Classified {
  readonly kind: FeatureKind;
  readonly known?: Partial<Doubt>;
}

/** How to read features that were not made for this program. */
export interface Foreign {
  /** What it is; null leaves it out. `parts` are projected. */
  readonly classify: (properties: Properties, parts: readonly Geometry[]) => Classified | null;
  /** Its id from its properties; null numbers it. */
  readonly idOf?: (properties: Properties, part: Geometry) => string | null;
  /** Word under which a feature that was left out is counted. */
  readonly ignoredAs?: (properties: Properties) => string;
}

export interface ReadOptions extends Projection {
  /** Name of the file, for messages. */
  readonly where: string;
  readonly age?: MapAge;
  /** Where the features come from; `mapped` unless said. */
  readonly origin?: Feature['origin'];
  /** For features without a kind of ours. Their repeated ids are numbered, where ours are an error. */
  readonly foreign?: Foreign;
}

export interface FeaturesRead {
  readonly features: Feature[];
  /** What was skipped, split or made up, for people. */
  readonly notes: string[];
  /** What was left out as of no kind that the engine knows, most frequent first. */
  readonly ignored: readonly { readonly what: string; readonly count: number }[];
  /** What has to be shown beside the features, as the file says it. */
  readonly attribution: string | null;
}

const OUR_NAMES: readonly string[] = ['id', 'kind', 'name', 'row', 'rowPlace', ...DOUBT_NAMES];
const NATURAL = {
  point: 'Point or Polygon',
  line: 'LineString or Polygon',
  area: 'Polygon or closed LineString',
};

/** Checks items and makes features of them. `badGeometry` words a fault of a geometry. One UserError about the first thing wrong. */
export function gather(
  items: readonly Item[],
  options: ReadOptions,
  badGeometry: (place: string, got: string) => UserError,
): Omit<FeaturesRead, 'attribution'> {
  if (items.length > MOST_FEATURES) {
    throw new UserError({
      what: 'too many features; cut the file to the ground of the task first',
      where: options.where,
      got: String(items.length),
      expected: `at most ${MOST_FEATURES}`,
    });
  }
  const gathering = new Gathering(options, badGeometry);
  items.forEach((item, i) => {
    gathering.take(item, i);
  });
  return gathering.result();
}

class Gathering {
  private readonly features: Feature[] = [];
  private readonly ids = new Map<string, number>();
  private readonly notes = new Map<string, string[]>();
  private readonly ignored = new Map<string, number>();
  private readonly options: ReadOptions;
  private readonly shapes: ShapeReader;

  constructor(options: ReadOptions, badGeometry: (place: string, got: string) => UserError) {
    this.options = options;
    this.shapes = new ShapeReader(options, badGeometry);
  }

  take(item: Item, index: number): void {
    const { properties } = item;
    const own = textOf(properties.id ?? item.id);
    const label = own ?? `feature ${index + 1}`;
    const place = `${this.options.where}, ${own === null ? label : `feature "${own}"`}`;
    if (item.geometry === null) {
      this.note('skipped, without a geometry', label);
      return;
    }
    const parts = this.shapes.read(item.geometry, place);
    if (parts.length === 0) {
      this.note('skipped, with an empty geometry', label);
      return;
    }
    const is = this.classify(properties, parts, place);
    if (is === null) return;
    const shapes = this.fit(is.kind, parts, place);
    if (shapes === null) {
      this.note(`skipped, of no geometry that a ${is.kind} can have`, label);
      return;
    }
    const id = this.idOf(item, parts[0]!, own) ?? `${is.kind}-${index + 1}`;
    this.add(id, shapes, this.described(properties, is, place), place);
    if (this.options.foreign === undefined) {
      if (own === null) this.note('numbered, without an id', label);
      this.warnOfMisspelling(properties, label);
    }
  }

  result(): Omit<FeaturesRead, 'attribution'> {
    const notes = [...this.notes].map(([what, labels]) => {
      const some = labels.slice(0, 3).join(', ');
      return `${what}: ${labels.length} (${some}${labels.length > 3 ? ', …' : ''})`;
    });
    const ignored = [...this.ignored]
      .map(([what, count]) => ({ what, count }))
      .sort((a, b) => b.count - a.count || (a.what < b.what ? -1 : 1));
    return { features: this.features, notes, ignored };
  }

  private idOf(item: Item, part: Geometry, own: string | null): string | null {
    return textOf(this.options.foreign?.idOf?.(item.properties, part)) ?? own;
  }

  private classify(properties: Properties, parts: readonly Geometry[], place: string): Classified | null {
    const said = properties.kind;
    if ((FEATURE_KINDS as readonly unknown[]).includes(said)) return { kind: said as FeatureKind };
    const { foreign } = this.options;
    if (foreign !== undefined) {
      const is = foreign.classify(properties, parts);
      if (is === null) {
        const what = plainText(foreign.ignoredAs?.(properties) ?? 'other', 60);
        this.ignored.set(what, (this.ignored.get(what) ?? 0) + 1);
      }
      return is;
    }
    const shown = typeof said === 'string' ? said : (JSON.stringify(said) ?? 'nothing');
    const hint = typeof said === 'string' ? suggestion(said, FEATURE_KINDS) : '';
    throw new UserError({
      what: said === undefined ? 'this feature has no kind' : 'the kind of this feature is not known',
      where: place,
      got: `${plainText(shown, 40)}${hint}`,
      expected: 'a kind such as wall, stream, path, spring, cairn, knoll or marsh',
    });
  }

  private fit(kind: FeatureKind, parts: readonly Geometry[], place: string): Geometry[] | null {
    const fitted = parts.map((part) => fitShape(kind, part)).filter((f) => f !== null);
    if (fitted.length > 0) return fitted.flat();
    if (this.options.foreign !== undefined) return null;
    throw new UserError({
      what: `a feature of kind ${kind} cannot have this geometry`,
      where: place,
      got: `a ${parts[0]!.type}`,
      expected: NATURAL[shapeOfKind(kind)],
    });
  }

  private described(properties: Properties, { kind, known }: Classified, place: string) {
    const { age, origin = 'mapped', foreign } = this.options;
    // names such as "exists" mean something else in other people's files
    const given = foreign === undefined ? givenDoubt(properties, place) : (known ?? {});
    const name = typeof properties.name === 'string' ? plainText(properties.name) : '';
    const row = textOf(properties.row);
    const rowPlace = foreign === undefined ? rowPlaceOf(properties.rowPlace, place) : null;
    return {
      kind,
      ...(name === '' ? {} : { name }),
      given,
      doubt: doubtOf(kind, given, {}, age),
      ...(row === null || foreign !== undefined ? {} : { row }),
      ...(rowPlace === null ? {} : { rowPlace }),
      origin,
    };
  }

  private add(
    id: string,
    shapes: readonly Geometry[],
    rest: Omit<Feature, 'id' | 'geometry'>,
    place: string,
  ): void {
    if (shapes.length > 1) this.note('split, of several parts', id);
    shapes.forEach((geometry, k) => {
      const wanted = shapes.length === 1 ? id : `${id}.${k + 1}`;
      const times = (this.ids.get(wanted) ?? 0) + 1;
      this.ids.set(wanted, times);
      if (times > 1 && this.options.foreign === undefined) {
        throw new UserError({
          what: 'two features have the same id',
          where: place,
          got: `"${wanted}" twice`,
          expected: 'an id of its own for each feature',
        });
      }
      this.features.push({ id: times === 1 ? wanted : `${wanted}#${times}`, geometry, ...rest });
    });
  }

  private warnOfMisspelling(properties: Properties, label: string): void {
    for (const name of Object.keys(properties)) {
      if (OUR_NAMES.includes(name)) continue;
      const meant = name.length > 3 ? didYouMean(name, DOUBT_NAMES) : null;
      if (meant !== null && properties[meant] === undefined) {
        this.note(`property "${plainText(name, 40)}" not used, did you mean ${meant}?`, label);
      }
    }
  }

  private note(what: string, label: string): void {
    const labels = this.notes.get(what);
    if (labels === undefined) this.notes.set(what, [label]);
    else labels.push(label);
  }
}

function textOf(value: unknown): string | null {
  const text =
    typeof value === 'string'
      ? plainText(value, 100)
      : typeof value === 'number' && Number.isFinite(value)
        ? String(value)
        : '';
  return text === '' ? null : text;
}

function rowPlaceOf(value: unknown, where: string): number | null {
  if (value === undefined || value === null) return null;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  throw new UserError({
    what: 'rowPlace of a feature is wrong',
    where,
    got: plainText(JSON.stringify(value) ?? 'nothing', 40),
    expected: 'a number',
  });
}
