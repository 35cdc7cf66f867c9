/**
 * What the packages give to programs explains itself: every public name has a docstring, and every number in a public type has its unit in
 * brackets, in its own docstring or in that of the record it stands in.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
/** Sources of the sub-paths of a package. */
function entries(name: string): string[] {
  const { exports } = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8'));
  return (Object.values(exports) as { types: string }[]).map(({ types }) =>
    join(root, 'packages', name, types.replace('./dist/', 'src/').replace('.d.ts', '.ts')),
  );
}
const src = (path: string): string => join(root, 'packages/sim-core/src', path);

/** Names without a docstring, and numbers without a unit, of everything that `files` export and of the types they speak of. */
function unexplained(files: readonly string[]): { readonly names: string[]; readonly numbers: string[]; readonly seen: number } {
  const program = ts.createProgram([...files], {
    target: ts.ScriptTarget.ES2023,
    lib: ['lib.es2023.d.ts', 'lib.dom.d.ts'],
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    strict: true,
    skipLibCheck: true,
    noEmit: true,
    paths: { odex: [src('numerics/odex.d.ts')], 'papaparse/papaparse.min.js': [src('scenario/papaparse.d.ts')] },
  });
  const checker = program.getTypeChecker();
  const found = { names: [] as string[], numbers: [] as string[], seen: 0 };
  const visited = new Set<ts.Symbol>();
  const words = (symbol: ts.Symbol): string => ts.displayPartsToString(symbol.getDocumentationComment(checker)).trim();
  const real = (symbol: ts.Symbol): ts.Symbol => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol);
  const isNumber = (type: ts.Type): boolean =>
    type.isUnion()
      ? type.types.some(isNumber)
      : (type.flags & ts.TypeFlags.NumberLike) !== 0 ||
        (type.isIntersection() && type.types.some(isNumber)) ||
        (type.isTypeParameter() && type.symbol.name === 'N') ||
        /^(readonly )?number\[\]$|^(readonly )?Si<.*>\[\]$|^Float64Array/.test(checker.typeToString(type));
  /** Docstrings of a number and of all records round it. */
  const wordsRound = (node: ts.Node): string => {
    let text = '';
    for (let at: ts.Node | undefined = node; at !== undefined; at = at.parent) {
      if (!ts.isPropertySignature(at) && !ts.isInterfaceDeclaration(at) && !ts.isTypeAliasDeclaration(at)) continue;
      const symbol = checker.getSymbolAtLocation(at.name);
      if (symbol !== undefined) text += ` ${words(symbol)}`;
    }
    return text;
  };
  const visit = (alias: ts.Symbol): void => {
    const symbol = real(alias);
    const declaration = symbol.declarations?.[0];
    const file = declaration?.getSourceFile().fileName ?? '';
    if (visited.has(symbol) || !file.startsWith(join(root, 'packages')) || file.includes('/dist/')) return;
    visited.add(symbol);
    found.seen += 1;
    const name = `${file.slice(join(root, 'packages').length + 1)} ${symbol.name}`;
    if (words(symbol) === '') found.names.push(name);
    const look = (node: ts.Node): void => {
      if (ts.isBlock(node)) return;
      if (ts.isPropertySignature(node) && node.type !== undefined && isNumber(checker.getTypeFromTypeNode(node.type))) {
        if (!/\[[^\]]+\]/.test(`${words(symbol)} ${wordsRound(node)}`)) found.numbers.push(`${name}.${node.name.getText()}`);
      }
      if (ts.isTypeReferenceNode(node)) {
        const type = checker.getSymbolAtLocation(node.typeName);
        // a type that its file keeps to itself is no name
        if (type !== undefined && real(type).declarations?.some((each) => ts.getCombinedModifierFlags(each) & ts.ModifierFlags.Export))
          visit(type);
      }
      ts.forEachChild(node, look);
    };
    for (const each of symbol.declarations ?? []) look(each);
  };
  for (const file of files) {
    const module = checker.getSymbolAtLocation(program.getSourceFile(file) ?? expect.fail(`${file} is not there`));
    for (const symbol of checker.getExportsOfModule(module ?? expect.fail(`${file} exports nothing`))) visit(symbol);
  }
  return found;
}

it.each([
  ['sim-core', 600],
  ['report', 10],
])('every public name and number of %s explains itself', (name, least) => {
  const { names, numbers, seen } = unexplained(entries(name));
  expect(seen).toBeGreaterThan(least);

  expect(names, 'these want a docstring').toEqual([]);
  expect(numbers, 'these want a docstring with the unit in brackets, such as [A], [SI] or [1]').toEqual([]);
});
