import { textWidth, wrapText } from '@shaftwork/report/drawing/text-width';
import { expect, test } from 'vitest';

test('width grows with size and weight, digits are tabular', () => {
  expect(textWidth('winding', 24)).toBeCloseTo(2 * textWidth('winding', 12), 10);
  expect(textWidth('winding', 12, 600)).toBeGreaterThan(textWidth('winding', 12));
  expect(textWidth('1111')).toBe(textWidth('8888'));
  expect(textWidth('温度')).toBeGreaterThan(textWidth('te'));
});

test('lines break at blanks, inside a word only when it is too wide alone, never before a unit', () => {
  expect(wrapText('home before the squall', 76)).toEqual(['home before', 'the squall']);
  expect(wrapText('24\u202f°C to 130\u202f°C', 60)).toEqual(['24\u202f°C to', '130\u202f°C']);
  const broken = wrapText('Supercalifragilistic', 50);
  expect(broken.join('')).toBe('Supercalifragilistic');
  for (const line of broken) expect(textWidth(line)).toBeLessThanOrEqual(50);
  expect(wrapText('', 50)).toEqual(['']);
});
