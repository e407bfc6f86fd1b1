import { defaultDoubt } from './doubt.ts';
import type { Doubt, Feature } from './feature.ts';
import type { FeatureKind } from './kinds.ts';
import { lineFamily } from './line-kinds.ts';
import type { LineNetwork, Place } from './network.ts';

/** Doubts by id of a feature or place, as a task states them. */
export type StatedDoubts = Readonly<Record<string, Partial<Doubt>>>;

/**
 * The places of the network that a party can name and recognise, as point features with stable ids
 * (`confluence:beck-a+beck-b`, `end:beck-a/source`, `corner:long-dyke`). A place is no surer than the most doubtful of its lines and lies
 * no better than the best of them: that is written into `given`, so that it survives a change of the defaults. What a task states of a
 * place by its id goes before that.
 */
export function placesAsFeatures(
  network: LineNetwork,
  features: readonly Feature[],
  stated: StatedDoubts = {},
): Feature[] {
  const byId = new Map(features.map((f) => [f.id, f]));
  return network.places.flatMap((place): Feature[] => {
    const lines = [...new Set(place.on.map((o) => o.feature))].map((id) => byId.get(id)!);
    const kind = kindOf(place, lines);
    if (kind === null) return [];
    const given = doubtFromLines(kind, lines);
    const own = Object.hasOwn(stated, place.id) ? stated[place.id] : {};
    return [
      {
        id: place.id,
        kind,
        name: nameOf(place, lines),
        geometry: { type: 'point', at: place.at },
        given,
        doubt: { ...defaultDoubt(kind), ...given, ...own },
        origin: 'derived',
      },
    ];
  });
}

function kindOf(place: Place, lines: readonly Feature[]): FeatureKind | null {
  switch (place.kind) {
    case 'join':
      return null;
    case 'corner':
      return lines.every((f) => f.kind === 'fence') ? 'fence-corner' : 'wall-corner';
    case 'line-end':
      // the end of a ridge or of a marsh is no place that one can point at
      return lines.some((f) => lineFamily(f.kind) === 'form') ? null : 'line-end';
    default:
      return place.kind;
  }
}

function doubtFromLines(kind: FeatureKind, lines: readonly Feature[]): Partial<Doubt> {
  const own = defaultDoubt(kind);
  const exist = Math.min(...lines.map((f) => f.doubt.exists));
  const sd = Math.min(...lines.map((f) => f.doubt.positionMetres));
  const head = lines.find((f) => f.doubt.head !== undefined)?.doubt.head;
  return {
    ...(exist < own.exists ? { exists: exist } : {}),
    ...(sd > own.positionMetres ? { positionMetres: sd } : {}),
    ...(kind === 'stream-end' && head !== undefined ? { head } : {}),
  };
}

function nameOf(place: Place, lines: readonly Feature[]): string {
  const names = [...new Set(lines.map((f) => f.name ?? f.id))];
  const [first = '', ...rest] = names;
  const others = rest.join(' and ');
  switch (place.kind) {
    case 'confluence':
      return rest.length === 0 ? `confluence on ${first}` : `confluence of ${first} and ${others}`;
    case 'junction':
      return rest.length === 0 ? `fork of ${first}` : `junction of ${first} and ${others}`;
    case 'crossing':
      return `crossing of ${first} and ${others}`;
    case 'corner':
      return `corner of ${names.join(' and ')}`;
    case 'stream-end':
      return `end of ${first}`;
    default:
      return place.id.startsWith('inlet:') || place.id.startsWith('outlet:')
        ? `${place.id.slice(0, place.id.indexOf(':'))} of ${first}`
        : place.id.endsWith('/mouth')
          ? `mouth of ${first}`
          : `end of ${first}`;
  }
}
