import {
  CROSS_FLOW_CONDUCTION,
  crossFlowNusselt,
  laminarPlateNusselt,
  plateNusselt,
  turbulentPlateNusselt,
} from '@shaftwork/sim-core/heat/nusselt-forced';
import { describe, expect, it } from 'vitest';

describe('forced convection', () => {
  it('starts from conduction across a stream and from nothing along one', () => {
    expect(crossFlowNusselt(0, 0.7)).toBe(CROSS_FLOW_CONDUCTION);
    expect(plateNusselt(0, 0.7)).toBe(0);
  });

  it('follows the laminar law at low and the turbulent law at high Reynolds numbers (3 %)', () => {
    expect(plateNusselt(10, 0.7) / laminarPlateNusselt(10, 0.7)).toBeLessThan(1.03);
    expect(plateNusselt(1e7, 0.7) / turbulentPlateNusselt(1e7, 0.7)).toBeLessThan(1.03);
  });

  it('has the turbulent law of the heat atlas, 0.037·Re^0.8·Pr/[1 + 2.443·Re^(−0.1)·(Pr^⅔ − 1)], 0 to 10 % below up to Re 10⁶ in air (its coefficients from memory)', () => {
    for (const reynolds of [1e4, 1e5, 1e6]) {
      const atlas = (0.037 * reynolds ** 0.8 * 0.71) / (1 + 2.443 * reynolds ** -0.1 * (0.71 ** (2 / 3) - 1));
      const ratio = atlas / turbulentPlateNusselt(reynolds, 0.71);
      expect(ratio).toBeGreaterThan(0.9);
      expect(ratio).toBeLessThan(1);
    }
  });
});
