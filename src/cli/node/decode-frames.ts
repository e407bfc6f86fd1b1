import type { Readable } from 'node:stream';
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

const LENGTH_BYTES = 8;

/** A message: length of its head, the head as JSON, padded to whole 8 bytes so that heights stay aligned, then the body. */
export function frame(head: object, body: Uint8Array): Buffer {
  const json = Buffer.from(JSON.stringify(head));
  const padded = Math.ceil(json.length / LENGTH_BYTES) * LENGTH_BYTES;
  const message = Buffer.alloc(LENGTH_BYTES + padded + body.byteLength, 32);
  message.writeDoubleLE(padded, 0);
  json.copy(message, LENGTH_BYTES);
  message.set(body, LENGTH_BYTES + padded);
  return message;
}

/** Reads a stream to its end as one message; null when it holds none. */
export async function gather<Head>(stream: Readable): Promise<{ head: Head; body: Uint8Array } | null> {
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(part as Buffer);
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  if (all.length < LENGTH_BYTES) return null;
  const length = new DataView(all.buffer).getFloat64(0, true);
  const start = LENGTH_BYTES + length;
  if (!(length >= 0 && start <= all.length)) return null;
  const head = JSON.parse(new TextDecoder().decode(all.subarray(LENGTH_BYTES, start))) as Head;
  return { head, body: all.subarray(start) };
}
