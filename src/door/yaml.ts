import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import { UserError } from './user-error.ts';

/** Limits that no honest file meets and no hostile one may pass. */
const MOST_CHARACTERS = 1_000_000;
const MOST_DEPTH = 64;
const MOST_ALIASES = 100;

export type Path = readonly (string | number)[];

/** A YAML or JSON document with the way back from a path to its line and column. */
export interface ParsedText {
  readonly value: unknown;
  /** File name, or another name by which a person knows the text. */
  readonly where: string;
  /** "file:line:column" of a value, or of its key where `ofKey`; of the nearest holder when the path does not exist. */
  place(path: Path, ofKey?: boolean): string;
}

/** Reads YAML 1.2, of which JSON is a part. Throws UserError with line and column. */
export function parseYaml(text: string, where: string): ParsedText {
  if (text.length > MOST_CHARACTERS) {
    throw new UserError({
      what: 'the file is too large for a document of this kind',
      where,
      got: `${text.length} characters`,
      expected: `at most ${MOST_CHARACTERS}`,
    });
  }
  refuseDepth(text, where);
  const lines = new LineCounter();
  const document = composed(text, where, lines);
  const fault = document.errors[0];
  if (fault !== undefined) {
    throw new UserError({
      what: `not readable as YAML or JSON: ${fault.message.split('\n')[0]}`,
      where: at(where, lines, fault.pos[0]),
    });
  }
  return {
    value: plainValue(document, where),
    where,
    place: (path, ofKey = false) => at(where, lines, offsetOf(document, path, ofKey)),
  };
}

function composed(text: string, where: string, lineCounter: LineCounter): Document.Parsed {
  try {
    return parseDocument(text, { lineCounter, prettyErrors: false, stringKeys: true, logLevel: 'silent' });
  } catch (error) {
    // The composer calls itself per level; only nesting beyond sense gets here.
    if (error instanceof RangeError) throw tooDeep(where);
    throw error;
  }
}

function plainValue(document: Document.Parsed, where: string): unknown {
  try {
    return document.toJS({ maxAliasCount: MOST_ALIASES });
  } catch (error) {
    if (error instanceof ReferenceError || error instanceof RangeError) {
      throw new UserError({
        what: `an alias cannot be followed: ${error.message}`,
        where,
        expected: `at most ${MOST_ALIASES} uses of anchors that exist`,
      });
    }
    throw error;
  }
}

/** The deepest nesting that the text could have: open brackets in flow style, indentation and dashes in block style. */
function refuseDepth(text: string, where: string): void {
  let open = 0;
  let dashes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 0x5b || c === 0x7b) {
      if (++open > MOST_DEPTH * 16) throw tooDeep(where);
    } else if ((c === 0x5d || c === 0x7d) && open > 0) open--;
    else if (c === 0x0a) dashes = 0;
    else if ((c === 0x2d || c === 0x3f || c === 0x3a) && text.charCodeAt(i + 1) === 0x20) {
      if (++dashes > MOST_DEPTH * 16) throw tooDeep(where);
    }
  }
}

function tooDeep(where: string): UserError {
  return new UserError({ what: 'the document is nested too deeply', where, expected: 'a few levels' });
}

function at(where: string, lines: LineCounter, offset: number): string {
  const { line, col } = lines.linePos(offset);
  return line === 0 ? where : `${where}:${line}:${col}`;
}

function offsetOf(document: Document.Parsed, path: Path, ofKey: boolean): number {
  let node: Node | null = document.contents;
  let offset = node?.range?.[0] ?? 0;
  for (const [step, name] of path.entries()) {
    if (isAlias(node)) node = node.resolve(document) ?? null;
    const last = step === path.length - 1;
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(name));
      if (pair === undefined) return offset;
      const key = pair.key as Node;
      const value = pair.value as Node | null;
      offset = (last && ofKey ? key.range?.[0] : (value?.range?.[0] ?? key.range?.[0])) ?? offset;
      node = value;
    } else if (isSeq(node)) {
      const item = node.items[Number(name)] as Node | undefined;
      if (item === undefined) return offset;
      offset = item.range?.[0] ?? offset;
      node = item;
    } else return offset;
  }
  return offset;
}
