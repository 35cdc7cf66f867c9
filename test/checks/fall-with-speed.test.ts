import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { carriedPast, carriedToSpeed, FALL_WITH_SPEED } from '@shaftwork/sim-core/parts/propeller/fall-with-speed';
import { marineOpenWater } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { evaluatePolynomial } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { tableAt } from '@shaftwork/sim-core/parts/propeller/table-fan';
import { describe, expect, it } from 'vitest';
import { allMeasurements, isLeftOut, keptOut, propellers, zeroThrust } from './air-propeller-errors.js';

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const deviation = (values: readonly number[]): number => Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));

/** UIUC Propeller Database, vols. 1–3; citation in data/air-propellers.csv. */
describe('how ten propellers in air fall with speed', () => {
  const names = [...propellers, ...keptOut];
  const rowsOf = (name: string) => allMeasurements.filter((row) => row.propeller === name && !isLeftOut(row));
  const still = (name: string) => rowsOf(name).filter(({ run }) => run === 'static');

  it('vanishes at k times the power over the thrust at rest', () => {
    const reach = names.map((name) => {
      const fastest = still(name).reduce((a, b) => (b.turns > a.turns ? b : a));
      return (zeroThrust(name) * fastest.thrust) / fastest.power;
    });
    expect(Math.exp(mean(reach.map(Math.log)))).toBeCloseTo(FALL_WITH_SPEED.air.reach, 2);
    // 95 % of these ten, and of the 137 that the rule for doubt is from
    expect(2 * deviation(reach.map(Math.log))).toBeLessThan(FALL_WITH_SPEED.air.reachError);
  });
  it('falls on the way as the rows say', () => {
    for (const [share, thrust, power] of FALL_WITH_SPEED.air.rows.slice(1, 11)) {
      const ratios = names.flatMap((name) => {
        const end = zeroThrust(name);
        const near = rowsOf(name).filter(
          ({ run, advanceRatio }) => run !== 'static' && Math.round((10 * advanceRatio) / end) === Math.round(10 * share),
        );
        if (near.length === 0) return [];
        // against the static row of nearly the same speed
        const pairs = near.map(
          (row) => [row, still(name).reduce((a, b) => (Math.abs(b.turns - row.turns) < Math.abs(a.turns - row.turns) ? b : a))] as const,
        );
        return [
          {
            thrust: mean(pairs.map(([row, rest]) => row.thrust / rest.thrust)),
            power: mean(pairs.map(([row, rest]) => row.power / rest.power)),
          },
        ];
      });
      expect(ratios.length).toBeGreaterThanOrEqual(9);
      expect(Math.abs(mean(ratios.map((each) => each.thrust)) - thrust)).toBeLessThan(0.01);
      expect(Math.abs(mean(ratios.map((each) => each.power)) - power)).toBeLessThan(0.01);
      expect(deviation(ratios.map((each) => each.thrust))).toBeLessThan(0.07);
      expect(deviation(ratios.map((each) => each.power))).toBeLessThan(0.09);
    }
  });
});

/** M. W. C. Oosterveld & P. van Oossanen, International Shipbuilding Progress 22 (251), 1975. */
describe('how screws of the B series fall with speed', () => {
  const screws = [2, 3, 4, 5].flatMap((blades) =>
    [0.35, 0.5, 0.65, 0.8].flatMap((areaRatio) =>
      [0.6, 0.8, 1, 1.2, 1.4].map((pitchRatio) => marineOpenWater({ blades, areaRatio, pitchRatio })),
    ),
  );
  it('vanishes and falls as the rows say', () => {
    const reach = screws.map(
      ({ thrust, torque, zeroThrust: end }) => (end * evaluatePolynomial(thrust, 0)) / (2 * Math.PI * evaluatePolynomial(torque, 0)),
    );
    expect(mean(reach)).toBeCloseTo(FALL_WITH_SPEED.water.reach, 1);
    expect(2 * deviation(reach)).toBeLessThan(0.2);
    for (const [share, thrust, power] of FALL_WITH_SPEED.water.rows.slice(0, 11)) {
      const at = (take: 'thrust' | 'torque') =>
        mean(screws.map((screw) => evaluatePolynomial(screw[take], share * screw.zeroThrust) / evaluatePolynomial(screw[take], 0)));
      expect(Math.abs(at('thrust') - thrust)).toBeLessThan(0.002);
      expect(Math.abs(at('torque') - power)).toBeLessThan(0.002);
    }
  });
});

