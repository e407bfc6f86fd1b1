/** Below this a copy per worker costs less than the bookkeeping. */
const WORTH_SHARING_BYTES = 4096;

type Numbers =
  | Float32Array
  | Float64Array
  | Uint8Array
  | Uint16Array
  | Uint32Array
  | Int16Array
  | Int32Array
  | Int8Array;

/**
 * A copy of plain data in which every large typed array lies in shared memory, so that posting it to several workers
 * copies no raster. Arrays that stand in several places stay one. What it holds must only be read from then on.
 */
export function share<T>(value: T): T {
  return copy(value, new Map()) as T;
}

function copy(value: unknown, done: Map<object, unknown>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const known = done.get(value);
  if (known !== undefined) return known;
  if (ArrayBuffer.isView(value)) {
    const shared = value.byteLength < WORTH_SHARING_BYTES ? value : sharedArray(value as Numbers);
    done.set(value, shared);
    return shared;
  }
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    done.set(value, list);
    for (const item of value) list.push(copy(item, done));
    return list;
  }
  if (value instanceof Map) {
    const map = new Map<unknown, unknown>();
    done.set(value, map);
    for (const [key, item] of value) map.set(copy(key, done), copy(item, done));
    return map;
  }
  if (value instanceof Set) return value;
  const table: Record<string, unknown> = {};
  done.set(value, table);
  for (const [key, item] of Object.entries(value)) table[key] = copy(item, done);
  return table;
}

function sharedArray(array: Numbers): Numbers {
  const buffer = new SharedArrayBuffer(array.byteLength);
  const Kind = array.constructor as new (buffer: SharedArrayBuffer) => Numbers;
  const shared = new Kind(buffer);
  shared.set(array);
  return shared;
}
