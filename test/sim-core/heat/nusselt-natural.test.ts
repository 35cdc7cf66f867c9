import { channelNaturalNusselt, cylinderNaturalNusselt, plateNaturalNusselt } from '@shaftwork/sim-core/heat/nusselt-natural';
import { describe, expect, it } from 'vitest';

describe('natural convection', () => {
  it('leaves conduction alone where nothing rises', () => {
    expect(cylinderNaturalNusselt(0, 0.7)).toBeCloseTo(0.36, 12);
    expect(plateNaturalNusselt(0, 0.7)).toBeCloseTo(0.825 ** 2, 12);
    expect(channelNaturalNusselt(0)).toBe(0);
  });
});
