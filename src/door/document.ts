import * as v from 'valibot';
import { suggestion } from './did-you-mean.ts';
import { quoted } from './quoted.ts';
import type { Infer, Shape } from './shapes.ts';
import { UserError } from './user-error.ts';
import { type ParsedText, type Path, parseYaml } from './yaml.ts';

/** A document whose shape has been checked, and the way to complain about its content later. */
export interface CheckedDocument<T> {
  readonly value: T;
  readonly where: string;
  /** The error about the value at a path, with its line and column. */
  problem(path: Path, problem: { what: string; got?: string; expected?: string }): UserError;
  /** Does something with the value at a path; a UserError from within gets its line and column. */
  within<R>(path: Path, action: () => R): R;
}

/** Reads YAML or JSON and checks it. One UserError about the first thing wrong: place, got, expected, "did you mean". */
export function readDocument<S extends Shape>(
  text: string,
  where: string,
  shape: S,
): CheckedDocument<Infer<S>> {
  return checkDocument(parseYaml(text, where), shape);
}

export function checkDocument<S extends Shape>(parsed: ParsedText, shape: S): CheckedDocument<Infer<S>> {
  const result = v.safeParse(shape, parsed.value);
  if (!result.success) throw complaint(worst(result.issues), parsed);
  const problem: CheckedDocument<Infer<S>>['problem'] = (path, { what, got, expected }) =>
    new UserError({
      what: path.length === 0 ? what : `${saidPath(path)}: ${what}`,
      where: parsed.place(path),
      ...(got === undefined ? {} : { got }),
      ...(expected === undefined ? {} : { expected }),
    });
  return {
    value: result.output,
    where: parsed.where,
    problem,
    within: (path, action) => {
      try {
        return action();
      } catch (error) {
        if (error instanceof UserError && error.where === undefined) throw problem(path, facts(error));
        throw error;
      }
    },
  };
}

function facts({ what, got, expected }: UserError): { what: string; got?: string; expected?: string } {
  return { what, ...(got === undefined ? {} : { got }), ...(expected === undefined ? {} : { expected }) };
}

type Issue = v.BaseIssue<unknown>;
type Item = v.IssuePathItem;

/** An issue with its path from the top of the document; those inside an "a or b" know only the rest of theirs. */
interface Placed {
  readonly issue: Issue;
  readonly path: readonly Item[];
}

/** A misspelt key explains a missing one beside it, so it comes first; then the order of the document's shape. */
function worst(issues: readonly Issue[]): Placed {
  return furthest(issues.find(isUnknownKey) ?? issues[0]!);
}

/** Of an "a or b" that neither fits, the complaint of the alternative that got furthest. */
function furthest(issue: Issue): Placed {
  const path = issue.path ?? [];
  const last = path.at(-1);
  if (isUnknownKey(issue) && Array.isArray(last?.input)) {
    // A list where a table should be reads as a table with the key 0.
    const list = { ...issue, type: 'list', input: last.input, message: 'a table of keys and values' };
    return { issue: list, path: path.slice(0, -1) };
  }
  let best: Placed = { issue, path };
  for (const inner of issue.issues ?? []) {
    const found = furthest(inner);
    const deeper = path.length + found.path.length - best.path.length;
    if (deeper > 0 || (deeper === 0 && isUnknownKey(found.issue) && !isUnknownKey(best.issue))) {
      best = { issue: found.issue, path: [...path, ...found.path] };
    }
  }
  return best;
}

function isUnknownKey(issue: Issue): boolean {
  return issue.type === 'strict_object' && issue.expected === 'never';
}

function complaint({ issue, path: items }: Placed, parsed: ParsedText): UserError {
  const path = items.map((item) => item.key as string | number);
  const name = path.length === 0 ? 'the document' : saidPath(path);
  if (isUnknownKey(issue)) {
    const guess = suggestion(String(path.at(-1)), issue.message.split(', '));
    return new UserError({
      what: `${name} is not a key known here${guess}`,
      where: parsed.place(path, true),
      expected: issue.message,
    });
  }
  if (issue.type === 'strict_object' && items.at(-1)?.origin === 'key') {
    return new UserError({ what: `${name} is missing`, where: parsed.place(path.slice(0, -1)) });
  }
  const guess = typeof issue.input === 'string' ? suggestion(issue.input, wordsOf(issue)) : '';
  return new UserError({
    what: `${name} is not as it should be${guess}`,
    where: parsed.place(path),
    got: quoted(issue.input),
    expected: issue.message,
  });
}

/** The words that a choice, or an "a or b" with choices in it, would have taken. */
function wordsOf(issue: Issue): string[] {
  const own = issue.type === 'picklist' || issue.type === 'literal' ? issue.message.split(/, | or /) : [];
  return [...own, ...(issue.issues ?? []).flatMap(wordsOf)];
}

/** `routes[0].legs[2].technique`. */
function saidPath(path: Path): string {
  return path
    .map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`))
    .join('')
    .slice(0, 200);
}
