import { turningCylinderNusselt, turningDiscNusselt } from '@shaftwork/sim-core/heat/nusselt-rotation';
import { describe, expect, it } from 'vitest';

describe('rotation', () => {
  it('gives nothing at rest', () => {
    expect(turningCylinderNusselt(0, 0.7)).toBe(0);
    expect(turningDiscNusselt(0, 0.7)).toBe(0);
  });

  it('goes with Re^⅔ on the side and Re^½ on a laminar disc', () => {
    expect(turningCylinderNusselt(8e4, 0.7) / turningCylinderNusselt(1e4, 0.7)).toBeCloseTo(4, 9);
    expect(turningDiscNusselt(4e4, 0.7) / turningDiscNusselt(1e4, 0.7)).toBeCloseTo(2, 9);
  });

  it('has a disc that turns turbulent without a step', () => {
    expect(turningDiscNusselt(250000 * (1 + 1e-9), 0.7) / turningDiscNusselt(250000, 0.7)).toBeCloseTo(1, 7);
    // Far above, the laminar core is small: 0.015·Re^0.8.
    expect(turningDiscNusselt(1e8, 0.7) / (0.015 * 1e8 ** 0.8)).toBeCloseTo(1, 2);
  });
});
