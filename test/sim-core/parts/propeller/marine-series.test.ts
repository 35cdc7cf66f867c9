import { marineOpenWater, marinePoint, marineRangeProblems } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { describe, expect, it } from 'vitest';

const screw = { blades: 3, areaRatio: 0.6, pitchRatio: 1.15 };

describe('a screw of the B-series', () => {
  it('names everything that lies outside the series', () => {
    expect(marineRangeProblems(screw)).toEqual([]);
    const problems = marineRangeProblems({ blades: 2.5, areaRatio: 1.2, pitchRatio: 1.6 });
    expect(problems).toHaveLength(3);
    expect(() => marineOpenWater({ ...screw, pitchRatio: 1.6 })).toThrow(/0.5 to 1.4, not 1.6/);
  });
  it('ends where the thrust vanishes and refuses to go on', () => {
    const openWater = marineOpenWater(screw);
    expect(marinePoint(openWater, openWater.zeroThrust).thrustCoefficient).toBeCloseTo(0, 12);
    expect(() => marinePoint(openWater, openWater.zeroThrust + 0.01)).toThrow(RangeError);
    expect(() => marinePoint(openWater, -0.1)).toThrow(RangeError);
  });
  it('corrects above Rn 2·10⁶ only', () => {
    expect(marineOpenWater(screw, 3e5)).toEqual(marineOpenWater(screw));
    expect(marineOpenWater(screw, 2e6)).toEqual(marineOpenWater(screw));
    expect(marineOpenWater(screw, 1e7).torque[0]).toBeLessThan(marineOpenWater(screw).torque[0]!);
    expect(() => marineOpenWater(screw, 0)).toThrow(/Reynolds/);
    expect(() => marineOpenWater(screw, 1e10)).toThrow(/Reynolds/);
  });
});
