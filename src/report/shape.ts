import { UserError } from '../door/user-error.ts';

/** Checks one value found at `at` (a path such as `candidates[2].line`) and gives it back typed. */
export type Check<T> = ((value: unknown, at: string) => T) & { readonly optional?: true };

/** One check per field; a field that the type gains and the check lacks does not compile. */
export type Fields<T> = { readonly [K in keyof T]-?: Check<T[K]> };

/** @throws UserError naming the field, what stands there and what should. */
export function refuse(at: string, value: unknown, expected: string): never {
  throw new UserError({
    what: 'report is not as it should be',
    where: at,
    got: said(value),
    expected,
  });
}

function said(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = typeof value === 'string' ? JSON.stringify(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

export const text: Check<string> = (value, at) =>
  typeof value === 'string' ? value : refuse(at, value, 'text');

export const finite: Check<number> = (value, at) =>
  typeof value === 'number' && Number.isFinite(value) ? value : refuse(at, value, 'a finite number');

export const truth: Check<boolean> = (value, at) =>
  typeof value === 'boolean' ? value : refuse(at, value, 'true or false');

export function between(low: number, high: number): Check<number> {
  return (value, at) => {
    const n = finite(value, at);
    return n >= low && n <= high ? n : refuse(at, value, `a number from ${low} to ${high}`);
  };
}

export function whole(low: number, high: number): Check<number> {
  return (value, at) =>
    typeof value === 'number' && Number.isInteger(value) && value >= low && value <= high
      ? value
      : refuse(at, value, `a whole number from ${low} to ${high}`);
}

export function oneOf<const T extends string | number>(allowed: readonly T[]): Check<T> {
  return (value, at) =>
    allowed.includes(value as T) ? (value as T) : refuse(at, value, `one of ${allowed.join(', ')}`);
}

export function orNull<T>(check: Check<T>): Check<T | null> {
  return (value, at) => (value === null ? null : check(value, at));
}

export function optional<T>(check: Check<T>): Check<T> {
  const lenient = (value: unknown, at: string): T => check(value, at);
  return Object.assign(lenient, { optional: true as const });
}

export function either<A, B>(accepts: (value: unknown) => boolean, a: Check<A>, b: Check<B>): Check<A | B> {
  return (value, at) => (accepts(value) ? a(value, at) : b(value, at));
}

/** A list with at most `limit` members. */
export function list<T>(member: Check<T>, limit: number): Check<readonly T[]> {
  return (value, at) => {
    if (!Array.isArray(value)) return refuse(at, value, 'a list');
    if (value.length > limit) return refuse(at, value, `at most ${limit} members`);
    for (let i = 0; i < value.length; i++) member(value[i], `${at}[${i}]`);
    return value as readonly T[];
  };
}

/** An object with these fields. Fields beyond them are left alone: later versions may add some. */
export function object<T>(fields: Fields<T>): Check<T> {
  const names = Object.keys(fields) as (keyof T & string)[];
  return (value, at) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      return refuse(at, value, 'an object');
    }
    for (const name of names) {
      const check = fields[name];
      const member = Object.hasOwn(value, name) ? (value as T)[name] : undefined;
      if (member === undefined && check.optional) continue;
      check(member, at === '' ? name : `${at}.${name}`);
    }
    return value as T;
  };
}

/** Text keys to values that all pass one check; only the keys of `allowed` may stand there. */
export function some<K extends string, V>(
  allowed: readonly K[],
  member: Check<V>,
): Check<Partial<Record<K, V>>> {
  return (value, at) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      return refuse(at, value, 'an object');
    }
    for (const [key, v] of Object.entries(value)) {
      if (!allowed.includes(key as K)) return refuse(`${at}.${key}`, v, `keys among ${allowed.join(', ')}`);
      member(v, `${at}.${key}`);
    }
    return value as Partial<Record<K, V>>;
  };
}
