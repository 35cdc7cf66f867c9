/** The README and the reference say what is so: their commands run, and what they print is what the README shows. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { scenarioReference } from '@shaftwork/cli/scenario-reference';
import { expect, it } from 'vitest';
import { call, ownFolder } from './call.js';

const { folder } = ownFolder();
const root = new URL('../../', import.meta.url);
const readme = readFileSync(new URL('README.md', root), 'utf8');
const blocks = (language: string): string[] =>
  [...readme.matchAll(new RegExp(`^\`\`\`${language}\n(.*?)^\`\`\``, 'gms'))].map(([, text]) => text);
const commands = blocks('sh')
  .flatMap((text) => text.split('\n'))
  .flatMap((line) => /^npx shaftwork (.*?)( {2,}#.*)?$/.exec(line)?.[1] ?? []);
const words = (line: string): string[] => [...line.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain);

it('every command of the README runs', async () => {
  expect(commands.length).toBeGreaterThan(5);
  for (const command of commands) {
    const argv = words(command).map((word) => (/^(my-|report)/.test(word) ? join(folder, word) : word));
    const { code, err } = await call(...argv);
    expect([command, code, code === 0 ? '' : err]).toEqual([command, 0, '']);
  }
});

it('the summary in the README is what the command prints, to a few per cent of its figures', async () => {
  const { out } = await call('run', join(folder, 'my-boat', 'boat.yaml'));
  const figure = /[\d.]+/g;
  const plain = (line: string): string => line.replaceAll('\u202f', ' ').replace(/\s+/g, ' ').trim();
  const printed = out.split('\n').map(plain);
  const shown = blocks('text')[0].split('\n').map(plain).filter(Boolean);
  expect(shown.length).toBeGreaterThan(4);
  for (const line of shown) {
    const same = printed.find((each) => each.replace(figure, '#') === line.replace(figure, '#'));
    expect(same, line).toBeDefined();
    const [a, b] = [line, same!].map((each) => (each.match(figure) ?? []).map(Number));
    for (const [k, value] of a.entries()) expect(Math.abs(value - b[k]), line).toBeLessThanOrEqual(2 + 0.05 * value);
  }
});

it('the scenario of the README runs', async () => {
  const path = join(folder, 'readme.yaml');
  writeFileSync(path, blocks('yaml')[0]);
  expect((await call('run', path, '--samples', '0')).code).toBe(0);
});

it('the scenario reference is in step: run “npm run reference” where it is not', () => {
  expect(readFileSync(new URL('packages/cli/docs/scenario-reference.md', root), 'utf8')).toBe(scenarioReference());
});
