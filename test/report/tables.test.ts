import { looksOf } from '@shaftwork/report/figures/palette';
import { residualText } from '@shaftwork/report/tables/energy';
import { numberCell } from '@shaftwork/report/tables/number-cell';
import { sideBySide } from '@shaftwork/report/tables/side-by-side';
import type { RunResult } from '@shaftwork/sim-core';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

const table = (result: RunResult): string => sideBySide(result, looksOf(result.candidates)).html;
const row = (markup: string, head: string): string => markup.split('<tr').find((line) => line.includes(`<th scope="row">${head}`)) ?? '';
const bolds = (line: string): boolean[] =>
  line
    .split('<td')
    .slice(1)
    .map((cell) => cell.includes('<b>'));

test('a number hangs at its decimal sign, a clock does not', () => {
  expect(numberCell('4.86', { best: true }).html).toBe('<td><b>4<span class="f">.86</span></b></td>');
  expect(numberCell('204', { past: true }).html).toBe('<td>204<span class="f"><sup>†</sup></span></td>');
  expect(numberCell('5:48').html).toBe('<td class="txt">5:48</td>');
});

test('the best is bold, ties with it, one past a limit never', () => {
  const result = sampleResult();
  const winding = row(table(result), 'peak of the winding');
  expect(bolds(winding)).toEqual([false, true, false]);
  expect(winding.split('<td')[3]).toContain('†');
  const mass = {
    ...result,
    candidates: result.candidates.map((one, index) => ({ ...one, facts: { ...one.facts, mass: index === 2 ? 0.3 : 0.2 } })),
  };
  expect(bolds(row(table(mass), 'mass'))).toEqual([true, true, false]);
  const equal = { ...result, candidates: result.candidates.map((one) => ({ ...one, facts: { ...one.facts, mass: 0.2 } })) };
  expect(bolds(row(table(equal), 'mass'))).toEqual([false, false, false]);
});

test('a coolest candidate that is past its limit leaves the bold to the next', () => {
  const result = sampleResult();
  const [wide, long, small] = result.candidates;
  const passed = {
    ...long!,
    limits: long!.limits.map((limit) => (limit.id === 'windingTemperature' ? { ...limit, passedAt: 10 } : limit)),
  };
  expect(bolds(row(table({ ...result, candidates: [wide!, passed, small!] }), 'peak of the winding'))).toEqual([true, false, false]);
});

test('one that did not drive the whole run is not the coolest', () => {
  const markup = table(sampleResult({ ends: ['finished', 'cut-off'] }));
  expect(bolds(row(markup, 'peak of the winding'))).toEqual([true, false, false]);
  expect(row(markup, 'the run stopped')).toContain('at the cut-off');
});

test('a common limit stands in the head, limits of their own in a row beneath', () => {
  const markup = table(sampleResult());
  expect(row(markup, 'peak of the winding')).toContain('peak of the winding, °C; limit 130<');
  expect(row(markup, 'its limit')).toContain('40<span class="f">.0');
});

test('rows that say nothing are left out', () => {
  expect(table(sampleResult({ vehicle: false }))).not.toContain('top speed');
  expect(table(sampleResult())).not.toContain('gear ratio');
});

test('doubt is printed where it was sampled', () => {
  expect(table(sampleResult())).not.toContain('the same, 5 to 95');
  expect(table(sampleResult({ doubt: true }))).toContain('the same, 5 to 95');
});

test('a residual is never rounded to nothing', () => {
  expect(residualText(0.0123)).toBe('1');
  expect(residualText(-2e-5)).toBe('\u22120.002');
  expect(residualText(3e-12)).toBe('< 0.0001');
  expect(residualText(Number.NaN)).toBe('–');
});
