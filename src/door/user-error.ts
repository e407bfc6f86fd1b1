import { printable } from './printable.ts';

/** Characters of one part of a message. */
const MOST_PART = 400;

/** The parts of a message about wrong input. */
export interface Problem {
  readonly what: string;
  readonly where?: string;
  readonly got?: string;
  readonly expected?: string;
}

/** What is wrong with something a user gave us. The one class that ends with exit 2; everything else is a fault of ours. */
export class UserError extends Error {
  override readonly name = 'UserError';
  readonly what: string;
  readonly where: string | undefined;
  readonly got: string | undefined;
  readonly expected: string | undefined;

  constructor(problem: Problem) {
    // what a file says ends up here, and this on a terminal
    const clean = (text: string | undefined) => (text === undefined ? undefined : printable(text, MOST_PART));
    const [where, got, expected] = [clean(problem.where), clean(problem.got), clean(problem.expected)];
    const what = printable(problem.what, MOST_PART);
    const facts = [
      got === undefined ? '' : `got ${got}`,
      expected === undefined ? '' : `expected ${expected}`,
    ];
    const said = facts.filter((f) => f !== '').join(', ');
    super(`${where === undefined ? '' : `${where}: `}${what}${said === '' ? '' : ` (${said})`}`);
    this.what = what;
    this.where = where;
    this.got = got;
    this.expected = expected;
  }

  /** Enough to make the same error again, as in another thread. */
  get parts(): Problem {
    const { what, where, got, expected } = this;
    return {
      what,
      ...(where === undefined ? {} : { where }),
      ...(got === undefined ? {} : { got }),
      ...(expected === undefined ? {} : { expected }),
    };
  }
}
