import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const source = (path: string) => fileURLToPath(new URL(`./packages/${path}`, import.meta.url));

/** Tests run on the sources, never on dist; the longest alias comes first. */
export const alias = [
  { find: /^@shaftwork\/sim-core\/drive$/, replacement: source('sim-core/src/drive-laws.ts') },
  { find: /^@shaftwork\/sim-core\/(scenario|quantities|problems|words|json)$/, replacement: source('sim-core/src/$1/index.ts') },
  { find: /^@shaftwork\/(sim-core|report|cli)\/(.+?)(?:\.[jt]s)?$/, replacement: source('$1/src/$2.ts') },
  { find: /^@shaftwork\/(sim-core|report)$/, replacement: source('$1/src/index.ts') },
  { find: /^@shaftwork\/cli$/, replacement: source('cli/src/main.ts') },
];

/** Tests that only calculate share one world of modules: half of the time goes into loading them otherwise. */
const kind = (name: string, include: string[], seconds = 20, isolate = false) => ({
  resolve: { alias },
  test: { name, include, isolate, testTimeout: seconds * 1000, hookTimeout: seconds * 1000 },
});

export default defineConfig({
  test: {
    maxWorkers: 2,
    reporters: ['default', './test/count-reporter.ts'],
    projects: [
      kind('unit', ['test/sim-core/**/*.test.ts', 'test/report/**/*.test.ts', 'test/cli/**/*.test.ts']),
      kind('checks', ['test/checks/**/*.test.ts', 'test/measured/**/*.test.ts'], 60),
      kind('properties', ['test/properties/**/*.test.ts'], 60),
      kind('commands', ['test/commands/**/*.test.ts'], 60, false),
      kind('browser', ['test/browser/**/*.test.ts'], 120, true),
      kind('repository', ['test/repository/**/*.test.ts'], 60),
    ],
  },
});
