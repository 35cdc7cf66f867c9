import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { dragForce, dragFromTable, stallSpeed, type Vehicle } from '@shaftwork/sim-core/parts/vehicle';
import { gripForce, turningMass } from '@shaftwork/sim-core/parts/wheel';
import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const G = 9.80665;
const glider = demo('burst-glider').candidates.map(({ data }) => realise(data));
const wing: Vehicle = glider[0].vehicle;

describe('wing', () => {
  it('drags with C_D0 and C_L²/(π·Λ·e) of the demo’s own figures', () => {
    // 0.60 m², aspect ratio 17, e 0.85, C_D0 0.019 at 9.5 m/s
    const pressure = 0.5 * wing.density * 9.5 ** 2;
    const lift = (wing.mass * G) / (pressure * 0.6);
    const drag = pressure * 0.6 * (0.019 + lift ** 2 / (Math.PI * 17 * 0.85));
    expect(dragForce(wing, 9.5, 0) / drag).toBeCloseTo(1, 12);
    // half of the weight is carried by the wing on a path that climbs at 60°
    const steep = pressure * 0.6 * (0.019 + (0.5 * lift) ** 2 / (Math.PI * 17 * 0.85));
    expect(dragForce(wing, 9.5, Math.sqrt(0.75)) / steep).toBeCloseTo(1, 12);
  });

  it('carries no more than C_Lmax: induced drag below the stall speed is that of full lift', () => {
    const slowest = stallSpeed(wing, 0);
    expect(0.5 * wing.density * slowest ** 2 * wing.liftArea).toBeCloseTo(wing.mass * G, 9);
    const speed = 0.6 * slowest;
    const pressure = 0.5 * wing.density * speed ** 2;
    const most = wing.liftArea / 0.6;
    expect(dragForce(wing, speed, 0)).toBeCloseTo(pressure * 0.6 * (0.019 + most ** 2 / (Math.PI * 17 * 0.85)), 9);
  });

  it('climbs as the thrust left over allows: sin γ = (F − D)/(m·g)', () => {
    const kernel = createKernel(glider[0]);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.speed] = 12;
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 }, vehicleSpeed: { from: 12, to: 12 } }, 0, false);
    kernel.solve(0, y);
    const { point } = kernel;
    expect(point.climb).toBeGreaterThan(0.3);
    expect((point.force - point.drag) / (wing.mass * G)).toBeCloseTo(point.climb, 3);
    expect(point.drag).toBeCloseTo(dragForce(wing, 12, point.climb), 3);
  });
});

describe('hull', () => {
  const hull = realise(demo('survey-boat').candidates[0].data);
  const table = hull.vehicle.dragTable!;

  it('drags as its table says at every row, as smoothly rising between, backwards alike', () => {
    const rows = [2.6, 10, 20, 29, 37, 46];
    rows.forEach((force, k) => {
      expect(dragFromTable(table, k + 1)).toBeCloseTo(force, 9);
      expect(dragFromTable(table, -(k + 1))).toBeCloseTo(-force, 9);
    });
    expect(dragFromTable(table, 0)).toBe(0);
    let before = 0;
    for (let v = 0.05; v < 6; v += 0.05) {
      expect(dragFromTable(table, v)).toBeGreaterThan(before);
      before = dragFromTable(table, v);
    }
    // beyond the last row, which is a finding, with v²
    expect(dragFromTable(table, 12)).toBeCloseTo(4 * 46, 9);
  });

  it('takes the water along: a = (F − D)/(m·(1 + added mass))', () => {
    const kernel = createKernel(hull);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.speed] = 2;
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
    kernel.solve(0, y);
    const { point } = kernel;
    expect(hull.vehicle.addedMass).toBe(0.08);
    expect(point.acceleration).toBeCloseTo((point.force - dragForce(hull.vehicle, 2, 0)) / (hull.vehicle.mass * 1.08), 9);
  });
});

describe('masses', () => {
  it('of each candidate’s own motor and gearbox count, as often as there are drives', () => {
    const { candidates } = demo('burst-glider');
    const parts = candidates.map(({ given, name }) => {
      const made = complete(name, { ...given, drives: 2 });
      if (!made.ok) throw new Error(name);
      return realise(made.data).vehicle.mass;
    });
    // airframe 1.76 kg, pack 0.215; Disc 0.128, Pencil 0.112 and 0.034 of gear, Feather 0.098
    expect(parts).toEqual([1.975 + 2 * 0.128, 1.975 + 2 * 0.146, 1.975 + 2 * 0.098].map((mass) => expect.closeTo(mass, 9)));
    expect(glider.map(({ vehicle }) => vehicle.mass)).toEqual([2.103, 2.121, 2.073].map((mass) => expect.closeTo(mass, 9)));
  });
});

describe('wheel', () => {
  it('passes µ of the weight that stands on the driven wheels, less on a slope', () => {
    expect(gripForce({ grip: 0.9, drivenShare: 1 }, 2, 0)).toBeCloseTo(0.9 * 2 * G, 12);
    expect(gripForce({ grip: 0.9, drivenShare: 0.55 }, 2, 0)).toBeCloseTo(0.55 * 0.9 * 2 * G, 12);
    expect(gripForce({ grip: 0.9, drivenShare: 1 }, 2, 0.6)).toBeCloseTo(0.8 * 0.9 * 2 * G, 12);
  });

  it('turns (J_w + J_r·G²)/r² of mass', () => {
    // the demo's design by hand: effective mass 2.82 kg at 5.4 to 1, 2.91 kg at 7.4 for a car of 2.64 kg
    expect(turningMass(2.4e-4, 6e-6, 5.4, 0.043)).toBeCloseTo((2.4e-4 + 6e-6 * 5.4 ** 2) / 0.043 ** 2, 12);
  });
});
