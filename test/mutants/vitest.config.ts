/** Runs the tests of MUTANTS_TESTS on changed sources, in one process and one world of modules; the runner tries all drawn mutants, or one is active from the start. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { alias } from '../../vitest.config.js';

const { MUTANTS_FOLDER: folder = '', MUTANTS_TESTS: tests = '', __STRYKER_ACTIVE_MUTANT__: active } = process.env;
const changed = new Map(Object.entries(JSON.parse(readFileSync(join(folder, 'sources.json'), 'utf8')) as Record<string, string>));

/** The tests in the order they are told: those of the room itself first. */
class AsTold extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => tests.split(',').findIndex((path) => moduleId.endsWith(path));
    return files.sort((a, b) => place(a) - place(b));
  }
}

export default defineConfig({
  resolve: { alias },
  plugins: [{ name: 'mutants', enforce: 'pre', load: (id: string) => changed.get(id.split('?')[0] ?? '') }],
  test: {
    include: tests.split(','),
    pool: 'forks',
    isolate: false,
    sequence: { sequencer: AsTold },
    maxWorkers: 1,
    testTimeout: 600_000,
    hookTimeout: 600_000,
    ...(active === undefined ? { runner: './test/mutants/runner.ts' } : { bail: 1 }),
  },
});
