import { capacityLimitedConductance, gnielinskiNusselt, LAMINAR_ISOTHERMAL_NUSSELT, tubeNusselt } from '@shaftwork/sim-core/heat/tube-flow';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

describe('tube flow', () => {
  it('goes from laminar to turbulent without a step and never falls with Re', () => {
    expect(tubeNusselt(0, 7)).toBe(LAMINAR_ISOTHERMAL_NUSSELT);
    expect(tubeNusselt(2300 + 1e-9, 7)).toBeCloseTo(tubeNusselt(2300, 7), 9);
    expect(tubeNusselt(4000 - 1e-9, 7)).toBeCloseTo(tubeNusselt(4000, 7), 9);
    expect(tubeNusselt(2e4, 7)).toBe(gnielinskiNusselt(2e4, 7));
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e5, noNaN: true }), fc.double({ min: 1, max: 1e4, noNaN: true }), (reynolds, more) => {
        expect(tubeNusselt(reynolds + more, 7)).toBeGreaterThanOrEqual(tubeNusselt(reynolds, 7));
      }),
    );
  });

  it('a stream carries no more than its capacity and no more than the wall gives', () => {
    expect(capacityLimitedConductance(5, 0)).toBe(0);
    expect(capacityLimitedConductance(0, 0)).toBe(0);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.double({ min: 0.01, max: 100, noNaN: true }), (wall, stream) => {
        const conductance = capacityLimitedConductance(wall, stream);
        expect(conductance).toBeGreaterThan(0);
        expect(conductance).toBeLessThanOrEqual(Math.min(wall, stream));
      }),
    );
    expect(capacityLimitedConductance(2, 1e6)).toBeCloseTo(2, 5);
  });
});
