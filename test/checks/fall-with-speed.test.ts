/** Tables carried to speed keep to what momentum and energy allow; what they are made from is checked in outside/propellers.ts. */
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { carriedPast, carriedToSpeed } from '@shaftwork/sim-core/parts/propeller/fall-with-speed';
import { tableAt } from '@shaftwork/sim-core/parts/propeller/table-fan';
import { describe, expect, it } from 'vitest';

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
