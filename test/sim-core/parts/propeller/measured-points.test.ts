import { STATIC_FIGURE_OF_MERIT, tableFromMeasuredPoints } from '@shaftwork/sim-core/parts/propeller/measured-points';
import { describe, expect, it } from 'vitest';

const diameter = 0.2;
const density = 1.2;
const turns = (n: number) => 2 * Math.PI * n;
const static_ = (n: number, ct: number, cp: number) => ({
  angularSpeed: turns(n),
  thrust: ct * density * n ** 2 * diameter ** 4,
  torque: (cp * density * n ** 2 * diameter ** 5) / (2 * Math.PI),
});

describe('coefficients from measured points', () => {
  it('inverts the square law of one point, by torque or by shaft power', () => {
    const point = static_(100, 0.11, 0.05);
    const { table, thrustResidual } = tableFromMeasuredPoints([point], diameter, density);
    expect(table.thrust[0]).toBeCloseTo(0.11, 12);
    expect(table.power[0]).toBeCloseTo(0.05, 12);
    expect(thrustResidual).toBe(0);
    const byPower = { angularSpeed: point.angularSpeed, thrust: point.thrust, shaftPower: point.torque * point.angularSpeed };
    expect(tableFromMeasuredPoints([byPower], diameter, density).table.power[0]).toBeCloseTo(0.05, 12);
  });
  it('fits several static points by least squares over n² and reports the residual', () => {
    const points = [static_(50, 0.1, 0.05), static_(100, 0.12, 0.05)];
    const { table, thrustResidual, powerResidual } = tableFromMeasuredPoints(points, diameter, density);
    const fitted = (0.1 * 50 ** 4 + 0.12 * 100 ** 4) / (50 ** 4 + 100 ** 4);
    expect(table.thrust[0]).toBeCloseTo(fitted, 12);
    expect(thrustResidual).toBeCloseTo(Math.sqrt(((0.1 / fitted - 1) ** 2 + (0.12 / fitted - 1) ** 2) / 2), 12);
    expect(powerResidual).toBeCloseTo(0, 12);
  });
  it('makes a table of points under way, whatever their order', () => {
    const moving = { ...static_(100, 0.05, 0.04), advanceSpeed: 10 };
    const { table } = tableFromMeasuredPoints([moving, static_(100, 0.1, 0.05), static_(90, 0.1, 0.05)], diameter, density);
    expect([...table.advanceRatio.slice(0, 2)]).toEqual([0, 0.5]);
    expect(table.supported).toEqual({ from: 0, to: 0.5 });
    expect(table.thrust[1]).toBeCloseTo(0.05, 12);
  });
  it('estimates the missing one of thrust and power at rest by the figure of merit, and says so', () => {
    const point = static_(100, 0.1, 0.05);
    const { angularSpeed, thrust, torque } = point;
    const fromThrust = tableFromMeasuredPoints([{ angularSpeed, thrust }], diameter, density);
    expect(fromThrust.estimated).toBe('power');
    // ideal power T^1.5/√(2ρA) over real power is the figure of merit that was assumed
    const ideal = thrust ** 1.5 / Math.sqrt((2 * density * Math.PI * diameter ** 2) / 4);
    const power = fromThrust.table.power[0]! * density * 100 ** 3 * diameter ** 5;
    expect(ideal / power).toBeCloseTo(STATIC_FIGURE_OF_MERIT.value, 12);
    const back = tableFromMeasuredPoints([{ angularSpeed, shaftPower: power }], diameter, density);
    expect(back.estimated).toBe('thrust');
    expect(back.table.thrust[0]).toBeCloseTo(0.1, 12);
    expect(tableFromMeasuredPoints([{ angularSpeed, thrust, torque }], diameter, density).estimated).toBeUndefined();
  });
  it('takes torque and shaft power that agree within 2 %', () => {
    const both = (shaftPower: number) => () =>
      tableFromMeasuredPoints([{ angularSpeed: 1000, thrust: 1, torque: 0.05, shaftPower }], diameter, density);
    for (const shaftPower of [50 / 1.019, 50 / 0.981]) expect(both(shaftPower)).not.toThrow();
    for (const shaftPower of [50 / 1.021, 50 / 0.979]) expect(both(shaftPower)).toThrow(/torque times speed is 50 W/);
  });
  it('takes advance ratios within 0.005 as one, at their mean; what is under 0.03 is at rest', () => {
    const moving = (advanceRatio: number, ct = 0.09) => ({ ...static_(100, ct, 0.05), advanceSpeed: advanceRatio * 100 * diameter });
    const near = tableFromMeasuredPoints([moving(0.2, 0.08), moving(0.2049, 0.07), moving(0.4, 0.05)], diameter, density).table;
    expect([...near.advanceRatio.slice(0, 2)]).toEqual([expect.closeTo(0.20245, 9), expect.closeTo(0.4, 9)]);
    expect(near.thrust[0]).toBeCloseTo(0.075, 9);
    const apart = tableFromMeasuredPoints([moving(0.2, 0.08), moving(0.2051, 0.07), moving(0.4, 0.05)], diameter, density).table;
    expect(apart.advanceRatio[1]).toBeCloseTo(0.2051, 9);
    expect(tableFromMeasuredPoints([moving(0.029)], diameter, density).carried).toBeDefined();
    expect(tableFromMeasuredPoints([moving(0.031)], diameter, density).carried).toBeUndefined();
    // two points are no single one, at rest or not
    expect(tableFromMeasuredPoints([moving(0), moving(0.4, 0.05)], diameter, density).carried).toBeUndefined();
  });
  it('goes on as in its medium', () => {
    const point = static_(100, 0.1, 0.05);
    const ends = (['air', 'water'] as const).map(
      (medium) => tableFromMeasuredPoints([point], diameter, density, medium).table.advanceRatio,
    );
    // thrust ends at 1.53 and at 1.15 times CP/CT, the eleventh row of thirteen
    expect(ends.map((row) => row[10])).toEqual([expect.closeTo(0.765, 9), expect.closeTo(0.575, 9)]);
    expect(tableFromMeasuredPoints([point], diameter, density).table.advanceRatio[10]).toBeCloseTo(0.765, 9);
  });
  it('has no residual of what was not measured', () => {
    const { angularSpeed, thrust, torque } = static_(100, 0.1, 0.05);
    expect(tableFromMeasuredPoints([{ angularSpeed, thrust }], diameter, density)).not.toHaveProperty('powerResidual');
    expect(tableFromMeasuredPoints([{ angularSpeed, torque }], diameter, density)).not.toHaveProperty('thrustResidual');
  });
  it('refuses a propeller or a fluid that is none', () => {
    for (const [d, rho] of [
      [0, 1.2],
      [0.2, 0],
      [-0.2, 1.2],
      [0.2, Number.NaN],
    ] as const)
      expect(() => tableFromMeasuredPoints([static_(100, 0.1, 0.05)], d, rho)).toThrow(/diameter and density/);
  });
  it.each([
    ['no points', [], /at least one/],
    ['a standing shaft', [{ angularSpeed: 0, thrust: 1 }], /point 1: the shaft speed/],
    ['nothing measured', [{ angularSpeed: 100 }], /neither thrust nor torque/],
    ['torque against power', [{ angularSpeed: 100, torque: 1, shaftPower: 50 }], /give one of them/],
    ['not a number', [{ angularSpeed: 100, thrust: Number.NaN }], /not a finite number/],
    ['flow from behind', [{ angularSpeed: 100, thrust: 1, advanceSpeed: -1 }], /must not be negative/],
    ['power unknown under way', [{ angularSpeed: 100, thrust: 1, advanceSpeed: 5 }], /power is missing/],
    ['negative power only', [{ angularSpeed: 100, torque: -1 }], /positive power/],
    ['an endless speed', [{ angularSpeed: Number.POSITIVE_INFINITY, thrust: 1 }], /point 1: the shaft speed/],
    ['an endless stream', [{ angularSpeed: 100, thrust: 1, torque: 1, advanceSpeed: Number.POSITIVE_INFINITY }], /speed of advance/],
    ['power that is no number', [{ angularSpeed: 100, shaftPower: Number.NaN }], /point 1 holds a value/],
    ['negative thrust only', [{ angularSpeed: 100, thrust: -1 }], /positive thrust/],
    [
      'a quantity at one advance ratio only',
      [
        { angularSpeed: 100, thrust: 1, torque: 1 },
        { angularSpeed: 100, torque: 1, advanceSpeed: 5 },
      ],
      /same quantities/,
    ],
  ])('refuses %s', (_, points, message) => {
    expect(() => tableFromMeasuredPoints(points, diameter, density)).toThrow(message);
  });
});
