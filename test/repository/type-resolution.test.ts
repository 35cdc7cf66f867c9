/**
 * The types of what is packed are found by those who install it: every sub-path of both libraries, from the tarball, as `node16`, `nodenext` and
 * `bundler` resolve modules, and nothing in them is missing or no type.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const LIBRARIES = ['sim-core', 'report'] as const;
interface Manifest {
  readonly name: string;
  readonly exports: Readonly<Record<string, unknown>>;
  readonly dependencies: Readonly<Record<string, string>>;
}
const manifestOf = (library: string): Manifest => JSON.parse(readFileSync(join(root, 'packages', library, 'package.json'), 'utf8'));
const subPaths = LIBRARIES.flatMap((library) => {
  const { name, exports } = manifestOf(library);
  return Object.keys(exports).map((path) => name + path.slice(1));
});

let folder = '';
/** An empty project in which both tarballs are unpacked, with what they depend on beside them. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'types-'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  for (const library of LIBRARIES) {
    const { name, dependencies } = manifestOf(library);
    const packed = execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], {
      cwd: join(root, 'packages', library),
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const into = join(folder, 'node_modules', name);
    mkdirSync(into, { recursive: true });
    execFileSync('tar', ['-xzf', join(folder, JSON.parse(packed)[0].filename), '-C', into, '--strip-components=1']);
    for (const needed of Object.keys(dependencies).filter((each) => !each.startsWith('@shaftwork/'))) {
      const link = join(folder, 'node_modules', needed);
      mkdirSync(dirname(link), { recursive: true });
      symlinkSync(join(root, 'packages', library, 'node_modules', needed), link);
    }
  }
  writeFileSync(join(folder, 'user.ts'), subPaths.map((path, k) => `export * as m${k} from '${path}';\n`).join(''));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const MODES = [
  ['node16', ts.ModuleKind.Node16, ts.ModuleResolutionKind.Node16],
  ['nodenext', ts.ModuleKind.NodeNext, ts.ModuleResolutionKind.NodeNext],
  ['bundler', ts.ModuleKind.ESNext, ts.ModuleResolutionKind.Bundler],
] as const;

describe.each(MODES)('types of the tarballs under %s', (mode, module, moduleResolution) => {
  it('are found for every sub-path, and whole', () => {
    const user = join(folder, 'user.ts');
    const options: ts.CompilerOptions = {
      target: ts.ScriptTarget.ES2023,
      lib: ['lib.es2023.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
      module,
      moduleResolution,
      strict: true,
      exactOptionalPropertyTypes: true,
      types: [],
      noEmit: true,
    };
    const program = ts.createProgram([user], options);
    const checker = program.getTypeChecker();
    const ours = program
      .getSourceFiles()
      .filter(({ fileName }) => /^(?!.*node_modules\/.*node_modules)/.test(fileName) && fileName.startsWith(folder));
    expect(ours.length).toBeGreaterThan(50);
    expect(ours.filter(({ fileName }) => fileName.endsWith('.ts') && !fileName.endsWith('.d.ts')).map(({ fileName }) => fileName)).toEqual([
      user,
    ]);
    // what stands within the files is the same whoever finds them: it is gone through once
    const read = mode === 'node16' ? ours : ours.filter(({ fileName }) => fileName === user);
    const told = read.flatMap((file) => [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)]);
    expect(told.map(({ file, messageText }) => `${file?.fileName}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`)).toEqual([]);
    const source = program.getSourceFile(user) ?? expect.fail('the user is not read');
    const modules = checker.getExportsOfModule(checker.getSymbolAtLocation(source) ?? expect.fail('the user exports nothing'));
    expect(modules).toHaveLength(subPaths.length);
    for (const [k, alias] of modules.entries()) {
      const names = checker.getExportsOfModule(checker.getAliasedSymbol(alias));
      expect(names.length, subPaths[k]).toBeGreaterThan(0);
      if (mode === 'node16')
        for (const name of names) {
          const real = name.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(name) : name;
          if (real.flags & ts.SymbolFlags.Value)
            expect(checker.typeToString(checker.getTypeOfSymbol(real)), `${subPaths[k]}: ${name.name}`).not.toBe('any');
        }
    }
  });
});

it('the folder holds only what is packed', () => {
  expect(readdirSync(join(folder, 'node_modules/@shaftwork')).sort()).toEqual([...LIBRARIES].sort());
});
