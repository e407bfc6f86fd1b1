import osm2geojson from 'osm2geojson-lite';
import type { Item } from './geojson-text.ts';
import type { LonLat, OsmData, OsmTags } from './osm-data.ts';

/** How many elements are joined at a time: the joiner's lists grow with the square of it. */
const CHUNK = 500;

/** GeoJSON items of an extract, ways closed into areas and multipolygons joined where their tags say so. Ids are `n1`, `w2`, `r3`. */
export function osmItems(data: OsmData): Item[] {
  const items: Item[] = data.nodes.map(({ id, at, tags }) => ({
    id: `n${id}`,
    geometry: { type: 'Point', coordinates: at },
    properties: tags,
  }));
  const cut = data.ways.filter((w) => w.lines.length > 1);
  for (const { id, lines, tags } of cut) {
    items.push({ id: `w${id}`, geometry: { type: 'MultiLineString', coordinates: lines }, properties: tags });
  }
  const whole = data.ways.filter((w) => w.lines.length === 1);
  const elements = [
    ...whole.map((w) => ({ type: 'way', id: w.id, tags: w.tags, geometry: latLon(w.lines[0]!) })),
    ...data.relations.map((r) => ({
      type: 'relation',
      id: r.id,
      tags: r.tags,
      members: r.members
        .filter((m) => m.line.length > 1)
        .map((m, i) => ({ type: 'way', ref: -1 - i, role: m.role, geometry: latLon(m.line) })),
    })),
  ];
  const tags = new Map<string, OsmTags>(elements.map((e) => [`${e.type}/${e.id}`, e.tags]));
  for (let i = 0; i < elements.length; i += CHUNK) {
    const joined = osm2geojson(
      { elements: elements.slice(i, i + CHUNK) },
      { completeFeature: true, renderTagged: true, excludeWay: false },
    );
    for (const feature of joined.features) {
      const own = tags.get(String(feature.id));
      if (own === undefined) continue;
      const [type = '', id = ''] = String(feature.id).split('/');
      items.push({ id: `${type[0]}${id}`, geometry: feature.geometry, properties: own });
    }
  }
  return items;
}

function latLon(line: readonly LonLat[]): { lon: number; lat: number }[] {
  return line.map(([lon, lat]) => ({ lon, lat }));
}
