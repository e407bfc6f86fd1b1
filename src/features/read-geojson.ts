import { type FeaturesRead, gather, type ReadOptions } from './gather.ts';
import { faultOf, itemsOf } from './geojson-text.ts';

export type { FeaturesRead, Foreign, ReadOptions } from './gather.ts';

/**
 * Reads map features from GeoJSON (RFC 7946: degrees; or metres of the terrain's CRS). Positions are snapped to the lattice,
 * multi-part geometries split into `id.1`, `id.2` …, null geometries noted and skipped. Throws one UserError about the first thing wrong.
 */
export function readFeatures(text: string, options: ReadOptions): FeaturesRead {
  const { items, attribution } = itemsOf(text, options.where);
  const read = gather(items, options, (place, got) => faultOf(text, place, 'the geometry is wrong', got));
  return { ...read, attribution };
}
