import { getIssues } from '@placemarkio/check-geojson';
import { UserError } from '../door/user-error.ts';
import { plainText } from './plain-text.ts';
import { checkLength, checkNesting } from './text-limits.ts';

export type Properties = Readonly<Record<string, unknown>>;

/** A feature as a file holds it; `geometry` is GeoJSON's, not yet checked. */
export interface Item {
  readonly id?: unknown;
  readonly geometry: unknown;
  readonly properties: Properties;
}

/** The features of a GeoJSON text and the licence or attribution it names, geometry not yet checked. */
export function itemsOf(text: string, where: string): { items: Item[]; attribution: string | null } {
  checkLength(text.length, where);
  checkNesting(text, where);
  const json = parse(text, where);
  if (!isRecord(json)) throw notGeoJson(where, json);
  const list = json.type === 'FeatureCollection' ? json.features : [json];
  if (!Array.isArray(list)) throw notGeoJson(where, json.features);
  const items = list.map((f: unknown): Item => {
    if (!isRecord(f) || f.type !== 'Feature') throw notGeoJson(where, isRecord(f) ? f.type : f);
    return {
      id: f.id,
      geometry: f.geometry ?? null,
      properties: isRecord(f.properties) ? f.properties : {},
    };
  });
  const said = typeof json.attribution === 'string' ? plainText(json.attribution, 300) : '';
  return { items, attribution: said === '' ? null : said };
}

function parse(text: string, where: string): unknown {
  try {
    // a byte order mark is not JSON, but many programs write one
    return JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch {
    throw faultOf(text, where, 'this is not JSON');
  }
}

/** The fault as GeoJSON's grammar sees it, with line and column, where the text is small enough to be checked twice; else `what`. */
export function faultOf(text: string, where: string, what: string, got?: string): UserError {
  const fault = text.length < 20_000_000 ? firstIssue(text) : null;
  return new UserError({
    what: fault?.what ?? what,
    where: fault === null ? where : `${where}, ${fault.at}`,
    ...(got === undefined ? {} : { got }),
    expected: 'GeoJSON as in RFC 7946',
  });
}

function firstIssue(text: string): { what: string; at: string } | null {
  try {
    const issue = getIssues(text)[0];
    if (issue === undefined) return null;
    // a fault of the JSON itself carries its place only in its words
    const inWords = /^(?:Invalid JSON: )?(.*) \((\d+):(\d+)\)$/.exec(issue.message);
    if (inWords !== null) {
      return {
        what: `this is not JSON: ${plainText(inWords[1]!, 120)}`,
        at: `line ${inWords[2]}, column ${inWords[3]}`,
      };
    }
    if (issue.message.startsWith('Invalid JSON')) return null;
    const before = text.slice(0, issue.from);
    const line = before.split('\n').length;
    return {
      what: plainText(issue.message, 160),
      at: `line ${line}, column ${issue.from - before.lastIndexOf('\n')}`,
    };
  } catch {
    // the checker itself gave up on this text
    return null;
  }
}

function notGeoJson(where: string, got: unknown): UserError {
  const shown = typeof got === 'string' ? got : (JSON.stringify(got) ?? 'nothing');
  return new UserError({
    what: 'this is not a GeoJSON collection of features',
    where,
    got: plainText(shown, 40),
    expected: 'a FeatureCollection',
  });
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
