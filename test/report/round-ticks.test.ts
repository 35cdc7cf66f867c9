import { openScale, roundScale, timeScale } from '@shaftwork/report/drawing/round-ticks';
import { expect, test } from 'vitest';

test('ends are ticks and labels have equal decimals', () => {
  const { domain, ticks, label } = roundScale(0, 0.66, 4);
  expect(domain).toEqual([0, 0.8]);
  expect(ticks.map(label)).toEqual(['0.0', '0.2', '0.4', '0.6', '0.8']);
  expect(roundScale(-3, 12, 3).ticks.map(roundScale(-3, 12, 3).label)).toEqual(['\u22125', '0', '5', '10', '15']);
});

test('a flat line gets a scale too', () => {
  expect(roundScale(100, 100, 3).domain[0]).toBeLessThanOrEqual(100);
  const [low, high] = roundScale(0, 0, 3).domain;
  expect(low).toBe(0);
  expect(high).toBeGreaterThan(0);
});

test('an open scale ends where it is asked to', () => {
  expect(openScale(0, 11_700, 5)).toMatchObject({ domain: [0, 11_700], ticks: [0, 2500, 5000, 7500, 10_000] });
});

test.each([
  [10, 8, ['0:00', '0:02', '0:04', '0:06', '0:08', '0:10']],
  [668, 8, ['0:00', '2:00', '4:00', '6:00', '8:00', '10:00']],
  [7200, 4, ['0:00', '30:00', '1:00:00', '1:30:00', '2:00:00']],
])('%d s in at most %d steps', (duration, most, labels) => {
  const { ticks, label, domain } = timeScale(duration, most);
  expect(ticks.map(label)).toEqual(labels);
  expect(domain).toEqual([0, duration]);
});
