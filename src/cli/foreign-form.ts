import { UserError } from '../door/user-error.ts';

const CONVERT = 'GeoJSON: ogr2ogr -f GeoJSON -t_srs EPSG:4326 -lco RFC7946=YES out.geojson THIS_FILE';
const UNPACK = 'the files that are packed in it';

/** Forms that people have at hand and that `prepare` does not read: what they begin with, what they are, what to give instead. */
const FORMS: readonly (readonly [begins: RegExp | string, is: string, expected: string])[] = [
  ['\0\0\x27\n', 'a shapefile', CONVERT],
  ['SQLite format 3\0', 'a GeoPackage or other database', CONVERT],
  ['\x1f\x8b', 'a file packed by gzip', UNPACK],
  ['PK\x03\x04', 'a file packed by zip', UNPACK],
  [
    /^(?:\ufeff|ï»¿)?\s*(?:<\?xml[^>]*>\s*)?(?:<!--[^>]*-->\s*)*<gpx\b/i,
    'a GPX track',
    'tracks with --around, or as the line of a route in a task',
  ],
  [/^(?:\ufeff|ï»¿)?\s*(?:<\?xml[^>]*>\s*)?(?:<!--[^>]*-->\s*)*<kml\b/i, 'KML', CONVERT],
  [/^(?:\ufeff|ï»¿)?\s*(?:<\?xml[^>]*>\s*)?(?:<!--[^>]*-->\s*)*<[\w.]+:\w+[^>]*\bgml\b/i, 'GML', CONVERT],
  [
    /^\s*(?:PROJCS|GEOGCS|PROJCRS|GEOGCRS)\[/,
    'the coordinate system of another file',
    'that file; what lies beside it under the same name is read with it',
  ],
];

/** Refuses a file of a known form that is not read, by the name of the form. */
export function refuseForeign(bytes: Uint8Array, name: string): void {
  // one character a byte: magic numbers are no text
  const beginning = String.fromCharCode(...bytes.subarray(0, 1000));
  const form = FORMS.find(([begins]) =>
    typeof begins === 'string' ? beginning.startsWith(begins) : begins.test(beginning),
  );
  if (form === undefined) return;
  const [, is, expected] = form;
  throw new UserError({ what: 'this file is not read as it is', where: name, got: is, expected });
}
