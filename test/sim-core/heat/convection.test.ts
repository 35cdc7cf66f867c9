import {
  blendCoefficients,
  cylinderEndCoefficient,
  cylinderSideCoefficient,
  finChannelCoefficient,
  plateCoefficient,
} from '@shaftwork/sim-core/heat/convection';
import { pressureAtAltitude, SEA_LEVEL_PRESSURE } from '@shaftwork/sim-core/media/standard-atmosphere';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** The laws at rest, of a cylinder's side and of an upright plate. */
const stillCylinder = (surface: number, air: number, pressure: number, size: number) =>
  cylinderSideCoefficient(surface, air, pressure, size, size, 0, 0, 0);
const stillPlate = (surface: number, air: number, pressure: number, size: number) => plateCoefficient(surface, air, pressure, size, 0);

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const air = within(253, 313);
const rise = within(-30, 150);
const diameter = within(0.01, 0.15);
const length = within(0.01, 0.2);
const speed = within(0, 60);
const spin = within(0, 6000);
const altitude = within(-200, 5000);

describe('coefficients over a can', () => {
  it('are finite and positive, also at equal temperatures and at rest', () => {
    fc.assert(
      fc.property(air, rise, diameter, length, speed, speed, spin, (T, dT, D, L, across, along, w) => {
        for (const [v, u, n] of [
          [across, along, w],
          [0, 0, 0],
        ] as const)
          for (const surface of [T + dT, T]) {
            const side = cylinderSideCoefficient(surface, T, SEA_LEVEL_PRESSURE, D, L, v, u, n);
            const end = cylinderEndCoefficient(surface, T, SEA_LEVEL_PRESSURE, D, v, n);
            expect(side).toBeGreaterThan(0);
            expect(end).toBeGreaterThan(0);
            expect(Number.isFinite(side + end)).toBe(true);
          }
      }),
    );
  });

  it('rise with speed across, speed along and spin', () => {
    fc.assert(
      fc.property(air, rise, diameter, length, speed, speed, spin, within(0.1, 10), (T, dT, D, L, v, u, w, more) => {
        const side = (dv: number, du: number, dw: number) =>
          cylinderSideCoefficient(T + dT, T, SEA_LEVEL_PRESSURE, D, L, v + dv, u + du, w + dw);
        const end = (dv: number, dw: number) => cylinderEndCoefficient(T + dT, T, SEA_LEVEL_PRESSURE, D, v + dv, w + dw);
        expect(side(more, 0, 0)).toBeGreaterThan(side(0, 0, 0));
        expect(side(0, more, 0)).toBeGreaterThan(side(0, 0, 0));
        expect(side(0, 0, 100 * more)).toBeGreaterThan(side(0, 0, 0));
        expect(end(more, 0)).toBeGreaterThan(end(0, 0));
        expect(end(0, 100 * more)).toBeGreaterThan(end(0, 0));
      }),
    );
  });

  it('rise with the temperature difference in still air', () => {
    fc.assert(
      fc.property(air, within(0, 150), within(0.5, 10), diameter, (T, dT, more, D) => {
        const at = (law: typeof stillCylinder, difference: number) => law(T + difference, T, SEA_LEVEL_PRESSURE, D);
        for (const law of [stillCylinder, stillPlate]) expect(at(law, dT + more)).toBeGreaterThan(at(law, dT));
      }),
    );
  });

  it('fall with altitude', () => {
    fc.assert(
      fc.property(air, within(1, 150), diameter, length, speed, spin, altitude, within(10, 3000), (T, dT, D, L, v, w, h, up) => {
        const side = (at: number) => cylinderSideCoefficient(T + dT, T, pressureAtAltitude(at), D, L, v, v, w);
        const end = (at: number) => cylinderEndCoefficient(T + dT, T, pressureAtAltitude(at), D, v, w);
        expect(side(h + up)).toBeLessThan(side(h));
        expect(end(h + up)).toBeLessThan(end(h));
      }),
    );
  });

  it('take no notice of which way the air moves or the bell turns', () => {
    const side = (sign: number) => cylinderSideCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.04, 0.03, sign * 5, sign * 8, sign * 700);
    const end = (sign: number) => cylinderEndCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.04, sign * 5, sign * 700);
    expect(side(-1)).toBe(side(1));
    expect(end(-1)).toBe(end(1));
  });

  it('have no step where a speed starts from rest, nor at the disc’s turbulence', () => {
    const side = (v: number, u: number, w: number) => cylinderSideCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.04, 0.03, v, u, w);
    for (const started of [side(1e-9, 0, 0), side(0, 1e-9, 0), side(0, 0, 1e-9)]) expect(started).toBeCloseTo(side(0, 0, 0), 6);
    const end = (w: number) => cylinderEndCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.1, 0, w);
    let previous = end(50);
    for (let w = 51; w <= 6000; w += 1) {
      const next = end(w);
      expect(next / previous).toBeLessThan(1.01);
      previous = next;
    }
  });

  it('conduct a smooth heat flow through ΔT = 0', () => {
    const flow = (dT: number) => stillCylinder(293 + dT, 293, SEA_LEVEL_PRESSURE, 0.03) * dT;
    expect(flow(0)).toBe(0);
    expect(Math.abs(flow(1e-6) + flow(-1e-6))).toBeLessThan(1e-9);
  });

  it('reduce to the strongest alone, and to the still laws at rest', () => {
    expect(blendCoefficients(0, 7)).toBeCloseTo(7, 12);
    expect(blendCoefficients(1, 1, 1, 1)).toBeCloseTo(4 ** (1 / 3), 12);
    expect(stillPlate(350, 293, SEA_LEVEL_PRESSURE, 0.04)).toBe(cylinderEndCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.04, 0, 0));
    expect(stillCylinder(350, 293, SEA_LEVEL_PRESSURE, 0.04)).toBe(
      cylinderSideCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.04, 0.09, 0, 0, 0),
    );
  });

  it('refuse sizes that are not positive and air outside its range', () => {
    for (const size of [0, -0.01, Number.NaN]) {
      expect(() => cylinderSideCoefficient(350, 293, SEA_LEVEL_PRESSURE, size, 0.03, 0, 0, 0)).toThrow(/positive size/);
      expect(() => cylinderSideCoefficient(350, 293, SEA_LEVEL_PRESSURE, 0.03, size, 0, 0, 0)).toThrow(/positive size/);
      expect(() => cylinderEndCoefficient(350, 293, SEA_LEVEL_PRESSURE, size, 0, 0)).toThrow(/positive size/);
      expect(() => plateCoefficient(350, 293, SEA_LEVEL_PRESSURE, size, 1)).toThrow(/positive size/);
      expect(() => finChannelCoefficient(350, 293, SEA_LEVEL_PRESSURE, size, 0.04)).toThrow(/positive size/);
    }
    expect(() => stillCylinder(2000, 293, SEA_LEVEL_PRESSURE, 0.03)).toThrow(RangeError);
  });
});

describe('fins in still air', () => {
  it('stifle one another when they stand close, and reach the lone plate when far apart', () => {
    const at = (spacing: number) => finChannelCoefficient(350, 293, SEA_LEVEL_PRESSURE, spacing, 0.04);
    expect(at(0.001)).toBeLessThan(0.2 * at(0.008));
    const lone = stillPlate(350, 293, SEA_LEVEL_PRESSURE, 0.04);
    expect(Math.abs(at(0.05) / lone - 1)).toBeLessThan(0.15);
    expect(finChannelCoefficient(293, 293, SEA_LEVEL_PRESSURE, 0.005, 0.04)).toBe(0);
  });
});
