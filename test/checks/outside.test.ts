/** Every row of outside/ holds, and docs/validation.md and the README say what these rows say. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PAGE } from '../measured/kinds.js';
import { propellerErrorTable } from './air-propeller-errors.js';
import { differenceOf, holds, nearness, worstOf } from './outside/check.js';
import { checksText, countedText, TITLE, type Worked } from './outside/page.js';
import { TOPICS } from './outside/topics.js';

/** Plain integrators take small steps [ms]. */
const LONGEST = 180_000;
const done = TOPICS.map(({ title }) => ({ title, checks: [] as Worked[] }));

describe.each(TOPICS.map((topic, k) => [topic.title, topic, k] as const))('%s', (_, { checks }, k) => {
  it.each(checks.map((check) => [`${check.what}: ${check.source}`, check] as const))(
    '%s',
    (_words, check) => {
      const points = check.points();
      done[k].checks.push({ check, points });
      expect(points.length).toBeGreaterThanOrEqual(check.least ?? 1);
      const outside = points.filter((point) => !holds(point, check.allowed));
      expect(outside.map((point) => ({ ...point, difference: differenceOf(point, check.allowed), allowed: check.allowed }))).toEqual([]);
    },
    LONGEST,
  );
});

it('no two checks say the same of one thing', () => {
  const said = TOPICS.flatMap(({ checks }) => checks.map(({ what, source }) => `${what}: ${source}`));
  expect(said.filter((each, k) => said.indexOf(each) !== k)).toEqual([]);
});

it('what is not a number, on the bound or beyond does not hold', () => {
  const allowed = { of: 'share', low: -0.1, high: 0.1 } as const;
  const off = (ours: number) => holds({ at: '', theirs: 1, ours }, allowed);
  expect([0.95, 1.05].map(off)).toEqual([true, true]);
  expect([0.89, 1.11, Number.NaN, Number.POSITIVE_INFINITY].map(off)).toEqual([false, false, false, false]);
  const points = [1.02, 0.93, 1.05].map((ours) => ({ at: '', theirs: 1, ours }));
  expect(worstOf(points, allowed).ours).toBe(0.93);
  expect(nearness({ at: '', theirs: 1, ours: 1.1 }, allowed)).toBeCloseTo(1, 12);
  expect(() => worstOf([], allowed)).toThrow(RangeError);
});

it('the page says what the rows say (npm run validation)', () => {
  const page = readFileSync(PAGE, 'utf8');
  const section = page.split(/^## /m).find((each) => each.startsWith(TITLE)) ?? '';
  const text = checksText(TOPICS, done, propellerErrorTable());
  expect(text).not.toMatch(/NaN|Infinity|undefined/);
  expect(section.trim().split('\n')).toEqual(`${TITLE}\n\n${text}`.trim().split('\n'));
});

it('the README counts what is checked (npm run validation)', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8').replaceAll(/\s+/g, ' ');
  expect(readme).toContain(countedText(TOPICS));
});
