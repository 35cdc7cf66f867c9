/** The scenario reference says what schema, rules and choices say. */
import { readFileSync } from 'node:fs';
import { CHOICES } from '@shaftwork/sim-core/provenance/rules/choices';
import { expect, it } from 'vitest';
import { leftOut } from '../docs/left-out.js';
import { REFERENCE, scenarioReference } from '../docs/scenario-reference.js';

const page = readFileSync(REFERENCE, 'utf8');
const rows = page
  .split('\n')
  .filter((line) => line.startsWith('| `'))
  .map((line) => line.split(/(?<!\\)\|/).map((each) => each.trim()));

it('is in step (npm run reference)', () => {
  expect(page.split('\n')).toEqual(scenarioReference().split('\n'));
}, 120_000);

it('has words for every key', () => {
  expect(rows.length).toBeGreaterThan(250);
  expect(rows.filter(([, , meaning]) => meaning === '').map(([, key]) => key)).toEqual([]);
});

it('says of keys what is known to happen without them', () => {
  const names = (path: string) => {
    const found = leftOut(path);
    return [...(found?.numbers ?? []).map(({ origin }) => origin), ...(found?.choices ?? []).map(({ origin }) => origin)];
  };
  expect(names('controller.path_resistance')).toEqual(['path-resistance']);
  expect(names('motor.resistance').sort()).toEqual(['inrunner-resistance', 'outrunner-resistance']);
  expect(names('battery.chemistry')).toEqual(['chemistry']);
  expect(leftOut('battery.capacity')?.asked).toEqual(['printed on the pack in mAh']);
  expect(leftOut('no.such')).toBeUndefined();
});

it('says what is taken or asked for in place of every kind', () => {
  // a default that is no rule and no choice would leave this cell empty
  const kinds = rows.filter((cells) => cells.length === 7 && /^(`[\w-]+` ?){2,}$/.test(cells[3]));
  expect(kinds.length).toBeGreaterThan(20);
  expect(kinds.filter((cells) => cells[5] === '').map(([, key]) => key)).toEqual([]);
});

it('names every choice that stands in for one of its keys', () => {
  const keys = new Set(Object.values(CHOICES).map(({ key }) => key));
  const sections = page.split(/^## /m);
  const missing = [...keys].filter((key) => {
    const [section, ...rest] = key.split('.');
    const text =
      rest.length === 0
        ? sections.find((each) => each.startsWith('The scenario'))
        : sections.find((each) => each.startsWith(`${section}\n`));
    const name = rest.length === 0 ? section : rest.join('.');
    const line = text?.split('\n').find((each) => each.startsWith(`| \`${name}\``));
    return rest.length > 0 && line !== undefined && !/\*\*/.test(line);
  });
  expect(missing).toEqual([]);
});
