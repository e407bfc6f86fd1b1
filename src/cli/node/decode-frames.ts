import { once } from 'node:events';
import type { Readable, Writable } from 'node:stream';
import type { DecodedGrid, DecodeLimits } from '../../terrain/decoded.ts';

/** What the parent asks; the bytes of the file follow. */
export interface DecodeQuestion {
  readonly name: string;
  readonly limits: DecodeLimits;
}

/** What the child answers; the heights follow as Float32 in the machine's own order. */
export type DecodeAnswer =
  | { readonly grid: Omit<DecodedGrid, 'data'> }
  | {
      readonly user: boolean;
      readonly fault: { readonly what: string; readonly got?: string; readonly expected?: string };
    };

/** A head is short, whatever a file says in it. */
const MOST_HEAD_BYTES = 1_000_000;
const LENGTHS_BYTES = 16;

/** Writes a message and ends the stream: lengths of head and body as two doubles, the head as JSON, the body as it lies in memory. */
export function say(stream: Writable, head: object, body: Uint8Array): void {
  const json = Buffer.from(JSON.stringify(head));
  const lengths = Buffer.alloc(LENGTHS_BYTES);
  lengths.writeDoubleLE(json.length, 0);
  lengths.writeDoubleLE(body.byteLength, 8);
  stream.write(lengths);
  stream.write(json);
  stream.end(body);
}

/**
 * Reads a stream to its end as one message, its body straight to its place; null when it holds none, or a longer one than `mostBytes`.
 */
export async function hear<Head>(
  stream: Readable,
  mostBytes: number,
): Promise<{ head: Head; body: Uint8Array<ArrayBuffer> } | null> {
  const lengths = new Uint8Array(LENGTHS_BYTES);
  let json = new Uint8Array(0);
  let body = new Uint8Array(0);
  let at = 0;
  let sound = true;
  stream.on('data', (part: Buffer) => {
    let rest: Uint8Array = part;
    while (sound && rest.length > 0) {
      const [into, from] =
        at < LENGTHS_BYTES
          ? [lengths, 0]
          : at < LENGTHS_BYTES + json.length
            ? [json, LENGTHS_BYTES]
            : [body, LENGTHS_BYTES + json.length];
      const taken = rest.subarray(0, into.length - (at - from));
      sound = taken.length > 0;
      into.set(taken, at - from);
      at += taken.length;
      rest = rest.subarray(taken.length);
      if (at !== LENGTHS_BYTES || into !== lengths) continue;
      const view = new DataView(lengths.buffer);
      const [headBytes, bodyBytes] = [view.getFloat64(0, true), view.getFloat64(8, true)];
      sound = isLength(headBytes, MOST_HEAD_BYTES) && isLength(bodyBytes, mostBytes);
      if (!sound) break;
      json = new Uint8Array(headBytes);
      body = new Uint8Array(bodyBytes);
    }
    if (!sound) stream.destroy();
  });
  await once(stream, 'close');
  if (!sound || json.length === 0 || at !== LENGTHS_BYTES + json.length + body.length) return null;
  return { head: JSON.parse(new TextDecoder().decode(json)) as Head, body };
}

function isLength(value: number, most: number): boolean {
  return Number.isInteger(value) && value >= 0 && value <= most;
}
