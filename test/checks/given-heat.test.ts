/** Given heat data are in the drive as they were written; what comes of them is checked in outside/drives.ts. */
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';
import { givenOutrunner } from './by-runge-kutta.js';
import { scenario } from './given-heat.js';

it('given data are in the system as they were written', () => {
  const { heat } = realise(givenOutrunner().candidates[0].data);
  expect([heat.windingToStator, heat.statorToCan, heat.canToAir]).toEqual([1.1, 0.3, 0.7]);
});

it('given air through an outrunner grows with the speed of its bell, from the speed at which it holds', () => {
  const system = realise(
    scenario('outrunner', '{ winding_to_stator: 0.9 W/K, stator_to_air: { conductance: 0.3 W/K, at_speed: 6000 rpm } }', '{}').candidates[0]
      .data,
  );
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  y[kernel.at.stator] += 10;
  const given = (rpm: number): number => {
    const speed = (rpm * Math.PI) / 30;
    kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: speed, to: speed } }, 0, false);
    kernel.solve(0, y);
    const still = { ...system.heat, slipstreamShare: 0 };
    kernel.load({ ...system, heat: still });
    kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: speed, to: speed } }, 0, false);
    kernel.solve(0, y);
    return kernel.heatOutlets(y).throughFlow;
  };
  expect(given(6000)).toBeCloseTo(3, 9);
  expect(given(3000)).toBeCloseTo(1.5, 9);
});

it('the bell’s given capacity holds the magnets', () => {
  const { capacity } = realise(scenario('outrunner', '{ can_capacity: 40 J/K }', '{}').candidates[0].data).heat;
  expect(capacity.can + capacity.magnets).toBeCloseTo(40, 12);
});
