/** The catalogue pages that outside/motors.ts takes its values from agree with themselves: loaded speed from no-load speed and gradient. */
import { expect, it } from 'vitest';
import { CATALOGUE } from './outside/motors.js';

it.each(CATALOGUE)('$name', ({ noLoadRpm, gradient, nominalTorque, nominalRpm }) => {
  expect(Math.abs((noLoadRpm - gradient * nominalTorque) / nominalRpm - 1)).toBeLessThan(0.006);
});
