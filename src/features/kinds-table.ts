import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { readCsv } from './csv.ts';
import type { Foreign } from './gather.ts';
import type { Properties } from './geojson-text.ts';
import { FEATURE_KINDS, type FeatureKind } from './kinds.ts';
import { plainText } from './plain-text.ts';

/**
 * Reads `kinds.csv`: a header `property,value,kind` and one rule a row, the first that fits wins. `*` as the value is any value;
 * an empty kind or `-` leaves such features out. Makes the classifier for GeoJSON that was not made for this program.
 */
export function readKindsTable(text: string, where: string): Foreign {
  const { columns, rows } = readCsv(text, where);
  for (const needed of ['property', 'value', 'kind']) {
    if (columns.includes(needed)) continue;
    throw new UserError({
      what: `the column "${needed}" is missing`,
      where,
      got: plainText(columns.join(','), 60),
      expected: 'the header property,value,kind',
    });
  }
  const rules = rows.map(({ line, cells }) => {
    const { property = '', value = '', kind = '' } = cells;
    return { property, value, kind: kindOf(kind, `${where}, line ${line}`) };
  });
  const ruleFor = (properties: Properties) =>
    rules.find(({ property, value }) => {
      const said = properties[property];
      if (said === undefined || said === null || said === '' || typeof said === 'object') return false;
      return value === '*' || String(said) === value;
    });
  const tried = [...new Set(rules.map((r) => r.property))];
  return {
    classify: (properties) => {
      const kind = ruleFor(properties)?.kind ?? null;
      return kind === null ? null : { kind };
    },
    ignoredAs: (properties) => {
      const property = tried.find((p) => properties[p] !== undefined && properties[p] !== null);
      return property === undefined
        ? 'none of the properties of kinds.csv'
        : `${property}=${String(properties[property])}`;
    },
  };
}

function kindOf(said: string, where: string): FeatureKind | null {
  if (said === '' || said === '-') return null;
  const kind = FEATURE_KINDS.find((k) => k === said);
  if (kind !== undefined) return kind;
  throw new UserError({
    what: 'this kind is not known',
    where,
    got: `${plainText(said, 40)}${suggestion(said, FEATURE_KINDS)}`,
    expected: 'a kind such as wall, stream, path, spring, cairn, knoll or marsh, or - to leave it out',
  });
}
