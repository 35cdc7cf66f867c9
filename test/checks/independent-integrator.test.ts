/** Verification: the whole right-hand side of the demo by a general-purpose classical Runge–Kutta integrator from the registry (ode-rk4). */
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import rk4 from 'ode-rk4';
import { expect, it } from 'vitest';
import { demo } from '../demo.js';

it('agrees with ode-rk4 at 10 ms steps over two minutes and a sprint: 1e-4 K, 1e-8 of charge', () => {
  const { candidates, scenario } = demo('survey-boat');
  const profile = scenario.profile.slice(0, 3);
  const system = realise(candidates[0].data);
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  let time = 0;
  for (const step of profile) {
    kernel.begin(step, time, false);
    const held = kernel.heldSpeed(time);
    if (!Number.isNaN(held)) y[kernel.at.speed] = held;
    const state = [...y];
    const buffer = new Float64Array(kernel.dimension);
    const rate = new Float64Array(kernel.dimension);
    const solver = rk4(
      state,
      (dy: number[], now: number[], t: number) => {
        buffer.set(now);
        kernel.derivative(t, buffer, rate);
        for (let k = 0; k < dy.length; k++) dy[k] = rate[k];
      },
      time,
      0.01,
    );
    solver.steps(Math.round(step.duration / 0.01));
    y.set(solver.y);
    time += step.duration;
  }
  const { state } = simulate(system, profile, { relative: 1e-9 });
  for (let k = 0; k < 6; k++) expect(Math.abs(state[k] - y[k])).toBeLessThan(1e-4);
  expect(Math.abs(state[6] - y[6])).toBeLessThan(1e-8);
});
