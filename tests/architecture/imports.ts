import ts from 'typescript';

/** One import of a source file, in whatever way it is written. */
export interface Import {
  /** What is imported; null where it is only known when the program runs. */
  readonly specifier: string | null;
  readonly typeOnly: boolean;
  readonly line: number;
}

export function parse(path: string, text: string): ts.SourceFile {
  return ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
}

/** Static, side-effect, re-exporting, dynamic, `require`, and type imports, `import('x')` types among them. */
export function importsOf(source: ts.SourceFile): Import[] {
  const found: Import[] = [];
  const add = (node: ts.Node, specifier: ts.Node | undefined, typeOnly: boolean) => {
    found.push({
      specifier: specifier !== undefined && ts.isStringLiteralLike(specifier) ? specifier.text : null,
      typeOnly,
      line: lineOf(source, node),
    });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node, node.moduleSpecifier, isTypeImport(node.importClause));
    else if (ts.isExportDeclaration(node) && node.moduleSpecifier !== undefined) {
      add(node, node.moduleSpecifier, node.isTypeOnly);
    } else if (ts.isImportEqualsDeclaration(node) && ts.isExternalModuleReference(node.moduleReference)) {
      add(node, node.moduleReference.expression, node.isTypeOnly);
    } else if (ts.isImportTypeNode(node)) {
      add(node, ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, true);
    } else if (ts.isCallExpression(node) && isImporting(node.expression)) add(node, node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

export function lineOf(source: ts.SourceFile, node: ts.Node): number {
  return source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
}

function isImporting(callee: ts.Expression): boolean {
  return (
    callee.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(callee) && callee.text === 'require')
  );
}

/** `import type …`, or every name in the braces marked `type`. A side-effect import is none. */
function isTypeImport(clause: ts.ImportClause | undefined): boolean {
  if (clause === undefined) return false;
  if (clause.isTypeOnly) return true;
  const named = clause.namedBindings;
  if (clause.name !== undefined || named === undefined || !ts.isNamedImports(named)) return false;
  return named.elements.length > 0 && named.elements.every((element) => element.isTypeOnly);
}
