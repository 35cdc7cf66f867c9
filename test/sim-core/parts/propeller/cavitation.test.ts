import { cavitationNumber, kellerMinimumAreaRatio } from '@shaftwork/sim-core/parts/propeller/cavitation';
import { describe, expect, it } from 'vitest';

const water = { pressure: 101_325 + 998.2 * 9.80665 * 0.1, vapourPressure: 2339 };

describe('cavitation of a marine screw', () => {
  it('is the pressure margin over the dynamic pressure', () => {
    expect(cavitationNumber(water, 998.2, 10)).toBeCloseTo((101_325 - 2339) / 49_910 + (998.2 * 9.80665 * 0.1) / 49_910, 10);
    expect(cavitationNumber(water, 998.2, 0)).toBe(Infinity);
  });
  it('asks for more area with thrust and blades, and with a single screw', () => {
    const screw = { blades: 4, diameter: 5, hull: 'single' } as const;
    // 1 MN on 5 m at 150 kPa margin: 2.5·1e6/(150e3·25) + 0.2
    expect(kellerMinimumAreaRatio(screw, 1e6, { pressure: 152_000, vapourPressure: 2000 })).toBeCloseTo(2.5 / 3.75 + 0.2, 12);
    expect(kellerMinimumAreaRatio({ ...screw, hull: 'fast-twin' }, 0, water)).toBe(0);
  });
  it('refuses boiling water', () => {
    expect(() => cavitationNumber({ pressure: 2000, vapourPressure: 2339 }, 998, 5)).toThrow(/boils/);
  });
});
