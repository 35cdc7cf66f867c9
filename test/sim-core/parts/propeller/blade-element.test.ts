import { elementLoad, prandtlLoss, type Rotor, rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { familyGeometry } from '@shaftwork/sim-core/parts/propeller/blade-families';
import { rotorFromGeometry } from '@shaftwork/sim-core/parts/propeller/blade-geometry';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const rotor = rotorFromGeometry(familyGeometry('thin', { diameter: 0.25, pitch: 0.13, blades: 2 }));
const RE = 4e5;

describe('blade elements and momentum', () => {
  it('loses nothing inboard and everything at the tip and at the hub', () => {
    const bounds = { blades: 2, hubRadius: 0.15 };
    expect(prandtlLoss(bounds, 0.5, 0.1)).toBeGreaterThan(0.99);
    expect(prandtlLoss(bounds, 1, 0.1)).toBe(0);
    expect(prandtlLoss(bounds, 0.15, 0.1)).toBe(0);
    expect(prandtlLoss({ blades: 2, hubRadius: 0 }, 0.2, 0.3)).toBeGreaterThan(0.95);
    expect(prandtlLoss({ ...bounds, blades: 4 }, 0.95, 0.2)).toBeGreaterThan(prandtlLoss(bounds, 0.95, 0.2));
  });
  it('balances blade force with momentum in every annulus, from standstill to braking', () => {
    for (const advanceRatio of [0, 0.2, 0.5, 0.8, 1.5]) {
      for (const element of rotor.elements) {
        const { inflowAngle, speed, thrust, power } = elementLoad(rotor, element, advanceRatio, RE);
        const through = speed * Math.sin(inflowAngle);
        const swirl = Math.PI * element.radius - speed * Math.cos(inflowAngle);
        const loss = prandtlLoss(rotor, element.radius, Math.abs(Math.sin(inflowAngle)));
        // dT = 2·(V + u)·u·F·dA, dQ = 2·(V + u)·v·r·F·dA with dA = ½π·x·dx in D²
        const flow = Math.PI * element.radius * loss * Math.abs(through);
        expect(thrust).toBeCloseTo(flow * (through - advanceRatio), 5);
        expect(power / (2 * Math.PI)).toBeCloseTo(flow * swirl * (element.radius / 2), 5);
      }
    }
  });
  it('finds the same balance wherever it begins to look', () => {
    for (const advanceRatio of [0, 0.3, 0.9])
      for (const element of rotor.elements) {
        const { inflowAngle } = elementLoad(rotor, element, advanceRatio, RE);
        for (const away of [-0.6, -0.09, -0.01, 0, 0.01, 0.09, 0.5, 1])
          expect(elementLoad(rotor, element, advanceRatio, RE, inflowAngle + away).inflowAngle).toBeCloseTo(inflowAngle, 5);
      }
  });
  it('gives thrust at rest, none near the pitch speed, and drives the shaft when the stream turns it', () => {
    const [rest, cruise, windmill] = [0, 0.4, 1].map((advanceRatio) => rotorCoefficients(rotor, advanceRatio, RE));
    expect(rest!.thrustCoefficient).toBeGreaterThan(cruise!.thrustCoefficient);
    expect(cruise!.thrustCoefficient).toBeGreaterThan(0);
    expect(windmill!.thrustCoefficient).toBeLessThan(0);
    expect(windmill!.powerCoefficient).toBeLessThan(0);
    expect((0.4 * cruise!.thrustCoefficient) / cruise!.powerCoefficient).toBeLessThan(1);
  });
  it('finds the balance of any blade that pulls or brakes, and never creates power', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('thin', 'broad', 'stout', 'folding'),
        fc.double({ min: 0.3, max: 1.2, noNaN: true }),
        fc.integer({ min: 1, max: 5 }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 1e4, max: 5e6, noNaN: true }),
        (family, pitchRatio, blades, advanceRatio, discReynolds) => {
          const any = rotorFromGeometry(familyGeometry(family as 'stout', { diameter: 0.25, pitch: 0.25 * pitchRatio, blades }));
          const { thrustCoefficient, powerCoefficient } = rotorCoefficients(any, advanceRatio, discReynolds);
          expect(Number.isFinite(thrustCoefficient)).toBe(true);
          // power in by the shaft less power out by the thrust is lost in the air
          expect(powerCoefficient - advanceRatio * thrustCoefficient).toBeGreaterThan(0);
        },
      ),
      { numRuns: 300 },
    );
  });
  it('blows backwards with a blade set backwards at rest', () => {
    const backwards: Rotor = { ...rotor, elements: rotor.elements.map((element) => ({ ...element, twist: -element.twist })) };
    const { thrustCoefficient, powerCoefficient } = rotorCoefficients(backwards, 0, RE);
    expect(thrustCoefficient).toBeLessThan(0);
    expect(powerCoefficient).toBeGreaterThan(0);
  });
  it('sends nothing through where a blade at rest stands at the angle of no lift', () => {
    const flat: Rotor = {
      ...rotor,
      elements: rotor.elements.map((element) => ({ ...element, twist: 0, polar: () => (angle) => ({ lift: 6 * angle, drag: 0.01 }) })),
    };
    const { thrustCoefficient, powerCoefficient } = rotorCoefficients(flat, 0, RE);
    expect(Math.abs(thrustCoefficient)).toBeLessThan(1e-6);
    expect(powerCoefficient).toBeGreaterThanOrEqual(0);
    expect(powerCoefficient).toBeLessThan(1e-3);
  });
});
