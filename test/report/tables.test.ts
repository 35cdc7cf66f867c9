import { looksOf } from '@shaftwork/report/drawing/palette';
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

test('the best is bold, ties with it, one that passes a limit never, whatever it is best in', () => {
  const result = sampleResult();
  const winding = row(table(result), 'peak of the winding');
  expect(bolds(winding)).toEqual([false, true, false]);
  expect(winding.split('<td')[3]).toContain('†');
  const masses = (...kilograms: readonly number[]) => ({
    ...result,
    candidates: result.candidates.map((one, index) => ({ ...one, facts: { ...one.facts, mass: kilograms[index]! } })),
  });
  expect(bolds(row(table(masses(0.2, 0.25, 0.1)), 'mass'))).toEqual([true, false, false]);
  expect(bolds(row(table(masses(0.2, 0.2, 0.3)), 'mass'))).toEqual([true, true, false]);
});

test('what all print alike is said once, beneath the table', () => {
  const result = sampleResult();
  const equal = { ...result, candidates: result.candidates.map((one) => ({ ...one, facts: { ...one.facts, mass: 0.2 } })) };
  expect(row(table(equal), 'mass')).toBe('');
  expect(table(equal)).toMatch(/The same for all: .*mass 200\u202fg/);
});

test('the rows that decide stand first: limits met, time past one', () => {
  const markup = table(sampleResult());
  expect(row(markup, 'meets every limit')).toMatch(/yes.*yes.*no, 1 passed<sup>†/);
  const result = sampleResult();
  const timed = {
    ...result,
    candidates: result.candidates.map((one) => ({
      ...one,
      limits: one.limits.map((limit) => (limit.passed === undefined ? limit : { ...limit, passed: { ...limit.passed, lasting: 205 } })),
    })),
  };
  expect(row(table(timed), 'time past a limit')).toMatch(/0:00.*0:00.*3:25/);
  expect(markup.indexOf('meets every limit')).toBeLessThan(markup.indexOf('diameter'));
});

test('a limit that is far from all is left to the margins, one that is near is not', () => {
  expect(table(sampleResult())).not.toContain('peak of the cells');
  const result = sampleResult();
  const near = {
    ...result,
    candidates: result.candidates.map((one) => ({
      ...one,
      limits: one.limits.map((limit) => (limit.id === 'cellTemperature' ? { ...limit, marginShare: 0.1 } : limit)),
    })),
  };
  expect(table(near)).toContain('peak of the cells');
});

test('of four and more the best stand first', () => {
  const result = sampleResult({ names: ['A', 'B', 'C', 'D'] });
  const heads = Array.from(table(result).matchAll(/<br>(\w)<\/th>/g), ([, name]) => name);
  expect(heads).toEqual([...result.ranking]);
});

test('a coolest candidate that is past its limit leaves the bold to the next', () => {
  const result = sampleResult();
  const [wide, long, small] = result.candidates;
  const passed = {
    ...long!,
    limits: long!.limits.map((limit) => (limit.id === 'windingTemperature' ? { ...limit, passed: { at: 10 } } : limit)),
  };
  expect(bolds(row(table({ ...result, candidates: [wide!, passed, small!] }), 'peak of the winding'))).toEqual([true, false, false]);
});

test('one that did not drive the whole run is not the coolest', () => {
  const markup = table(sampleResult({ ends: ['finished', 'cut-off'] }));
  // and the only one left that meets every limit is held against nobody
  expect(bolds(row(markup, 'peak of the winding'))).toEqual([false, false, false]);
  expect(row(markup, 'the run stopped')).toContain('at the cut-off');
});

test('what ends it before the cut-off when driven again and again is told with its time', () => {
  const result = sampleResult();
  const lasting = (seconds: readonly number[], burnt: boolean): string =>
    table({
      ...result,
      candidates: result.candidates.map((each, k) => ({
        ...each,
        headline: { ...each.headline, timeToCutoff: { dimension: 'time', nominal: seconds[k] ?? 1800 } },
        ...(burnt && k === 0 ? { endsRepeated: 'burnt' as const } : {}),
      })),
    });
  const burnt = lasting([840], true);
  expect(row(burnt, 'again and again, before the cut-off')).toContain('burnt out at 14:00');
  expect(burnt).not.toContain('>14:00');
  expect(row(lasting([840], false), 'until the cut-off')).toContain('>14:00');
  expect(lasting([840], false)).not.toContain('again and again, before');
});

test('a common limit stands in the head, limits of their own in a row beneath', () => {
  const markup = table(sampleResult());
  expect(row(markup, 'peak of the winding')).toContain('peak of the winding, °C; limit 130<');
  expect(row(markup, 'its limit')).toContain('40<span class="f">');
});

test('rows that say nothing are left out', () => {
  expect(table(sampleResult({ vehicle: false }))).not.toContain('top speed');
  expect(table(sampleResult())).not.toContain('gear ratio');
});

test('the range stands beside the number where tolerances were drawn', () => {
  expect(row(table(sampleResult()), 'peak of the winding')).not.toContain('class="rg"');
  expect(row(table(sampleResult({ doubt: true })), 'peak of the winding')).toMatch(/<span class="rg">\d+–\d+<\/span>/);
});

test('a residual is never rounded to nothing', () => {
  expect(residualText(0.0123)).toBe('1');
  expect(residualText(-2e-5)).toBe('\u22120.002');
  expect(residualText(3e-12)).toBe('< 0.0001');
  expect(residualText(Number.NaN)).toBe('–');
});
