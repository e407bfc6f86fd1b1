import { UserError } from '../../src/door/user-error.ts';
import { type Dropped, MOST_MEGABYTES, readApart, worldBounds } from './drops.ts';
import type { Picture } from './map-view.ts';
import type { GroundFiles, NamedBytes, ToOpener } from './messages.ts';
import { ownOf } from './own-features.ts';
import { filled } from './words.ts';
import type { Work } from './work.ts';

/** What dropped files become: a part of the work, a picture beneath, or a line that the engine has to read as a route. */
export type Taken =
  | { readonly work: Partial<Work>; readonly added: number | null }
  | { readonly picture: Picture }
  | { readonly line: string; readonly called: string };

export interface TakingOn {
  readonly script: string;
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

/** Reads what was dropped, all of it, in a worker of its own. Throws when anything is wrong with it. */
export async function taking(dropped: Dropped, name: string, on: TakingOn): Promise<Taken> {
  const { work, script } = on;
  const stem = name.replace(/\.[^.]*$/, '');
  switch (dropped.is) {
    case 'work':
    case 'task':
    case 'elevation': {
      const wish: ToOpener =
        dropped.is === 'elevation'
          ? { do: 'prepare', name: stem, elevation: dropped.elevation, features: dropped.features }
          : {
              do: 'check',
              folder: dropped.is === 'work' ? dropped.folder : on.joined,
              task: { ...dropped.task, terrain: '.' },
            };
      const opened = await readApart(script, wish);
      if ('problem' in opened) throw new Error(opened.problem);
      if (!('folder' in opened)) throw new Error('another answer than was asked for');
      const ground = { folder: opened.folder, own: [], suggestions: [] };
      return { work: { task: opened.task, ...(dropped.is === 'task' ? {} : ground) }, added: null };
    }
    case 'features': {
      const opened = await readApart(script, { do: 'features', folder: work.folder, files: dropped.files });
      if ('problem' in opened) throw new Error(opened.problem);
      if (!('features' in opened)) throw new Error('another answer than was asked for');
      const own = ownOf(opened.features, on.takenIds);
      return { work: { own: [...work.own, ...own] }, added: own.length };
    }
    case 'suggestions':
      return { work: { suggestions: [...work.suggestions, ...dropped.suggestions] }, added: null };
    case 'line':
      return { line: new TextDecoder().decode(dropped.file.bytes), called: stem };
    case 'picture': {
      const blob = new Blob([dropped.image.bytes as Uint8Array<ArrayBuffer>], { type: 'image/png' });
      const { width, height } = await createImageBitmap(blob);
      const bounds = worldBounds(new TextDecoder().decode(dropped.world.bytes), width, height);
      return { picture: { url: URL.createObjectURL(blob), bounds } };
    }
  }
}
