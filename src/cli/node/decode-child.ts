import { type ChildProcess, spawn } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { UserError } from '../../door/user-error.ts';
import { decodeHeights } from '../../terrain/decode-heights.ts';
import { DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from '../../terrain/decoded.ts';
import { codecs } from './codecs.ts';
import { type DecodeAnswer, hear, say } from './decode-frames.ts';

export interface ChildLimits {
  /** Time for one file. */
  readonly seconds: number;
  /** Memory of the child, where the system tells (Linux). */
  readonly megabytes: number;
}

const CHILD_LIMITS: ChildLimits = { seconds: 120, megabytes: 2500 };
const LOOK_MILLISECONDS = 100;

/** Large rasters in large pages, where the C library knows how (glibc 2.35): 64 MB are ready in 15 ms instead of 51. Others ignore it. */
export const CHILD_ENVIRONMENT = { GLIBC_TUNABLES: 'glibc.malloc.hugetlb=1' } as const;

/**
 * `decodeHeights` in a process of its own: a file that crashes, hangs or swells its decoder takes nothing else along. A child that dies
 * or is ended is a `UserError` about the file. Run from source, where there is no built child, it decodes in this process.
 * @param script the built `decode-worker.js`
 */
export async function decodeInChild(
  bytes: Uint8Array,
  name: string,
  limits: DecodeLimits = DECODE_LIMITS,
  own: ChildLimits = CHILD_LIMITS,
  script: URL = new URL('decode-worker.js', import.meta.url),
): Promise<DecodedGrid> {
  if (bytes.byteLength > limits.bytes)
    throw new UserError({
      what: 'the elevation file is too large',
      got: `${bytes.byteLength} bytes`,
      expected: `at most ${limits.bytes} bytes`,
    });
  if (import.meta.url.endsWith('.ts') && script.href.startsWith(new URL('.', import.meta.url).href))
    return decodeHeights(bytes, name, limits, codecs);
  const child = spawn(process.execPath, ['--max-old-space-size=1024', fileURLToPath(script)], {
    stdio: ['pipe', 'pipe', 'ignore'],
    env: CHILD_ENVIRONMENT,
  });
  const watch = watchOver(child, own);
  try {
    // the child may die before it has heard all; what it says, or that it says nothing, is the answer
    child.stdin.on('error', () => {});
    say(child.stdin, { name, limits }, bytes);
    const answer = await hear<DecodeAnswer>(child.stdout, limits.cells * Float32Array.BYTES_PER_ELEMENT);
    if (answer === null) throw new UserError(watch.reason());
    if ('fault' in answer.head) {
      if (answer.head.user) throw new UserError(answer.head.fault);
      throw new Error(`decoding ${name}: ${answer.head.fault.what}`);
    }
    return { ...answer.head.grid, data: new Float32Array(answer.body.buffer) };
  } finally {
    watch.stop();
    child.kill('SIGKILL');
  }
}

/** Ends a child that takes too long or too much. */
function watchOver(child: ChildProcess, { seconds, megabytes }: ChildLimits) {
  let why = { what: 'the elevation file broke its decoder', got: 'a decoder that ended without an answer' };
  const end = (got: string) => {
    why = { what: 'the elevation file overtaxed its decoder', got };
    child.kill('SIGKILL');
  };
  const late = setTimeout(() => end(`more than ${seconds} s`), seconds * 1000);
  const look = setInterval(async () => {
    const status = await readFile(`/proc/${child.pid}/status`, 'utf8').catch(() => '');
    const kilobytes = Number(/^VmRSS:\s+(\d+)/m.exec(status)?.[1] ?? 0);
    if (kilobytes > megabytes * 1024) end(`more than ${megabytes} MB of memory`);
  }, LOOK_MILLISECONDS);
  return {
    reason: () => why,
    stop: () => {
      clearTimeout(late);
      clearInterval(look);
    },
  };
}
