import { finSpacing, type HeatSink, heatSinkConductance, straightFinEfficiency } from '@shaftwork/sim-core/heat/fins';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const sink: HeatSink = { fins: 7, finHeight: 0.01, finThickness: 0.001, length: 0.04, breadth: 0.037, conductivity: 200 };

describe('fins', () => {
  it('are fully effective in vacuum and less so as h, height or thinness grow', () => {
    expect(straightFinEfficiency(0, 200, 1e-3, 0.02)).toBe(1);
    fc.assert(
      fc.property(within(1, 300), within(15, 400), within(3e-4, 3e-3), within(2e-3, 0.05), within(1.01, 2), (h, k, t, height, more) => {
        const straight = straightFinEfficiency(h, k, t, height);
        expect(straight).toBeLessThan(1);
        expect(straightFinEfficiency(h * more, k, t, height)).toBeLessThan(straight);
        expect(straightFinEfficiency(h, k, t, height * more)).toBeLessThan(straight);
        expect(straightFinEfficiency(h, k, t * more, height)).toBeGreaterThan(straight);
      }),
    );
  });
});

describe('heat sink', () => {
  it('of a perfect conductor gives off h times its whole surface', () => {
    const area = 0.037 * 0.04 + 7 * 2 * 0.01 * 0.04;
    // Fin tips are counted in the corrected height, so base + flanks is the bare plate and both flanks of seven fins.
    expect(heatSinkConductance({ ...sink, conductivity: 1e12 }, 10)).toBeCloseTo(10 * area, 9);
    expect(heatSinkConductance(sink, 10)).toBeLessThan(10 * area);
    expect(heatSinkConductance(sink, 10)).toBeGreaterThan(0.95 * 10 * area);
  });

  it('has six gaps of 5 mm between seven fins, and refuses fins that do not fit', () => {
    expect(finSpacing(sink)).toBeCloseTo(0.005, 12);
    expect(finSpacing({ ...sink, fins: 2 })).toBeCloseTo(0.035, 12);
    expect(() => finSpacing({ ...sink, fins: 37 })).toThrow(RangeError);
    expect(() => heatSinkConductance({ ...sink, fins: 1 }, 10)).toThrow(RangeError);
  });
});
