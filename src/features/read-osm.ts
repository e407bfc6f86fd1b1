import { UserError } from '../door/user-error.ts';
import { edgesOfAreas } from './edges.ts';
import type { Geometry } from './feature.ts';
import { type FeaturesRead, type Foreign, gather, type ReadOptions } from './gather.ts';
import { faultOf, type Item, isRecord, itemsOf, type Properties } from './geojson-text.ts';
import type { OsmData } from './osm-data.ts';
import { osmItems } from './osm-items.ts';
import { readOsmJson } from './osm-json.ts';
import { osmKind, type Tags, tellingTag } from './osm-kinds.ts';
import { readOsmXml } from './osm-xml.ts';
import { tagsOfExport } from './other-tags.ts';
import { checkLength, checkNesting } from './text-limits.ts';

/** What has to be shown beside anything made from OpenStreetMap data (its terms, openstreetmap.org/copyright). */
export const OSM_ATTRIBUTION = '© OpenStreetMap contributors, ODbL 1.0';

type OsmOptions = Omit<ReadOptions, 'foreign' | 'featuresInCrs'>;

/** Reads OpenStreetMap features from XML, Overpass JSON, or a GeoJSON export (columns, `other_tags`). One UserError about the first thing wrong. */
export function readOsm(text: string, options: OsmOptions): FeaturesRead {
  const { where } = options;
  checkLength(text.length, where);
  const first = /[^\s\ufeff]/.exec(text.slice(0, 1000))?.[0];
  if (first === '<') return featuresOfOsm(readOsmXml(text, where), options);
  if (first !== '{') {
    throw new UserError({
      what: 'this is not OpenStreetMap data',
      where,
      expected: 'OSM XML, Overpass JSON or GeoJSON',
    });
  }
  const elements = overpassElements(text, where);
  if (elements !== null) return featuresOfOsm(readOsmJson(elements, where), options);

  const { items, attribution } = itemsOf(text, where);
  const tagged = items.map((item): Item => ({ ...item, properties: tagsOfExport(item.properties) }));
  const read = gather(tagged, { ...options, foreign: EXPORT }, (place, got) =>
    faultOf(text, place, 'the geometry is wrong', got),
  );
  return { ...withEdges(read), attribution: attribution ?? OSM_ATTRIBUTION };
}

/** Features of an extract that is already taken apart (PBF). */
export function featuresOfOsm(data: OsmData, options: OsmOptions): FeaturesRead {
  const read = gather(
    osmItems(data),
    { ...options, foreign: EXTRACT },
    (place, got) => new UserError({ what: 'the geometry is wrong', where: place, got }),
  );
  return { ...withEdges(read), attribution: OSM_ATTRIBUTION };
}

/** OpenStreetMap knows forests, a party walks along their edges. */
function withEdges<T extends Pick<FeaturesRead, 'features'>>(read: T): T {
  return { ...read, features: [...read.features, ...edgesOfAreas(read.features)] };
}

const classify = (properties: Properties, parts: readonly Geometry[]) => osmKind(properties as Tags, parts);
const ignoredAs = (properties: Properties) => tellingTag(properties as Tags);

const EXTRACT: Foreign = { classify, ignoredAs };
const EXPORT: Foreign = { classify, ignoredAs, idOf: exportId };

/** `n`, `w` or `r` and the number, from whichever of the usual columns the export has. */
function exportId(properties: Properties, part: Geometry): string | null {
  const tags = properties as Tags;
  const full = /^(?:(n|w|r)|(node|way|relation)\/)(\d+)$/.exec(tags.full_id ?? tags['@id'] ?? '');
  if (full !== null) return `${full[1] ?? full[2]![0]}${full[3]}`;
  if (tags.osm_way_id !== undefined) return `w${tags.osm_way_id}`;
  if (tags.osm_id === undefined) return null;
  return `${part.type === 'point' ? 'n' : part.type === 'line' ? 'w' : 'r'}${tags.osm_id}`;
}

function overpassElements(text: string, where: string): readonly unknown[] | null {
  if (!/"elements"\s*:/.test(text.slice(0, 4000))) return null;
  checkNesting(text, where);
  try {
    const json: unknown = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
    return isRecord(json) && Array.isArray(json.elements) ? json.elements : null;
  } catch {
    throw faultOf(text, where, 'this is not JSON');
  }
}
