import type { PlacedPicture } from './messages.ts';
import type { Folder, Work } from './work.ts';

const DATABASE = 'mistwise';
const SHELF = 'work';
const WORK = 'work';
const FOLDER = 'folder';
const PICTURE = 'picture';
const VERSION = 1;

/** Keeps the work in the browser's own store. Where there is none, `works` is false and nothing is kept. */
export class Store {
  private readonly database: IDBDatabase | null;
  /** The ground as last written. */
  private folder: Folder | null = null;

  private constructor(database: IDBDatabase | null) {
    this.database = database;
  }

  get works(): boolean {
    return this.database !== null;
  }

  /** Never fails: a page from disk may have no store at all, or one that does not answer. */
  static open(): Promise<Store> {
    return new Promise((resolve) => {
      const without = () => resolve(new Store(null));
      const patience = setTimeout(without, 800);
      try {
        const request = indexedDB.open(DATABASE, VERSION);
        request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
        request.onsuccess = () => {
          clearTimeout(patience);
          resolve(new Store(request.result));
        };
        request.onerror = without;
        request.onblocked = without;
      } catch {
        without();
      }
    });
  }

  /** The ground is large and seldom changes: it is written only when it is another. */
  keep(work: Work): void {
    const { folder, ...rest } = work;
    try {
      const shelf = this.database?.transaction(SHELF, 'readwrite').objectStore(SHELF);
      shelf?.put({ version: VERSION, ...rest }, WORK);
      if (folder !== this.folder) shelf?.put(folder, FOLDER);
      this.folder = folder;
    } catch {
      // a full or closed store keeps nothing more; the work itself goes on
    }
  }

  /** The picture beneath the map is of no work and no history: it is kept beside them. */
  keepPicture(placed: PlacedPicture | null): void {
    try {
      this.database?.transaction(SHELF, 'readwrite').objectStore(SHELF).put(placed, PICTURE);
    } catch {
      // as above
    }
  }

  keptPicture(): Promise<PlacedPicture | null> {
    return this.read<PlacedPicture>(PICTURE);
  }

  /** What was kept, or null. It may be of an older version and no longer whole: whoever asks checks it. */
  async kept(): Promise<Work | null> {
    const [rest, folder] = await Promise.all([
      this.read<Omit<Work, 'folder'>>(WORK),
      this.read<Folder>(FOLDER),
    ]);
    if (rest === null || folder === null || (rest as { version?: unknown }).version !== VERSION) return null;
    this.folder = folder;
    const { task, own, suggestions } = rest;
    return { folder, task, own, suggestions };
  }

  private read<T>(key: string): Promise<T | null> {
    return new Promise((resolve) => {
      try {
        const request = this.database?.transaction(SHELF).objectStore(SHELF).get(key);
        if (request === undefined) {
          resolve(null);
          return;
        }
        request.onsuccess = () => resolve((request.result as T | undefined) ?? null);
        request.onerror = () => resolve(null);
      } catch {
        resolve(null);
      }
    });
  }
}

/** Small wishes of the reader: language, light, units. */
export function remembered(name: string, fallback: string): string {
  try {
    return localStorage.getItem(`mistwise ${name}`) ?? fallback;
  } catch {
    return fallback;
  }
}

export function remember(name: string, value: string): void {
  try {
    localStorage.setItem(`mistwise ${name}`, value);
  } catch {
    // not kept
  }
}
