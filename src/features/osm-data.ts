/** A longitude and a latitude in degrees. */
export type LonLat = readonly [lon: number, lat: number];

export type OsmTags = Record<string, string>;

/** An OpenStreetMap extract with the places of its ways and members looked up; what the extract cuts off is missing. */
export interface OsmData {
  readonly nodes: readonly { readonly id: number; readonly at: LonLat; readonly tags: OsmTags }[];
  /** Several lines where the extract cut the way. */
  readonly ways: readonly {
    readonly id: number;
    readonly lines: readonly (readonly LonLat[])[];
    readonly tags: OsmTags;
  }[];
  readonly relations: readonly {
    readonly id: number;
    readonly members: readonly { readonly role: string; readonly line: readonly LonLat[] }[];
    readonly tags: OsmTags;
  }[];
}

export interface RawWay {
  readonly id: number;
  readonly refs: readonly number[];
  readonly tags: OsmTags;
}

export interface RawRelation {
  readonly id: number;
  readonly members: readonly { readonly type: string; readonly ref: number; readonly role: string }[];
  readonly tags: OsmTags;
}

/** Most members of one multipolygon that are joined: joining them takes time that grows with their square. */
const MOST_MEMBERS = 5000;

/** Looks up nodes of ways and ways of multipolygons. Untagged ways serve only as members. */
export function resolveOsm(
  places: ReadonlyMap<number, LonLat>,
  tagged: OsmData['nodes'],
  ways: readonly RawWay[],
  relations: readonly RawRelation[],
): OsmData {
  const members = new Map<number, readonly LonLat[]>();
  const wanted = new Set(relations.flatMap((r) => (isArea(r.tags) ? r.members.map((m) => m.ref) : [])));
  for (const way of ways) {
    if (!wanted.has(way.id)) continue;
    // a member that is cut cannot close a ring
    const [line, ...more] = linesOf(way.refs, places);
    if (line !== undefined && more.length === 0) members.set(way.id, line);
  }
  return {
    nodes: tagged,
    ways: ways
      .filter((w) => hasTags(w.tags))
      .map((w) => ({ id: w.id, lines: linesOf(w.refs, places), tags: w.tags })),
    relations: relations
      .filter((r) => isArea(r.tags) && r.members.length <= MOST_MEMBERS)
      .map((r) => ({
        id: r.id,
        tags: r.tags,
        members: r.members
          .filter((m) => m.type === 'way' && members.has(m.ref))
          .map((m) => ({ role: m.role === 'inner' ? 'inner' : 'outer', line: members.get(m.ref)! })),
      })),
  };
}

/** The stretches of a way whose nodes are there. Joining across a gap would invent a line. */
function linesOf(refs: readonly number[], places: ReadonlyMap<number, LonLat>): LonLat[][] {
  const lines: LonLat[][] = [[]];
  for (const ref of refs) {
    const at = places.get(ref);
    if (at !== undefined) lines[lines.length - 1]!.push(at);
    else if (lines[lines.length - 1]!.length > 0) lines.push([]);
  }
  return lines.filter((line) => line.length > 1);
}

/** Routes, restrictions and borders are no things on the ground. */
export function isArea(tags: OsmTags): boolean {
  return tags.type === 'multipolygon';
}

export function hasTags(tags: OsmTags): boolean {
  for (const _ in tags) return true;
  return false;
}

/** Tags from outside: a key such as `__proto__` is only a key. */
export function noTags(): OsmTags {
  return Object.create(null) as OsmTags;
}
