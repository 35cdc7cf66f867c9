import { stepBrackets } from '@shaftwork/report/drawing/step-brackets';
import { expect, test } from 'vitest';

const steps = (...labels: (string | undefined)[]) =>
  labels.map((label, index) => ({
    from: index * 10,
    to: index * 10 + 10,
    hold: 'throttle' as const,
    ...(label === undefined ? {} : { label }),
  }));

test('a pattern that recurs is told once, with its number', () => {
  expect(stepBrackets(steps('out', 'line', 'sprint', 'line', 'sprint', 'line', 'sprint', 'home'))).toEqual([
    { from: 0, to: 10, text: 'out', count: 1, period: 1 },
    { from: 10, to: 70, text: '3 × line, then sprint', count: 3, period: 2 },
    { from: 70, to: 80, text: 'home', count: 1, period: 1 },
  ]);
});

test('steps without names are one bracket without a name', () => {
  expect(stepBrackets(steps(undefined, undefined, 'home'))).toEqual([
    { from: 0, to: 20, text: '', count: 2, period: 1 },
    { from: 20, to: 30, text: 'home', count: 1, period: 1 },
  ]);
});

test('the same name again and again', () => {
  expect(stepBrackets(steps('lap', 'lap', 'lap'))).toEqual([{ from: 0, to: 30, text: '3 × lap', count: 3, period: 1 }]);
});

test('laps of seven steps are one bracket, told by their first three', () => {
  const lap = ['launch', 'straight', 'brake', 'corner', 'straight', 'brake', 'hairpin'];
  const told = stepBrackets(steps('roll out', ...Array.from({ length: 34 }, () => lap).flat()));
  expect(told.map(({ text, count, period }) => ({ text, count, period }))).toEqual([
    { text: 'roll out', count: 1, period: 1 },
    { text: '34 × lap (launch, straight, brake …)', count: 34, period: 7 },
  ]);
});
