/** The demo scenarios as files: read without a problem, run to an end, and known to editors. */
import { readdirSync, readFileSync } from 'node:fs';
import { schemaText } from '@shaftwork/cli/commands/schema';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { DEMOS, demo } from '../demo.js';

const folder = new URL('../../scenarios/', import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, folder), 'utf8');

describe.each(DEMOS)('%s', (name) => {
  it('runs with an operating point in every step and a verdict', () => {
    const result = runScenario(demo(name));
    expect(result.candidates.map(({ end }) => end)).not.toContain('failed');
    expect(result.ranking).toHaveLength(result.candidates.length);
    expect(result.verdict.length).toBeGreaterThan(1);
  });

  it('names its schema in the first line', () => {
    expect(text(`${name}.yaml`).split('\n')[0]).toBe('# yaml-language-server: $schema=./scenario.schema.json');
  });
});

describe('what editors read', () => {
  it('is what the command prints: run “npm run schema” where it is not', () => {
    expect(text('scenario.schema.json')).toBe(schemaText(false));
    expect(text('part.schema.json')).toBe(schemaText(true));
  });

  it('is named by every part, and every scenario is among the demos', () => {
    for (const part of readdirSync(new URL('parts/', folder)))
      expect(text(`parts/${part}`).split('\n')[0]).toBe('# yaml-language-server: $schema=../part.schema.json');
    const files = readdirSync(folder).filter((path) => path.endsWith('.yaml'));
    expect(files.sort()).toEqual(DEMOS.map((name) => `${name}.yaml`).sort());
  });
});