it('never gives more than it takes', () => {
  const out = emptyCoefficients();
  for (const medium of ['air', 'water'] as const)
    for (const [thrustCoefficient, powerCoefficient] of [
      [0.08, 0.03],
      [0.1, 0.05],
      [0.13, 0.1],
      [0.4, 0.35],
    ] as const) {
      const fan = carriedToSpeed({ advanceRatio: 0, thrustCoefficient, powerCoefficient }, medium);
      // useful less taken power, by the cube of speed: at most 9 tenths useful while it pulls as usual
      for (const [x, most] of [
        [0, 0.9],
        [fan.step, 1],
        [2 * fan.step, 1],
      ] as const)
        for (let j = 0.01; j < 2; j += 0.01) {
          evaluateTable(tableAt(fan, x), j, 0, out);
          if (out.thrustCoefficient > 0) expect(j * out.thrustCoefficient).toBeLessThan(most * out.powerCoefficient);
        }
      const { table } = fan;
      expect(table.supported).toEqual({ from: 0, to: 0 });
    }
});

describe('past the last row of a table', () => {
  const out = emptyCoefficients();
  it.each([
    ['that falls', [[0, 0.1, 0.04] as const, [0.5, 0.05, 0.035] as const]],
    ['that has hardly begun to fall', [[0, 0.1, 0.05] as const, [0.2, 0.099, 0.05] as const]],
    ['that rises', [[0, 0.09, 0.05] as const, [0.2, 0.1, 0.05] as const]],
    ['of one row under way', [[0.4, 0.06, 0.04] as const]],
  ])('%s, thrust vanishes, then brakes, and never does more than it takes', (_, rows) => {
    const table = carriedPast(
      rows.map(([advanceRatio, thrustCoefficient, powerCoefficient]) => ({ advanceRatio, thrustCoefficient, powerCoefficient })),
      'air',
    );
    const last = rows.at(-1)![0];
    expect(table.supported).toEqual({ from: rows[0]![0], to: last });
    evaluateTable(table, last, 0, out);
    expect(out.thrustCoefficient).toBeCloseTo(rows.at(-1)![1], 12);
    for (let j = last; j < 20 * last; j += 0.03 * last) {
      evaluateTable(table, j, 0, out);
      if (out.thrustCoefficient > 0) expect(j * out.thrustCoefficient).toBeLessThan(out.powerCoefficient);
      if (j > 2 * last) expect(out.thrustCoefficient).toBeLessThanOrEqual(0);
      if (j > 2.6 * last) expect(out.powerCoefficient).toBeLessThan(0);
    }
  });
  it('wants more than one row at rest', () => {
    expect(() => carriedPast([{ advanceRatio: 0, thrustCoefficient: 0.1, powerCoefficient: 0.04 }], 'air')).toThrow(
      /at least two advance ratios/,
    );
    expect(() => carriedPast([], 'air')).toThrow(/at least two advance ratios/);
  });
  it('is refused where momentum theory is', () => {
    const row = (thrustCoefficient: number, powerCoefficient: number) => [
      { advanceRatio: 0, thrustCoefficient, powerCoefficient },
      { advanceRatio: 0.5, thrustCoefficient: 0, powerCoefficient: 0.01 },
    ];
    expect(() => carriedPast(row(0.2, 0.02), 'air')).toThrow(/momentum theory/);
    // hover: CP = CT^1.5·√(2/π), G. Leishman, Principles of Helicopter Aerodynamics, ch. 2 (from memory)
    expect(() => carriedPast(row(0.2, 0.2 ** 1.5 * Math.sqrt(2 / Math.PI)), 'air')).not.toThrow();
  });
});
