import type { Reporter, TestModule } from 'vitest/node';

/** Ends the output with the plain line that the build server reads, counted from the runner's own results. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const counted = { passed: 0, failed: unhandled.length, skipped: 0, pending: 0 };
    for (const module of modules) {
      if (module.errors().length > 0) counted.failed += module.errors().length;
      for (const test of module.children.allTests()) counted[test.result().state]++;
    }
    const skipped = counted.skipped + counted.pending;
    process.stdout.write(`\n${counted.passed} passed, ${counted.failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`);
  }
}
