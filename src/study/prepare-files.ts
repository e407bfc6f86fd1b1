import { placeOf } from '../features/areas.ts';
import type { Feature, Geometry } from '../features/feature.ts';
import type { Point } from '../math/plane.ts';
import { toLonLat } from '../terrain/projection.ts';

/** Degrees to the millimetre. */
function degrees(crs: string, at: Point): [number, number] {
  const [lon, lat] = toLonLat(crs, at);
  return [Math.round(lon * 1e8) / 1e8, Math.round(lat * 1e8) / 1e8];
}

/** Features as GeoJSON (RFC 7946), one to a line, with what their source says of their doubt. */
export function featuresText(features: readonly Feature[], crs: string, attribution: string): string {
  const lines = features.map((f) =>
    JSON.stringify({ type: 'Feature', properties: properties(f), geometry: geometryText(f.geometry, crs) }),
  );
  const head = `{"type":"FeatureCollection","attribution":${JSON.stringify(attribution)},"features":[`;
  return `${head}\n${lines.join(',\n')}\n]}\n`;
}

function properties({ id, kind, name, given, row, rowPlace }: Feature): Record<string, unknown> {
  return {
    id,
    kind,
    ...(name === undefined ? {} : { name }),
    ...given,
    ...(row === undefined ? {} : { row }),
    ...(rowPlace === undefined ? {} : { rowPlace }),
  };
}

function geometryText(g: Geometry, crs: string): { type: string; coordinates: unknown } {
  if (g.type === 'point') return { type: 'Point', coordinates: degrees(crs, g.at) };
  if (g.type === 'line') return { type: 'LineString', coordinates: g.points.map((p) => degrees(crs, p)) };
  return { type: 'Polygon', coordinates: g.rings.map((ring) => ring.map((p) => degrees(crs, p))) };
}

/** Every name that a task on this ground may use, with its place: features first, then the places derived from them. */
export function placesText(features: readonly Feature[]): string {
  const rows = features
    .filter(
      (f) => f.geometry.type !== 'area' || f.kind === 'tarn' || f.kind === 'lake' || f.name !== undefined,
    )
    .map((f) => {
      const [x, y] = placeOf(f);
      return [f.id, f.kind, f.name ?? '', f.origin, String(Math.round(x)), String(Math.round(y))]
        .map(cell)
        .join(',');
    });
  return `id,kind,name,origin,easting,northing\n${rows.join('\n')}\n`;
}

/** Quoted where needed; a text that a spreadsheet would take for a formula is kept from being one. */
function cell(text: string): string {
  const plain = /^[=+@\t\r]|^-(?!\d)/.test(text) ? `'${text}` : text;
  return /[",\n\r]/.test(plain) ? `"${plain.replace(/"/g, '""')}"` : plain;
}
