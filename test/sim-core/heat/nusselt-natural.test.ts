import {
  channelNaturalNusselt,
  cylinderLaminarNusselt,
  cylinderNaturalNusselt,
  plateNaturalNusselt,
} from '@shaftwork/sim-core/heat/nusselt-natural';
import { describe, expect, it } from 'vitest';

describe('natural convection', () => {
  it('leaves conduction alone where nothing rises', () => {
    expect(cylinderNaturalNusselt(0, 0.7)).toBeCloseTo(0.36, 12);
    expect(cylinderLaminarNusselt(0, 0.7)).toBe(0.36);
    expect(plateNaturalNusselt(0, 0.7)).toBeCloseTo(0.825 ** 2, 12);
    expect(channelNaturalNusselt(0)).toBe(0);
  });

  it('has both cylinder laws within 20 % of each other up to Ra 10⁶, what motors reach', () => {
    for (let exponent = -2; exponent <= 6; exponent++) {
      const ratio = cylinderNaturalNusselt(10 ** exponent, 0.7) / cylinderLaminarNusselt(10 ** exponent, 0.7);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.2);
    }
  });
});
