import { THRUST_TERMS, TORQUE_TERMS } from '@shaftwork/sim-core/parts/propeller/marine-series-terms';
import { describe, expect, it } from 'vitest';

/**
 * M. W. C. Oosterveld & P. van Oossanen, "Further computer-analyzed data of the Wageningen B-screw series", International
 * Shipbuilding Progress 22 (251), 1975, tables 5 and 6. What the terms add up to is checked in outside/blades.ts.
 */
describe('Wageningen B-series', () => {
  it('has the published number of terms and not the known misprints', () => {
    expect(THRUST_TERMS).toHaveLength(39);
    expect(TORQUE_TERMS).toHaveLength(47);
    const torqueTerm = (...powers: number[]) => TORQUE_TERMS.filter(([, ...found]) => found.join() === powers.join()).map(([c]) => c);
    expect(torqueTerm(3, 3, 0, 1)).toEqual([0.00110903]);
    expect(torqueTerm(0, 6, 2, 2)).toEqual([-0.0004659]);
  });
});
