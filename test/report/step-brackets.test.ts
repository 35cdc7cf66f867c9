import { stepBrackets } from '@shaftwork/report/figures/step-brackets';
import { expect, test } from 'vitest';

const steps = (...labels: (string | undefined)[]) =>
  labels.map((label, index) => ({ from: index * 10, to: index * 10 + 10, hold: 'throttle', ...(label === undefined ? {} : { label }) }));

test('a pattern that recurs is told once, with its number', () => {
  expect(stepBrackets(steps('out', 'line', 'sprint', 'line', 'sprint', 'line', 'sprint', 'home'))).toEqual([
    { from: 0, to: 10, text: 'out' },
    { from: 10, to: 70, text: '3 × line, then sprint' },
    { from: 70, to: 80, text: 'home' },
  ]);
});

test('steps without names are one bracket without a name', () => {
  expect(stepBrackets(steps(undefined, undefined, 'home'))).toEqual([
    { from: 0, to: 20, text: '' },
    { from: 20, to: 30, text: 'home' },
  ]);
});

test('the same name again and again', () => {
  expect(stepBrackets(steps('lap', 'lap', 'lap'))).toEqual([{ from: 0, to: 30, text: '3 × lap' }]);
});
