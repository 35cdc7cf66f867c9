/** `point` under the controller's limits, and held for ever at a speed that is set. */
import { pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const boat = demo('survey-boat');
const limited = {
  ...boat,
  candidates: boat.candidates.map((each) => ({
    ...each,
    data: {
      ...each.data,
      controller: { ...each.data.controller, motorCurrentLimit: { ...each.data.controller.motorCurrentLimit, value: 20 } },
    },
  })),
};

describe('a point', () => {
  it.each([
    ['vehicleSpeed', 5],
    ['shaftSpeed', 850],
    ['thrust', 60],
    ['motorCurrent', 30],
    ['batteryPower', 450],
    ['throttle', 1],
  ] as const)('keeps the controller’s limit where it holds %s', (hold, value) => {
    for (const each of pointsOfScenario(limited, { hold, value, ...(hold === 'vehicleSpeed' ? { vehicleSpeed: value } : {}) })) {
      expect(each.channels.motorCurrent).toBeLessThanOrEqual(20 * (1 + 1e-9));
      expect(each.reached).toBe(hold === 'throttle');
    }
  });

  it('at a held speed is held for ever at that speed, cooler the less it asks', () => {
    const settled = [2, 4].map((value) => pointsOfScenario(boat, { hold: 'vehicleSpeed', value, vehicleSpeed: value })[0]);
    const winding = settled.map((each) => {
      if (typeof each.settled !== 'object') throw new Error('no equilibrium');
      return each.settled.temperatures.winding;
    });
    expect(winding[0]).toBeGreaterThan(287);
    expect(winding[1]).toBeGreaterThan(winding[0] + 5);
  });
});
