import { UserError } from '../door/user-error.ts';
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
import { plainText } from './plain-text.ts';
import { checkLength } from './text-limits.ts';

const DEEPEST = 8;

/**
 * Reads OpenStreetMap XML (API 0.6, Overpass, JOSM, planet extracts). One pass, no recursion, no document types or entity definitions.
 * Throws a UserError with the line for what is not well formed.
 */
export function readOsmXml(text: string, where: string): OsmData {
  checkLength(text.length, where);
  const reader = new OsmXml(text, where);
  return reader.read();
}

interface Open {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly tags: OsmTags;
  readonly refs: number[];
  readonly members: { type: string; ref: number; role: string }[];
}

class OsmXml {
  private readonly text: string;
  private readonly where: string;
  private at = 0;
  private readonly stack: string[] = [];
  private element: Open | null = null;
  private readonly places = new Map<number, LonLat>();
  private readonly tagged: { id: number; at: LonLat; tags: OsmTags }[] = [];
  private readonly ways: RawWay[] = [];
  private readonly relations: RawRelation[] = [];

  constructor(text: string, where: string) {
    this.text = text;
    this.where = where;
  }

  read(): OsmData {
    const { text } = this;
    let root = false;
    for (;;) {
      const open = text.indexOf('<', this.at);
      if (open < 0) break;
      this.at = open;
      if (text.startsWith('<?', open)) this.skipPast('?>');
      else if (text.startsWith('<!--', open)) this.skipPast('-->');
      else if (text.startsWith('<!', open)) {
        throw this.wrong(
          'document types and entities are not read',
          text.slice(open, open + 20),
          'plain OSM XML',
        );
      } else if (text.startsWith('</', open)) this.close();
      else {
        if (!root && !/^<osm(?![\w-])/.test(text.slice(open, open + 5))) {
          throw this.wrong('this is not OpenStreetMap XML', text.slice(open, open + 20), 'an <osm> element');
        }
        root = true;
        this.open();
      }
    }
    if (!root) throw this.wrong('this is not OpenStreetMap XML', 'no element at all', 'an <osm> element');
    if (this.stack.length > 0)
      throw this.wrong('the file ends too early', `<${this.stack.join('><')}> still open`);
    return resolveOsm(this.places, this.tagged, this.ways, this.relations);
  }

  private open(): void {
    const attribute = /\s+([A-Za-z_:][\w:.-]*)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y;
    // longer names are damage; quoting one whole would fill the screen
    const name = /[A-Za-z_:][\w:.-]{0,40}(?![\w:.-])/y;
    name.lastIndex = this.at + 1;
    const tag = name.exec(this.text)?.[0];
    if (tag === undefined)
      throw this.wrong('the XML is not well formed', this.text.slice(this.at, this.at + 20));
    const attributes: Record<string, string> = noTags();
    attribute.lastIndex = name.lastIndex;
    let end = name.lastIndex;
    for (let found = attribute.exec(this.text); found !== null; found = attribute.exec(this.text)) {
      attributes[found[1]!] = decoded(found[2] ?? found[3] ?? '');
      end = attribute.lastIndex;
    }
    const tail = /\s*(\/?)>/y;
    tail.lastIndex = end;
    const closing = tail.exec(this.text);
    if (closing === null)
      throw this.wrong('the XML is not well formed', this.text.slice(this.at, this.at + 40));
    this.begin(tag, attributes);
    this.at = tail.lastIndex;
    if (closing[1] === '/') this.end();
  }

  private close(): void {
    const shut = /<\/([A-Za-z_:][\w:.-]*)\s*>/y;
    shut.lastIndex = this.at;
    const found = shut.exec(this.text);
    const expected = this.stack[this.stack.length - 1];
    if (found === null || found[1] !== expected) {
      throw this.wrong(
        'the XML is not well formed',
        this.text.slice(this.at, this.at + 20),
        expected === undefined ? 'nothing to close' : `</${expected}>`,
      );
    }
    this.at = shut.lastIndex;
    this.end();
  }

  private begin(name: string, attributes: Readonly<Record<string, string>>): void {
    this.stack.push(name);
    if (this.stack.length > DEEPEST)
      throw this.wrong('the XML is nested too deeply', `${this.stack.length} levels`);
    const { element } = this;
    if (this.stack.length === 2) {
      this.element = { name, attributes, tags: noTags(), refs: [], members: [] };
    } else if (element !== null && this.stack.length === 3) {
      if (name === 'tag' && attributes.k !== undefined) element.tags[attributes.k] = attributes.v ?? '';
      else if (name === 'nd') element.refs.push(this.id(attributes.ref));
      else if (name === 'member') {
        const { type = '', role = '' } = attributes;
        element.members.push({ type, role, ref: this.id(attributes.ref) });
      }
    }
  }

  private end(): void {
    this.stack.pop();
    if (this.stack.length !== 1 || this.element === null) return;
    const { name, attributes, tags, refs, members } = this.element;
    this.element = null;
    if (attributes.visible === 'false' || attributes.action === 'delete') return;
    if (name === 'node') {
      const id = this.id(attributes.id);
      const at: LonLat = [this.degrees(attributes.lon, 180), this.degrees(attributes.lat, 90)];
      this.places.set(id, at);
      if (hasTags(tags)) this.tagged.push({ id, at, tags });
    } else if (name === 'way') this.ways.push({ id: this.id(attributes.id), refs, tags });
    else if (name === 'relation') this.relations.push({ id: this.id(attributes.id), members, tags });
  }

  private id(text: string | undefined): number {
    const id = /^-?\d{1,16}$/.test(text ?? '') ? Number(text) : Number.NaN;
    if (!Number.isSafeInteger(id))
      throw this.wrong('an id or ref is wrong', text ?? 'none', 'a whole number');
    return id;
  }

  private degrees(text: string | undefined, most: number): number {
    const value = text === undefined || text.trim() === '' ? Number.NaN : Number(text);
    if (Math.abs(value) <= most) return value;
    throw this.wrong('a node has no good longitude and latitude', text ?? 'none', `degrees up to ${most}`);
  }

  private skipPast(mark: string): void {
    const end = this.text.indexOf(mark, this.at);
    if (end < 0) throw this.wrong('the file ends too early', `no ${mark}`);
    this.at = end + mark.length;
  }

  private wrong(what: string, got: string, expected?: string): UserError {
    const line = this.text.slice(0, this.at).split('\n').length;
    const shown = plainText(got, 60);
    return new UserError({
      what,
      where: `${this.where}, line ${line}`,
      got: shown,
      ...(expected === undefined ? {} : { expected }),
    });
  }
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** The five entities of XML and numbered characters; any other stays as it stands. */
function decoded(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#(\d{1,7})|#x([0-9a-fA-F]{1,6})|(\w{1,8}));/g, (all, decimal, hex, name) => {
    if (name !== undefined) return Object.hasOwn(NAMED, name) ? NAMED[name]! : all;
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '';
  });
}
