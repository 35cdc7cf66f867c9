/** Thermal runaway against its closed form, and what heat allows against shaft speed. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { continuousTorque, motorEquilibria, runawayTorque } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';
import { oneBodyOf } from './one-body.js';

const { candidates } = demo('survey-boat');
const base = realise(candidates[0].data);
const G = 0.9;
const oneBody = oneBodyOf(base, G, 293.15);

describe('runaway', () => {
  it('of copper alone begins where α·R₂₀·i² reaches G', () => {
    const { resistance, resistanceCoefficient, torqueConstant } = oneBody.motor;
    const threshold = Math.sqrt(G / (resistanceCoefficient * resistance));
    // just below it the equilibrium is far beyond what the search believes (900 K): i² = G·θ/(R₂₀(1 + αθ)) at θ = 606.85 K
    const theta = 900 - 293.15;
    const believed = Math.sqrt((G * theta) / (resistance * (1 + resistanceCoefficient * theta)));
    const { current, torque } = runawayTorque(oneBody, 0, 100);
    expect(current / believed).toBeGreaterThan(0.995);
    expect(current / believed).toBeLessThan(1.001);
    expect(current).toBeLessThan(threshold);
    expect(torque / (torqueConstant * current)).toBeCloseTo(1, 6);
  });

  it('of copper and magnets together begins at the tangent: largest M² = G·θ·kt²(1 + βθ)²/(R₂₀(1 + αθ))', () => {
    const beta = -0.0012;
    const weak = { ...oneBody, motor: { ...oneBody.motor, fluxCoefficient: beta } };
    const { resistance, resistanceCoefficient: alpha, torqueConstant } = weak.motor;
    let best = 0;
    for (let theta = 0.01; theta < 600; theta += 0.01)
      best = Math.max(best, (G * theta * (torqueConstant * (1 + beta * theta)) ** 2) / (resistance * (1 + alpha * theta)));
    const { torque } = runawayTorque(weak, 0, 100);
    expect(torque / Math.sqrt(best)).toBeGreaterThan(0.998);
    expect(torque / Math.sqrt(best)).toBeLessThan(1.001);
  });

  it('leaves the equilibrium below it on its closed form', () => {
    const { resistance, resistanceCoefficient: alpha } = oneBody.motor;
    const i = 12;
    const found = motorEquilibria(oneBody, 0).at(100, { current: i });
    const theta = (i * i * resistance) / (G - alpha * i * i * resistance);
    expect(found!.temperature[0] - 293.15).toBeCloseTo(theta, 2);
  });
});

describe('continuous torque', () => {
  it('sits on the limit, falls with speed as iron loss grows, and rises with cooling', () => {
    const speeds = [0, 200, 500, 900];
    const found = continuousTorque(base, 3, speeds);
    const { at } = motorEquilibria(base, 3);
    speeds.forEach((speed, k) => {
      const { temperature } = at(speed, { current: found.current[k] })!;
      const nearest = Math.min(base.limits.windingTemperature - temperature[0], base.limits.magnetTemperature - temperature[3]);
      expect(nearest).toBeGreaterThanOrEqual(0);
      expect(nearest).toBeLessThan(0.1);
      if (k > 1) expect(found.torque[k]).toBeLessThan(found.torque[k - 1]);
    });
    const cooled = continuousTorque({ ...base, heat: { ...base.heat, windingToStator: 2 * base.heat.windingToStator } }, 3, speeds);
    cooled.torque.forEach((torque, k) => {
      expect(torque).toBeGreaterThan(found.torque[k]);
    });
  });
});
