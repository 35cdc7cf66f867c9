/** Whether the type check of `npm test` would refuse a changed file of sim-core. What is merely left unused is not asked: a fault seldom shows so. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';

/** Says of a file's new text whether it compiles, its neighbours as they are. */
export function typeCheck(project: string): (file: string, text: string) => boolean {
  const { config } = ts.readConfigFile(`${project}/tsconfig.json`, ts.sys.readFile);
  const { options, fileNames } = ts.parseJsonConfigFileContent(config, ts.sys, project);
  let [now, text, version] = ['', '', 0];
  const service = ts.createLanguageService({
    getCompilationSettings: () => ({ ...options, noUnusedLocals: false, noUnusedParameters: false }),
    getScriptFileNames: () => fileNames,
    getScriptVersion: (name) => (name === now ? String(version) : '0'),
    getScriptSnapshot: (name) =>
      ts.sys.fileExists(name) ? ts.ScriptSnapshot.fromString(name === now ? text : readFileSync(name, 'utf8')) : undefined,
    getCurrentDirectory: () => project,
    getDefaultLibFileName: ts.getDefaultLibFilePath,
    fileExists: ts.sys.fileExists,
    readFile: ts.sys.readFile,
    directoryExists: ts.sys.directoryExists,
  });
  return (file, changed) => {
    [now, text, version] = [file, changed, version + 1];
    return service.getSyntacticDiagnostics(file).length + service.getSemanticDiagnostics(file).length === 0;
  };
}
