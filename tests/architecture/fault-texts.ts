import ts from 'typescript';

/** A text that a UserError may carry, with `{}` for what only a run knows. */
export interface FaultText {
  readonly part: 'what' | 'where' | 'got' | 'expected';
  readonly text: string;
  readonly at: string;
}

const HOLE = '{}';
/** Of one text, so many wordings at most; the parts of longer lists are looked through all the same. */
const MOST_WORDINGS = 60;
const MOST_STEPS = 12;

/**
 * Every wording of the parts of a UserError in these sources: literals, templates, and what constants, conditions, arguments at the places
 * that call and the returns of functions put into them. `unknown` names the parts of which nothing is known before a run.
 */
export function faultTexts(program: ts.Program, paths: readonly string[]) {
  const checker = program.getTypeChecker();
  const sources = paths.map((path) => program.getSourceFile(path)!);
  const calls = callsIn(sources);
  const texts: FaultText[] = [];
  const unknown: string[] = [];
  for (const source of sources) {
    const visit = (node: ts.Node): void => {
      if (ts.isObjectLiteralExpression(node) && isFault(node)) {
        for (const part of ['what', 'where', 'got', 'expected'] as const) {
          const value = propertyOf(node, part);
          if (value === null) continue;
          const at = `${source.fileName}:${source.getLineAndCharacterOfPosition(value.getStart()).line + 1}`;
          const found = wordings(value, 0);
          for (const text of found) if (text !== HOLE) texts.push({ part, text, at });
          if (found.every((text) => text === HOLE)) unknown.push(`${part} at ${at}: ${value.getText()}`);
        }
      }
      ts.forEachChild(node, visit);
    };
    visit(source);
  }
  return { texts, unknown, wordings: (node: ts.Expression) => wordings(node, 0), sources };

  function symbolAt(node: ts.Node): ts.Symbol | undefined {
    const symbol =
      ts.isShorthandPropertyAssignment(node.parent) && node.parent.name === node
        ? checker.getShorthandAssignmentValueSymbol(node.parent)
        : checker.getSymbolAtLocation(node);
    if (symbol === undefined) return undefined;
    return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  }

  /** What is called, by name first: the checker is asked only of those that matter. */
  function argumentsOf(name: string, symbol: ts.Symbol): readonly ts.Expression[][] {
    const found: ts.Expression[][] = [];
    for (const { callee, args } of calls.get(name) ?? [])
      if (symbolAt(callee) === symbol) found.push([...args]);
    return found;
  }

  function wordings(node: ts.Expression, depth: number): string[] {
    if (depth > MOST_STEPS) return [HOLE];
    const next = (inner: ts.Expression) => wordings(inner, depth + 1);
    if (ts.isStringLiteralLike(node)) return [node.text];
    if (ts.isTemplateExpression(node)) {
      const pieces = node.templateSpans.map((span) => ({
        values: next(span.expression),
        after: span.literal.text,
      }));
      return product(node.head.text, pieces);
    }
    if (ts.isConditionalExpression(node)) return union([...next(node.whenTrue), ...next(node.whenFalse)]);
    if (ts.isBinaryExpression(node)) {
      const [left, right] = [next(node.left), next(node.right)];
      if (node.operatorToken.kind === ts.SyntaxKind.PlusToken)
        return product('', [
          { values: left, after: '' },
          { values: right, after: '' },
        ]);
      if ([ts.SyntaxKind.QuestionQuestionToken, ts.SyntaxKind.BarBarToken].includes(node.operatorToken.kind))
        return union([...left, ...right]);
      return [HOLE];
    }
    if (
      ts.isParenthesizedExpression(node) ||
      ts.isAsExpression(node) ||
      ts.isNonNullExpression(node) ||
      ts.isSatisfiesExpression(node)
    )
      return next(node.expression);
    if (ts.isIdentifier(node)) return ofSymbol(symbolAt(node), depth);
    if (ts.isElementAccessExpression(node)) return ofTable(node.expression, depth);
    if (ts.isCallExpression(node)) return ofCall(node, depth);
    return [HOLE];
  }

  function ofSymbol(symbol: ts.Symbol | undefined, depth: number): string[] {
    const declaration = symbol?.valueDeclaration;
    if (symbol === undefined || declaration === undefined) return [HOLE];
    if (ts.isVariableDeclaration(declaration) && declaration.initializer !== undefined) {
      const own = wordings(declaration.initializer, depth + 1);
      return declaration.parent.flags & ts.NodeFlags.Const ? own : union([...own, HOLE]);
    }
    if (ts.isParameter(declaration)) return ofParameter(declaration, (args, index) => args[index], depth);
    if (ts.isBindingElement(declaration)) {
      const key = (declaration.propertyName ?? declaration.name).getText();
      const holder = declaration.parent.parent;
      if (ts.isParameter(holder))
        return ofParameter(
          holder,
          (args, index) => {
            const given = args[index];
            return given !== undefined && ts.isObjectLiteralExpression(given)
              ? (propertyOf(given, key) ?? undefined)
              : undefined;
          },
          depth,
        );
    }
    return [HOLE];
  }

  function ofParameter(
    parameter: ts.ParameterDeclaration,
    pick: (args: readonly ts.Expression[], index: number) => ts.Expression | undefined,
    depth: number,
  ): string[] {
    const made = parameter.parent;
    const index = made.parameters.indexOf(parameter);
    const name = nameOf(made);
    if (name === null) return [HOLE];
    const symbol = symbolAt(name);
    if (symbol === undefined) return [HOLE];
    const found = argumentsOf(name.getText(), symbol).flatMap((args) => {
      const given = pick(args, index);
      return given === undefined ? [] : wordings(given, depth + 1);
    });
    return found.length === 0 ? [HOLE] : union(found);
  }

  /** The values of a constant table. */
  function ofTable(table: ts.Expression, depth: number): string[] {
    const declaration = ts.isIdentifier(table) ? symbolAt(table)?.valueDeclaration : undefined;
    if (declaration === undefined || !ts.isVariableDeclaration(declaration)) return [HOLE];
    const { initializer } = declaration;
    if (initializer === undefined || !ts.isObjectLiteralExpression(initializer)) return [HOLE];
    return union(
      initializer.properties.flatMap((p) =>
        ts.isPropertyAssignment(p) ? wordings(p.initializer, depth + 1) : [],
      ),
    );
  }

  function ofCall(node: ts.CallExpression, depth: number): string[] {
    const callee = ts.isPropertyAccessExpression(node.expression) ? node.expression.name : node.expression;
    // what is only cut or cleaned keeps its words
    if (ts.isPropertyAccessExpression(node.expression) && ['slice', 'trim'].includes(callee.getText()))
      return wordings(node.expression.expression, depth + 1);
    if (callee.getText() === 'plainText') return wordings(node.arguments[0]!, depth + 1);
    const declaration = ts.isIdentifier(callee) ? symbolAt(callee)?.valueDeclaration : undefined;
    if (declaration === undefined || !sources.includes(declaration.getSourceFile())) return [HOLE];
    const made =
      ts.isVariableDeclaration(declaration) && declaration.initializer !== undefined
        ? declaration.initializer
        : declaration;
    return ts.isFunctionLike(made)
      ? union(returnsOf(made).flatMap((value) => wordings(value, depth + 1)))
      : [HOLE];
  }
}

