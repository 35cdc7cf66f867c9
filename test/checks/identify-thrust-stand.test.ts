/** What propeller sweeps cannot tell is not told; how well they foretell the rest is checked in outside/drives.ts. */
import { expect, it } from 'vitest';
import { STAND_MOTORS, untoldResistance } from './identify-thrust-stand.js';

it.each(STAND_MOTORS)('motor %s: no resistance is given that propeller sweeps cannot tell, and a run that tells it is named', (motor) => {
  const resistance = untoldResistance(motor);
  expect(resistance?.told).toBe(false);
  expect(resistance?.instead?.run?.words).toMatch(/between two leads/);
  // thirteen small motors: 30 to 150 mΩ with leads and controller (docs/validation.md); the interval must reach into that
  expect(resistance?.low).toBeLessThan(0.15);
  expect(resistance?.high).toBeGreaterThan(0.03);
});
