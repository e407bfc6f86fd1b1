import type { Work } from './work.ts';

const DATABASE = 'mistwise';
const SHELF = 'work';
const KEY = 'now';
const VERSION = 1;

/** Keeps the work in the browser's own store. Where there is none, `works` is false and nothing is kept. */
export class Store {
  private readonly database: IDBDatabase | null;

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

  keep(work: Work): void {
    try {
      this.database?.transaction(SHELF, 'readwrite').objectStore(SHELF).put({ version: VERSION, work }, KEY);
    } catch {
      // a full or closed store keeps nothing more; the work itself goes on
    }
  }

  kept(): Promise<Work | null> {
    return new Promise((resolve) => {
      try {
        const request = this.database?.transaction(SHELF).objectStore(SHELF).get(KEY);
        if (request === undefined) return resolve(null);
        request.onsuccess = () => {
          const found = request.result as { version: number; work: Work } | undefined;
          resolve(found?.version === VERSION ? found.work : null);
        };
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
