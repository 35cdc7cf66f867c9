/** The battery current limit beyond the greatest power of a weak pack, where more current from the pack is less current of the motor. */
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';
import { demo } from '../../demo.js';

const system = realise(demo('burst-glider').candidates[0].data);

/** Full throttle at rest with a pack whose short circuit is `short` times the limit. */
function flatOut(limit: number, short: number) {
  const { battery, controller } = system;
  const { cellsInSeries, cellsInParallel } = battery;
  const volts = cellsInSeries * 4;
  const weak = { ...battery, cellResistance: (volts / (short * limit) / cellsInSeries) * cellsInParallel };
  const kernel = createKernel({
    ...system,
    battery: weak,
    controller: { ...controller, batteryCurrentLimit: limit, motorCurrentLimit: 1e6 },
  });
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  kernel.begin({ duration: 10, hold: 'shaftSpeed', value: { from: 0, to: 0 } }, 0, false);
  kernel.solve(0, y);
  return kernel.point;
}

// a pack gives its greatest power at half of its short-circuit current (Jacobi's theorem of maximum power transfer)
it.each([1.2, 1.6, 1.95, 2.05, 3, 10])('is what flows where the pack’s short circuit is %s times as much', (short) => {
  const limit = 20;
  const point = flatOut(limit, short);
  expect(point.packCurrent).toBeLessThanOrEqual(limit * (1 + 1e-9));
  expect(point.packCurrent).toBeGreaterThan(limit * (1 - 1e-6));
  expect(point.overloaded).toBe(false);
});
