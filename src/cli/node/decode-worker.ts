import { UserError } from '../../door/user-error.ts';
import { decodeHeights } from '../../terrain/decode-heights.ts';
import { codecs } from './codecs.ts';
import { type DecodeAnswer, type DecodeQuestion, frame, gather } from './decode-frames.ts';

/** The child's side of `decodeInChild`: one question on the standard input, one answer on the standard output. */
const question = await gather<DecodeQuestion>(process.stdin);
if (question === null) process.exit(1);
try {
  const { data, ...grid } = await decodeHeights(
    question.body,
    question.head.name,
    question.head.limits,
    codecs,
  );
  say({ grid }, new Uint8Array(data.buffer, data.byteOffset, data.byteLength));
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
  say({ user, fault }, new Uint8Array(0));
}

function say(head: DecodeAnswer, body: Uint8Array): void {
  process.stdout.end(frame(head, body));
}
