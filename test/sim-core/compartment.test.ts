import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, it } from 'vitest';
import { SMALLEST } from './scenario/smallest-scenario.js';

const canAfter = (air: string): number => {
  const text = SMALLEST.replace(
    'profile:',
    `ambient: { air: 20 °C, compartment: 45 °C }\n${air}start: { temperature: 20 °C }\nprofile:`,
  ).replace('for: 3 min, throttle: 80 %', 'for: 2 h, throttle: 0 %');
  const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
  return runScenario(made.prepared).candidates[0]!.trace.canTemperature.at(-1)! - ZERO_CELSIUS;
};

it('a motor left alone takes the temperature of the air that it stands in', () => {
  expect(canAfter('')).toBeCloseTo(20, 1);
  expect(canAfter('cooling: { air: { from: outside } }\n')).toBeCloseTo(20, 1);
  expect(canAfter('cooling: { air: { from: compartment } }\n')).toBeCloseTo(45, 1);
});
