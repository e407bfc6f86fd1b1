import type { Properties } from './geojson-text.ts';
import { noTags, type OsmTags } from './osm-data.ts';

/** Longest `other_tags` that is taken apart, characters. */
const LONGEST = 20_000;

/** All tags of a feature as GDAL's OSM driver writes it: some as columns, the rest as `"key"=>"value"` pairs in `other_tags`. Empty columns say nothing. */
export function tagsOfExport(properties: Properties): OsmTags {
  const tags = noTags();
  const rest = properties.other_tags;
  if (typeof rest === 'string') {
    const pair = /"((?:[^"\\]|\\.)*)"\s*=>\s*"((?:[^"\\]|\\.)*)"/g;
    for (const [, key = '', value = ''] of rest.slice(0, LONGEST).matchAll(pair))
      tags[plain(key)] = plain(value);
  }
  for (const [key, value] of Object.entries(properties)) {
    if (key === 'other_tags') continue;
    if (typeof value === 'string' && value !== '') tags[key] = value;
    else if (typeof value === 'number') tags[key] = String(value);
  }
  return tags;
}

function plain(quoted: string): string {
  return quoted.replace(/\\(.)/g, '$1');
}
