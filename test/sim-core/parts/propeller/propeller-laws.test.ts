import { createCoefficientTable, createReynoldsTable } from '@shaftwork/sim-core/parts/propeller/coefficient-table';
import { emptyPropellerPoint, evaluatePropeller, propellerEfficiency } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { describe, expect, it } from 'vitest';

const rows = [0, 0.2, 0.4, 0.6, 0.8].map((j) => ({
  advanceRatio: j,
  thrustCoefficient: 0.1 - 0.15 * j,
  powerCoefficient: 0.045 - 0.04 * j * j,
}));
const air = { density: 1.225, kinematicViscosity: 1.46e-5 };
const propeller = { diameter: 0.25, table: createCoefficientTable(rows), thrustFactor: 1, powerFactor: 1 };
const reynoldsPropeller = {
  ...propeller,
  table: createReynoldsTable([
    { discReynolds: 1e5, rows: rows.map((r) => ({ ...r, powerCoefficient: r.powerCoefficient * 1.2 })) },
    { discReynolds: 1e6, rows },
  ]),
};
const at = (part: typeof propeller, angularSpeed: number, speed: number) => {
  const out = emptyPropellerPoint();
  evaluatePropeller(part, air, angularSpeed, speed, out);
  return out;
};

describe('thrust and torque of a propeller', () => {
  it('follows the definitions of the coefficients', () => {
    const turns = 100;
    const point = at(propeller, 2 * Math.PI * turns, 10);
    expect(point.advanceRatio).toBeCloseTo(0.4, 12);
    expect(point.thrust).toBeCloseTo(0.04 * 1.225 * turns ** 2 * 0.25 ** 4, 10);
    expect(point.torque * 2 * Math.PI * turns).toBeCloseTo((0.045 - 0.04 * 0.16) * 1.225 * turns ** 3 * 0.25 ** 5, 9);
    expect(point.outside).toBe(0);
    expect(propellerEfficiency(point.advanceRatio, point.coefficients.thrustCoefficient, point.coefficients.powerCoefficient)).toBeCloseTo(
      (point.thrust * 10) / (point.torque * 2 * Math.PI * turns),
      12,
    );
    expect(propellerEfficiency(0, 0.1, 0.04)).toBe(0);
  });
  it('applies its factors to thrust and to power apart', () => {
    const doubted = at({ ...propeller, thrustFactor: 0.9, powerFactor: 1.1 }, 600, 5);
    const plain = at(propeller, 600, 5);
    expect(doubted.thrust / plain.thrust).toBeCloseTo(0.9, 12);
    expect(doubted.torqueSlope / plain.torqueSlope).toBeCloseTo(1.1, 12);
  });
  it.each([
    ['inside the table', propeller, 700, 9, 'inside'],
    ['at rest in still air but for the shaft', propeller, 700, 0, 'inside'],
    ['past the table', propeller, 100, 20, 'past'],
    ['with Reynolds dependence', reynoldsPropeller, 200, 3, 'inside'],
    ['past the table with Reynolds dependence', reynoldsPropeller, 200, 15, 'past'],
  ] as const)('gives slopes and curvatures that are the derivatives at fixed speed, %s', (_, part, angularSpeed, speed, where) => {
    const step = 1e-4;
    const [below, above] = [at(part, angularSpeed - step, speed), at(part, angularSpeed + step, speed)];
    const point = at(part, angularSpeed, speed);
    expect(point.torqueSlope).toBeCloseTo((above.torque - below.torque) / (2 * step), 9);
    expect(point.thrustSlope).toBeCloseTo((above.thrust - below.thrust) / (2 * step), 8);
    expect(point.outside > 0).toBe(where === 'past');
    if (where === 'past') {
      expect([point.torqueCurvature, point.thrustCurvature]).toEqual([Number.NaN, Number.NaN]);
      return;
    }
    expect(point.torqueCurvature).toBeCloseTo((above.torqueSlope - below.torqueSlope) / (2 * step), 12);
    expect(point.thrustCurvature).toBeCloseTo((above.thrustSlope - below.thrustSlope) / (2 * step), 11);
  });
  it('stays finite and continuous down to a stopped shaft', () => {
    const stopped = at(propeller, 0, 12);
    const nearly = at(propeller, 1e-300, 12);
    const last = 0.8;
    expect(stopped.thrust).toBeCloseTo((1.225 * 144 * 0.25 ** 2 * (0.1 - 0.15 * last)) / last ** 2, 12);
    expect(nearly.thrust).toBe(stopped.thrust);
    expect(nearly.torque).toBe(stopped.torque);
    expect(stopped).toMatchObject({ torqueSlope: 0, advanceRatio: Infinity, outside: Infinity });
    const edge = (2 * Math.PI * 12) / (0.25 * last);
    expect(at(propeller, edge * (1 - 1e-9), 12).torque).toBeCloseTo(at(propeller, edge * (1 + 1e-9), 12).torque, 8);
    expect(at(propeller, -50, 12)).toMatchObject({ thrust: stopped.thrust, torque: stopped.torque, torqueSlope: 0, thrustSlope: 0 });
    expect(at(reynoldsPropeller, 0, 12)).toMatchObject({ torqueSlope: 0, thrustSlope: 0, advanceRatio: Infinity });
    expect(at(reynoldsPropeller, 0, 12).thrust).toBe(stopped.thrust);
  });
  it('is nothing at rest in still air, and holds the first row in flow from behind', () => {
    expect(at(propeller, 0, 0)).toMatchObject({ thrust: 0, torque: 0, advanceRatio: 0, outside: 0 });
    const behind = at(propeller, 600, -3);
    expect(behind.thrust).toBeCloseTo(at(propeller, 600, 0).thrust, 12);
    expect(behind.outside).toBeLessThan(0);
  });
});
