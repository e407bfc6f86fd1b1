import * as v from 'valibot';

/*
 * The words in which a document's shape is written. Each says in its message what it expects, in plain English, so that
 * `document.ts` can print it as it is.
 */

export type Shape<T = unknown> = v.GenericSchema<unknown, T>;
export type Infer<S extends Shape> = v.InferOutput<S>;

/** A finite number between two limits. `unit` is said in the message: "a number of metres from 0 to 100". */
export function number(limits: { min?: number; max?: number; above?: number; unit?: string } = {}) {
  const said = `a number${limits.unit === undefined ? '' : ` of ${limits.unit}`}${range(limits)}`;
  return v.pipe(
    v.number(said),
    v.finite(said),
    v.minValue(limits.min ?? -Number.MAX_VALUE, said),
    v.maxValue(limits.max ?? Number.MAX_VALUE, said),
    v.check((value) => limits.above === undefined || value > limits.above, said),
  );
}

export function whole(limits: { min: number; max: number }) {
  const said = `a whole number${range(limits)}`;
  return v.pipe(
    v.number(said),
    v.safeInteger(said),
    v.minValue(limits.min, said),
    v.maxValue(limits.max, said),
  );
}

/** A chance or a share, 0..1. */
export function share() {
  return number({ min: 0, max: 1 });
}

export function text(limits: { max?: number } = {}) {
  const max = limits.max ?? 200;
  const said = `text of 1 to ${max} characters`;
  return v.pipe(v.string(said), v.minLength(1, said), v.maxLength(max, said));
}

export function flag() {
  return v.boolean('true or false');
}

export function choice<const T extends readonly string[]>(options: T) {
  return v.picklist(options, listed(options));
}

export function literal<const T extends number | string>(value: T) {
  return v.literal(value, String(value));
}

/** A calendar day that exists, as in 2026-11-25. */
export function isoDate() {
  const said = 'a date that exists, written like 2026-11-25';
  return v.pipe(v.string(said), v.isoDate(said), v.check(isDay, said));
}

export function list<S extends Shape>(item: S, limits: { min?: number; max: number }) {
  const min = limits.min ?? 0;
  const said = `a list of ${min} to ${limits.max} entries`;
  return v.pipe(v.array(item, said), v.minLength(min, said), v.maxLength(limits.max, said));
}

export function pair(unit: string) {
  const said = `two numbers, [${unit}]`;
  const one = number();
  return v.strictTuple([one, one], said);
}

/** A table with these keys and no others. */
export function table<E extends v.ObjectEntries>(entries: E) {
  // An unknown key gets the list of known ones as its message: the door makes its "did you mean" from it.
  return v.strictObject(entries, (issue) =>
    issue.expected === 'never' ? Object.keys(entries).join(', ') : 'a table of keys and values',
  );
}

/** A table whose keys are names that the document chooses. */
export function named<S extends Shape>(value: S) {
  return v.record(v.string('a name'), value, 'a table of names and values');
}

export function either<const O extends v.UnionOptions>(said: string, ...options: O) {
  return v.union(options, said);
}

/** The key may be left out. */
export function maybe<S extends Shape>(shape: S) {
  return v.exactOptional(shape);
}

/** A value that may be `null` to say "none". */
export function orNone<S extends Shape>(shape: S) {
  return v.nullable(shape);
}

/** A table in which exactly one of the keys stands. */
export function exactlyOne<S extends Shape>(shape: S, keys: readonly string[]) {
  return v.pipe(
    shape,
    v.check(
      (value) => keys.filter((key) => key in (value as object)).length === 1,
      `exactly one of ${listed(keys)}`,
    ),
  );
}

/** Says in the JSON Schema what a value is. */
export function about<S extends Shape>(shape: S, description: string) {
  return v.pipe(shape, v.description(description));
}

export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

function range(limits: { min?: number; max?: number; above?: number }): string {
  const { min, max, above } = limits;
  if (above !== undefined) return max === undefined ? ` above ${above}` : ` above ${above}, up to ${max}`;
  if (min !== undefined && max !== undefined) return ` from ${min} to ${max}`;
  if (min !== undefined) return ` of ${min} or more`;
  return max === undefined ? '' : ` of at most ${max}`;
}

function isDay(day: string): boolean {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && date >= 1 && date <= days;
}
