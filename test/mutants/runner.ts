/**
 * Runs each test once unchanged, then again with each mutant that it came by and that lives, and writes down what it saw, a line each:
 * `process <its number>`, `begin <id>`, `hit <id>`, `killed <id>`, `endless <id>`, `loading <id>` (met while modules were loaded), `broken <test>`.
 */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type RunnerTestCase, TestRunner } from 'vitest';

/** What the instrumented sources read and write. */
interface Switch {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number;
  mutantCoverage?: { readonly static: Record<string, number>; readonly perTest: Record<string, Record<string, number>> };
}
const world = globalThis as { __stryker__?: Switch };
world.__stryker__ ??= {};
const mutants = world.__stryker__;
const log = join(process.env['MUTANTS_FOLDER'] ?? '', 'log.txt');
const decided = new Set(
  (existsSync(log) ? readFileSync(log, 'utf8') : '')
    .split('\n')
    .filter((line) => /^(killed|endless) /.test(line))
    .map((line) => line.split(' ')[1] ?? ''),
);
const say = (...words: string[]): void => appendFileSync(log, `${words.join(' ')}\n`);
const processorTime = (): number => process.cpuUsage().user / 1e3;

say('process', String(process.pid));

/** A test that takes longer [ms of the processor] is not repeated for each mutant. */
const LONGEST = 1000 * Number(process.env['MUTANTS_LONGEST'] ?? '0.4');

export default class extends TestRunner {
  async runTask(test: RunnerTestCase): Promise<void> {
    const run = TestRunner.getTestFn(test);
    const began = processorTime();
    mutants.currentTestId = test.id;
    try {
      await run();
    } catch (error) {
      say('broken', test.name);
      throw error;
    } finally {
      mutants.currentTestId = undefined;
    }
    const met = Object.entries(mutants.mutantCoverage?.perTest[test.id] ?? {});
    for (const [id] of met) say('hit', id);
    if (processorTime() - began > LONGEST) return;
    // what a mutant meets is no news, and no loading of modules
    mutants.currentTestId = 'again';
    const killed: [string, string][] = [];
    for (const [id, times] of met) {
      if (decided.has(id)) continue;
      say('begin', id);
      mutants.activeMutant = id;
      mutants.hitCount = 0;
      mutants.hitLimit = 100 * times + 10_000;
      try {
        await run();
      } catch {
        killed.push([mutants.hitCount > mutants.hitLimit ? 'endless' : 'killed', id]);
      }
      mutants.activeMutant = undefined;
      mutants.hitCount = undefined;
    }
    try {
      // a test that no longer passes unchanged tells nothing of what came before
      if (killed.length > 0) await run();
    } finally {
      mutants.currentTestId = undefined;
    }
    for (const [how, id] of killed) {
      decided.add(id);
      say(how, id);
    }
  }

  override onAfterRunFiles(): void {
    for (const id of Object.keys(mutants.mutantCoverage?.static ?? {})) say('loading', id);
    super.onAfterRunFiles();
  }
}
