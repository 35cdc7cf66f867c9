import { areaOfGauge, gaugeOfArea } from '@shaftwork/sim-core/quantities/wire-gauge';
import { describe, expect, it } from 'vitest';

/** Nominal diameters and areas of ASTM B258 by its formula, and the diameters as wire tables print them. */
const TABLE = [
  { gauge: 0, area: 53.4751, diameter: 8.25 },
  { gauge: 4, area: 21.1506, diameter: 5.19 },
  { gauge: 10, area: 5.2612, diameter: 2.59 },
  { gauge: 12, area: 3.3088, diameter: 2.05 },
  { gauge: 14, area: 2.0809, diameter: 1.63 },
  { gauge: 20, area: 0.5176, diameter: 0.812 },
  { gauge: 30, area: 0.0509, diameter: 0.255 },
  { gauge: 36, area: 0.0127, diameter: 0.127 },
];

describe('wire gauge', () => {
  it.each(TABLE)('$gauge AWG has $area mm² and is $diameter mm thick', ({ gauge, area, diameter }) => {
    const mm2 = areaOfGauge(gauge) * 1e6;
    expect(Math.abs(mm2 - area)).toBeLessThanOrEqual(0.5e-4); // four printed decimals
    expect(Math.abs(2 * Math.sqrt(mm2 / Math.PI) - diameter) / diameter).toBeLessThan(0.003); // three printed digits
  });

  it('is doubled in area by about three steps and quadrupled by about six', () => {
    expect(areaOfGauge(10) / areaOfGauge(16)).toBeCloseTo(92 ** (12 / 39), 12);
  });

  it.each([-3, 0, 12, 25.5, 56])('comes back from the area: %d', (gauge) => {
    expect(gaugeOfArea(areaOfGauge(gauge))).toBeCloseTo(gauge, 10);
  });

  it('is refused for no wire at all', () => {
    for (const area of [0, -1e-6, Number.NaN]) expect(() => gaugeOfArea(area)).toThrow(RangeError);
  });
});
