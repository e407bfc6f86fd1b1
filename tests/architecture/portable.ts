import ts from 'typescript';
import { lineOf, parse } from './imports.ts';

/** Exact on every engine (IEEE 754 or by definition), so that a result is the same wherever it is calculated. */
const EXACT = new Set([
  'abs',
  'ceil',
  'clz32',
  'floor',
  'fround',
  'imul',
  'max',
  'min',
  'round',
  'sign',
  'sqrt',
  'trunc',
  'E',
  'LN10',
  'LN2',
  'LOG10E',
  'LOG2E',
  'PI',
  'SQRT1_2',
  'SQRT2',
]);

const CLOCK = 'reads the clock';

/** Depends on the language, zone or clock of the machine. */
const LOCAL = new Set([
  'localeCompare',
  'toLocaleString',
  'toLocaleDateString',
  'toLocaleTimeString',
  'toLocaleUpperCase',
  'toLocaleLowerCase',
]);

/** What could give other bits on another machine in these sources (path → text), one line each. */
export function violationsOfPortability(sources: ReadonlyMap<string, string>): string[] {
  const wrong: string[] = [];
  for (const [path, text] of sources) {
    const source = parse(path, text);
    const visit = (node: ts.Node): void => {
      const what = faultOf(node);
      // Files have ages, which never reach a result.
      if (what === CLOCK && path.startsWith('src/cli/node/')) return;
      if (what !== null) wrong.push(`${path}:${lineOf(source, node)} ${what}`);
      ts.forEachChild(node, visit);
    };
    visit(source);
  }
  return wrong.sort();
}

function faultOf(node: ts.Node): string | null {
  if (ts.isBinaryExpression(node)) {
    const operator = node.operatorToken.kind;
    const power =
      operator === ts.SyntaxKind.AsteriskAsteriskToken ||
      operator === ts.SyntaxKind.AsteriskAsteriskEqualsToken;
    return power ? 'uses **' : null;
  }
  if (ts.isPropertyAccessExpression(node)) {
    const name = node.name.text;
    if (LOCAL.has(name)) return `uses ${name}`;
    if (isNamed(node.expression, 'Date') && name === 'now') return CLOCK;
    return null;
  }
  if (ts.isNewExpression(node) && isNamed(node.expression, 'Date') && (node.arguments?.length ?? 0) === 0) {
    return CLOCK;
  }
  if (!ts.isIdentifier(node) || isOwnName(node)) return null;
  if (node.text === 'Intl') return 'uses Intl';
  return node.text === 'Math' ? faultOfMath(node) : null;
}

function faultOfMath(node: ts.Identifier): string | null {
  const holder = node.parent;
  if (ts.isPropertyAccessExpression(holder)) {
    return EXACT.has(holder.name.text) ? null : `uses Math.${holder.name.text}`;
  }
  return 'passes Math on, where no one sees what is taken from it';
}

/** A property that happens to bear the name, as in `x.Math` or `{ Math: 1 }`. */
function isOwnName(node: ts.Identifier): boolean {
  const holder = node.parent;
  return (ts.isPropertyAccessExpression(holder) || ts.isPropertyAssignment(holder)) && holder.name === node;
}

function isNamed(node: ts.Expression, name: string): boolean {
  return ts.isIdentifier(node) && node.text === name;
}
