import { UserError } from '../door/user-error.ts';
import { isRecord } from './geojson-text.ts';
import {
  hasTags,
  type LonLat,
  noTags,
  type OsmData,
  type OsmTags,
  type RawRelation,
  type RawWay,
  resolveOsm,
} from './osm-data.ts';

/** Reads Overpass JSON (`elements` with nodes by reference, as `out body; >; out skel` gives it). Elements that are wrong are a UserError. */
export function readOsmJson(elements: readonly unknown[], where: string): OsmData {
  const places = new Map<number, LonLat>();
  const tagged: { id: number; at: LonLat; tags: OsmTags }[] = [];
  const ways: RawWay[] = [];
  const relations: RawRelation[] = [];
  elements.forEach((e, i) => {
    const wrong = (what: string) =>
      new UserError({
        what,
        where: `${where}, element ${i + 1}`,
        expected: 'Overpass JSON with nodes, ways and relations',
      });
    if (!isRecord(e) || !Number.isSafeInteger(e.id)) throw wrong('an element has no id');
    const id = e.id as number;
    const tags = tagsOf(e.tags);
    if (e.type === 'node') {
      const { lon, lat } = e;
      if (typeof lon !== 'number' || typeof lat !== 'number')
        throw wrong('a node has no longitude and latitude');
      if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) throw wrong('a node is not on the globe');
      places.set(id, [lon, lat]);
      if (hasTags(tags)) tagged.push({ id, at: [lon, lat], tags });
    } else if (e.type === 'way') {
      const refs = Array.isArray(e.nodes) ? e.nodes.filter((n): n is number => Number.isSafeInteger(n)) : [];
      ways.push({ id, refs, tags });
    } else if (e.type === 'relation') {
      const members = Array.isArray(e.members) ? e.members.filter(isRecord) : [];
      relations.push({
        id,
        tags,
        members: members
          .filter((m) => Number.isSafeInteger(m.ref))
          .map((m) => ({ type: String(m.type), ref: m.ref as number, role: String(m.role ?? '') })),
      });
    }
  });
  return resolveOsm(places, tagged, ways, relations);
}

function tagsOf(value: unknown): OsmTags {
  const tags = noTags();
  if (isRecord(value)) for (const [k, v] of Object.entries(value)) if (typeof v === 'string') tags[k] = v;
  return tags;
}
