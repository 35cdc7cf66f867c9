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
  it.each([
    ['no points', [], /at least one/],
    ['a standing shaft', [{ angularSpeed: 0, thrust: 1 }], /point 1: the shaft speed/],
    ['nothing measured', [{ angularSpeed: 100 }], /neither thrust nor torque/],
    ['torque against power', [{ angularSpeed: 100, torque: 1, shaftPower: 50 }], /give one of them/],
    ['not a number', [{ angularSpeed: 100, thrust: Number.NaN }], /not a finite number/],
    ['flow from behind', [{ angularSpeed: 100, thrust: 1, advanceSpeed: -1 }], /must not be negative/],
    ['power unknown under way', [{ angularSpeed: 100, thrust: 1, advanceSpeed: 5 }], /power is missing/],
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
