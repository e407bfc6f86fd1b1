import { UserError } from '../../door/user-error.ts';
import { decodeHeights } from '../../terrain/decode-heights.ts';
import { DECODE_LIMITS } from '../../terrain/decoded.ts';
import { codecs } from './codecs.ts';
import { type DecodeAnswer, type DecodeQuestion, hear, say } from './decode-frames.ts';

/** The child's side of `decodeInChild`: one question on the standard input, one answer on the standard output. */
const question = await hear<DecodeQuestion>(process.stdin, DECODE_LIMITS.bytes);
if (question === null) process.exit(1);
try {
  const { data, ...grid } = await decodeHeights(
    question.body,
    question.head.name,
    question.head.limits,
    codecs,
  );
  answer({ grid }, new Uint8Array(data.buffer, data.byteOffset, data.byteLength));
} catch (error) {
  const user = error instanceof UserError;
  const { what, got, expected } = user
    ? error
    : { what: error instanceof Error ? error.message : String(error), got: undefined, expected: undefined };
  const fault = {
    what,
    ...(got === undefined ? {} : { got }),
    ...(expected === undefined ? {} : { expected }),
  };
  answer({ user, fault }, new Uint8Array(0));
}

function answer(head: DecodeAnswer, body: Uint8Array): void {
  say(process.stdout, head, body);
}
