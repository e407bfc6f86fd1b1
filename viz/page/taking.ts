import { UserError } from '../../src/door/user-error.ts';
import { problemSaid } from './german-faults.ts';
import type { GroundFiles, NamedBytes, Opened, PlacedPicture, ToOpener } from './messages.ts';
import { ownOf } from './own-features.ts';
import { startWorker } from './programs.ts';
import { filled } from './words.ts';
import type { Work } from './work.ts';

/** MB of a file that a page takes. */
const MOST_MEGABYTES = 80;

/** What dropped files become: a part of the work, a picture beneath, or a line that the engine has to read as a route. */
export type Taken =
  | { readonly work: Partial<Work>; readonly added: number | null }
  | { readonly placed: PlacedPicture }
  | { readonly line: string; readonly called: string };

export interface TakingOn {
  /** Said of files that are nothing of use. */
  readonly unknown: string;
  readonly work: Work;
  /** The folder with what was drawn. */
  readonly joined: GroundFiles;
  readonly takenIds: Set<string>;
}

/** The bytes of files, none of them too large for a page. `tooLarge` words the refusal. Throws UserError. */
export async function readAll(list: readonly File[], tooLarge: string): Promise<NamedBytes[]> {
  const files: NamedBytes[] = [];
  for (const file of list) {
    const size = Math.ceil(file.size / 1e6);
    if (size > MOST_MEGABYTES) {
      throw new UserError({ what: filled(tooLarge, { name: file.name, size, most: MOST_MEGABYTES }) });
    }
    files.push({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
  }
  return files;
}

/** Has files read, all of them, in a worker of its own. Throws when anything is wrong with one. */
export async function taking(files: readonly NamedBytes[], name: string, on: TakingOn): Promise<Taken> {
  const { work, joined } = on;
  const stem = name.replace(/\.[^.]*$/, '');
  const opened = await readApart({ files, stem, folder: work.folder, joined });
  if ('problem' in opened) throw new Error(opened.ours ? opened.problem : problemSaid(opened.problem));
  if ('nothing' in opened) throw new UserError({ what: on.unknown });
  if ('line' in opened) return { line: opened.line, called: stem };
  if ('picture' in opened) return { placed: opened };
  if ('features' in opened) {
    const own = ownOf(opened.features, on.takenIds);
    return { work: { own: [...work.own, ...own] }, added: own.length };
  }
  if ('suggestions' in opened) {
    return { work: { suggestions: [...work.suggestions, ...opened.suggestions] }, added: null };
  }
  const ground = 'folder' in opened ? { folder: opened.folder, own: [], suggestions: [] } : {};
  return { work: { task: opened.task, ...ground }, added: null };
}

/** The worker ends with its answer: what hangs or swells takes nothing with it. */
function readApart(wish: ToOpener): Promise<Opened> {
  return new Promise((resolve) => {
    const worker = startWorker('opener', 'opener');
    const settle = (opened: Opened) => {
      clearTimeout(patience);
      worker.terminate();
      resolve(opened);
    };
    const patience = setTimeout(
      () => settle({ problem: 'reading took more than a minute', ours: false }),
      60_000,
    );
    worker.onmessage = ({ data }: MessageEvent<Opened>) => settle(data);
    worker.onerror = (event) => settle({ problem: event.message, ours: true });
    worker.postMessage(wish);
  });
}
