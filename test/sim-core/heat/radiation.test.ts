import { radiationCoefficient, radiationFlux } from '@shaftwork/sim-core/heat/radiation';
import { STEFAN_BOLTZMANN } from '@shaftwork/sim-core/quantities/constants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const temperature = fc.double({ min: 200, max: 800, noNaN: true });

describe('radiation', () => {
  it('is ε·σ·(T_s⁴ − T_u⁴), odd in its two temperatures', () => {
    fc.assert(
      fc.property(temperature, temperature, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, emissivity) => {
        const scale = STEFAN_BOLTZMANN * (a ** 4 + b ** 4);
        expect(Math.abs(radiationFlux(a, b, emissivity) - emissivity * STEFAN_BOLTZMANN * (a ** 4 - b ** 4))).toBeLessThan(1e-13 * scale);
        expect(radiationFlux(a, b, emissivity) + radiationFlux(b, a, emissivity)).toBe(0);
      }),
    );
  });

  it('is 4·ε·σ·T³ per kelvin at equal temperatures', () =>
    expect(radiationCoefficient(300, 300, 0.85)).toBeCloseTo(4 * 0.85 * STEFAN_BOLTZMANN * 300 ** 3, 12));
});