function isFault(node: ts.ObjectLiteralExpression): boolean {
  return propertyOf(node, 'what') !== null;
}

function propertyOf(node: ts.ObjectLiteralExpression, name: string): ts.Expression | null {
  for (const p of node.properties) {
    if (ts.isPropertyAssignment(p) && p.name.getText() === name) return p.initializer;
    if (ts.isShorthandPropertyAssignment(p) && p.name.text === name) return p.name;
    // ...(wanted && { expected: '…' }) and ...(x === undefined ? {} : { expected: '…' })
    if (ts.isSpreadAssignment(p)) {
      let found: ts.Expression | null = null;
      const look = (inner: ts.Node): void => {
        if (ts.isObjectLiteralExpression(inner)) found ??= propertyOf(inner, name);
        else ts.forEachChild(inner, look);
      };
      look(p.expression);
      if (found !== null) return found;
    }
  }
  return null;
}

interface Call {
  readonly callee: ts.Node;
  readonly args: readonly ts.Expression[];
}

function callsIn(sources: readonly ts.SourceFile[]): Map<string, Call[]> {
  const calls = new Map<string, Call[]>();
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
      const callee = ts.isPropertyAccessExpression(node.expression) ? node.expression.name : node.expression;
      const name = callee.getText();
      calls.set(name, [...(calls.get(name) ?? []), { callee, args: node.arguments ?? [] }]);
    }
    ts.forEachChild(node, visit);
  };
  for (const source of sources) visit(source);
  return calls;
}

function nameOf(made: ts.SignatureDeclaration): ts.Node | null {
  if (ts.isConstructorDeclaration(made)) return made.parent.name ?? null;
  if (made.name !== undefined) return made.name;
  const { parent } = made;
  return ts.isVariableDeclaration(parent) || ts.isPropertyDeclaration(parent) ? parent.name : null;
}

function returnsOf(made: ts.SignatureDeclaration): ts.Expression[] {
  if (ts.isArrowFunction(made) && !ts.isBlock(made.body)) return [made.body];
  const found: ts.Expression[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isReturnStatement(node) && node.expression !== undefined) found.push(node.expression);
    else if (!ts.isFunctionLike(node)) ts.forEachChild(node, visit);
  };
  ts.forEachChild(made, visit);
  return found;
}

function product(head: string, pieces: readonly { values: readonly string[]; after: string }[]): string[] {
  let texts = [head];
  for (const { values, after } of pieces)
    texts = texts.flatMap((text) => values.map((value) => `${text}${value}${after}`)).slice(0, MOST_WORDINGS);
  return union(texts);
}

function union(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}
