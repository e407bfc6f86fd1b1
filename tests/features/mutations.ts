import { seeded } from './seeded.ts';

const NASTY = [
  '',
  '"',
  "'",
  '<',
  '>',
  '&',
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  '\\',
  '\u0000',
  '\u202e',
  '\ud800',
  '\ufeff',
  '\n',
  'null',
  'true',
  'NaN',
  'Infinity',
  '-1',
  '1e999',
  '1e-999',
  '99999999999999999999',
  '-0',
  '__proto__',
  'constructor',
  '../../etc/passwd',
  '<script>alert(1)</script>',
  '&bomb;',
  '<!DOCTYPE x [<!ENTITY a "a">]>',
  '<!--',
  ']]>',
  '[['.repeat(40),
  '<a>'.repeat(40),
  'x'.repeat(5000),
];

/** A damaged copy of a text: one to six cuts, repeats, swaps and insertions of things that break readers. */
export function mutatedText(text: string, seed: number): string {
  const random = seeded(seed);
  const below = (n: number) => Math.floor(random() * n);
  let out = text;
  for (let k = 1 + below(6); k > 0; k--) {
    const at = below(out.length + 1);
    const to = Math.min(out.length, at + 1 + below(random() < 0.8 ? 12 : 2000));
    const nasty = NASTY[below(NASTY.length)]!;
    switch (below(6)) {
      case 0:
        out = out.slice(0, at) + out.slice(to);
        break;
      case 1:
        out = out.slice(0, to) + out.slice(at, to).repeat(1 + below(3)) + out.slice(to);
        break;
      case 2:
        out = out.slice(0, at) + nasty + out.slice(at);
        break;
      case 3:
        out = out.slice(0, at) + nasty + out.slice(to);
        break;
      case 4:
        // a number becomes another
        out = out.slice(0, at) + out.slice(at).replace(/-?\d+(\.\d+)?/, nasty);
        break;
      default:
        out = out.slice(0, below(8) === 0 ? at : out.length);
    }
  }
  return out;
}

/** A damaged copy of some bytes. */
export function mutatedBytes(bytes: Uint8Array, seed: number): Uint8Array {
  const random = seeded(seed);
  const below = (n: number) => Math.floor(random() * n);
  const out = Uint8Array.from(bytes);
  // headers are where lengths are: in half of the files all of the damage goes there
  const reach = random() < 0.5 ? Math.min(200, out.length) : out.length;
  for (let k = 1 + below(4); k > 0; k--) {
    const at = below(reach);
    out[at] = [0, 0xff, 0x7f, 0x80, below(256), out[at]! ^ (1 << below(8))][below(6)]!;
  }
  return below(6) === 0 ? out.subarray(0, below(out.length)) : out;
}
