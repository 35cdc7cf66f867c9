/** Guesses for words that people use and a scenario does not. */
import { nearestWord } from '@shaftwork/sim-core/scenario';
import { expect, it } from 'vitest';

it('knows what people call things', () => {
  expect(nearestWord('lipo', ['lithium-polymer', 'lithium-ion', 'nickel-metal-hydride'])).toBe('lithium-polymer');
  expect(nearestWord('type', ['layout', 'kv', 'resistance'])).toBe('layout');
  expect(nearestWord('type', ['chemistry', 'cells'])).toBe('chemistry');
  expect(nearestWord('slope', ['climb', 'grade', 'steps'])).toBe('grade');
  expect(nearestWord('power', ['current', 'voltage', 'input_power', 'shaft_speed'])).toBe('input_power');
});

it('does not take a word for another key as a slip of letters', () => {
  expect(nearestWord('power', ['layout', 'kv', 'poles'])).toBeUndefined();
  expect(nearestWord('polse', ['layout', 'kv', 'poles'])).toBe('poles');
});
