/** How a propeller is carried past its data: where its thrust ends, level with its last row there, by the mean curve beyond. */
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { carriedPast, carriedToSpeed, FALL_WITH_SPEED } from '@shaftwork/sim-core/parts/propeller/fall-with-speed';
import { tableAt } from '@shaftwork/sim-core/parts/propeller/table-fan';
import { describe, expect, it } from 'vitest';

const out = emptyCoefficients();
const row = (advanceRatio: number, thrustCoefficient: number, powerCoefficient: number) => ({
  advanceRatio,
  thrustCoefficient,
  powerCoefficient,
});
const usual = (medium: 'air' | 'water', share: number) => {
  const found = FALL_WITH_SPEED[medium].rows.find(([x]) => x === share);
  if (found === undefined) throw new Error(`no row at ${share}`);
  return { thrust: found[1], power: found[2] };
};
const at = (table: Parameters<typeof evaluateTable>[0], advanceRatio: number) => {
  evaluateTable(table, advanceRatio, 0, out);
  return { thrust: out.thrustCoefficient, power: out.powerCoefficient };
};

describe('past the last row', () => {
  // the line through the last two rows meets nothing at 0.8: the last row, 0.4, is half way there
  const table = carriedPast([row(0.2, 0.09, 0.05), row(0.4, 0.06, 0.045)], 'air');

  it('thrust ends where the line through the last two rows does', () => {
    expect(at(table, 0.8).thrust).toBeCloseTo(0, 12);
    expect(at(table, 0.8 * 0.9).thrust).toBeGreaterThan(0);
  });

  it('thrust and power go on from the last row by the ratios of the mean curve', () => {
    const here = usual('air', 0.5);
    for (const share of [0.6, 0.8, 1, 1.2, 1.4]) {
      const there = usual('air', share);
      expect(at(table, share * 0.8).thrust).toBeCloseTo((0.06 * there.thrust) / here.thrust, 12);
      expect(at(table, share * 0.8).power).toBeCloseTo((0.045 * there.power) / here.power, 12);
    }
    expect(table.supported).toEqual({ from: 0.2, to: 0.4 });
  });

  it('between two rows of the curve the level is read by a straight line', () => {
    // ends at 0.64 where 0.4 is 0.625 of the way
    const steep = carriedPast([row(0.2, 0.11, 0.05), row(0.4, 0.06, 0.045)], 'water');
    const [before, after] = [usual('water', 0.6), usual('water', 0.7)];
    const level = before.thrust + 0.25 * (after.thrust - before.thrust);
    expect(at(steep, 0.64 * 0.8).thrust).toBeCloseTo((0.06 * usual('water', 0.8).thrust) / level, 12);
  });

  it('ends within 1.05 and 2 of the last row, however flat or steep the last two are', () => {
    expect(at(carriedPast([row(0.2, 0.0605, 0.045), row(0.4, 0.06, 0.045)], 'air'), 0.8).thrust).toBeCloseTo(0, 12);
    expect(at(carriedPast([row(0.2, 0.03, 0.045), row(0.4, 0.06, 0.045)], 'air'), 0.8).thrust).toBeCloseTo(0, 12);
    expect(at(carriedPast([row(0.39, 0.09, 0.06), row(0.4, 0.01, 0.045)], 'air'), 0.42).thrust).toBeCloseTo(0, 12);
    expect(at(carriedPast([row(0.4, 0.06, 0.045)], 'air'), 0.8).thrust).toBeCloseTo(0, 12);
  });

  it('nothing is added to what no longer pulls', () => {
    expect(carriedPast([row(0.2, 0.05, 0.04), row(0.4, 0, 0.02)], 'air').advanceRatio).toHaveLength(2);
    expect(carriedPast([row(0.2, 0.05, 0.04), row(0.4, -0.01, 0.02)], 'air').supported).toEqual({ from: 0.2, to: 0.4 });
  });
});

it.each(['air', 'water'] as const)('in %s thrust and power fall all the way, and past the end of thrust both are given back', (medium) => {
  const { rows } = FALL_WITH_SPEED[medium];
  rows.forEach(([share, thrust, power], k) => {
    if (share > 1) expect([thrust < 0, power < 0]).toEqual([true, true]);
    if (k > 0) expect([share > rows[k - 1][0], thrust < rows[k - 1][1]]).toEqual([true, true]);
    // in air power rises by a hundredth at first
    if (k > 1) expect(power).toBeLessThan(rows[k - 1][2]);
  });
  expect(rows[0]).toEqual([0, 1, 1]);
  expect(usual(medium, 1).thrust).toBe(0);
});

describe('from rest', () => {
  it.each(['air', 'water'] as const)('in %s thrust ends at k·CP/CT and all rows stand at their shares of it', (medium) => {
    const { reach, reachError, rows } = FALL_WITH_SPEED[medium];
    const fan = carriedToSpeed(row(0, 0.1, 0.05), medium);
    const end = reach * 0.5;
    for (const [share, thrust, power] of rows) {
      expect(at(fan.table, share * end).thrust).toBeCloseTo(0.1 * thrust, 12);
      expect(at(fan.table, share * end).power).toBeCloseTo(0.05 * power, 12);
    }
    expect([fan.middle, fan.step, fan.farthest]).toEqual([0, reachError, 1]);
    // a reach that is longer by e^x: the same thrust at e^x times the advance ratio, where a row meets a row
    const longer = tableAt(fan, fan.step);
    expect(at(longer, 0).thrust).toBeCloseTo(0.1, 12);
    // e^−0.38 is 0.68 of the way, e^−0.17 0.84: between the rows on either side
    const [before, after] = medium === 'air' ? [0.6, 0.7] : [0.8, 0.9];
    for (const [what, from] of [
      ['thrust', 0.1],
      ['power', 0.05],
    ] as const) {
      expect(at(longer, end)[what]).toBeLessThan(from * usual(medium, before)[what]);
      expect(at(longer, end)[what]).toBeGreaterThan(from * usual(medium, after)[what]);
    }
    // past the end of the rows the shorter one grows with the square of the advance ratio
    const shorter = tableAt(fan, -fan.step);
    const last = rows[rows.length - 1];
    expect(at(shorter, 1.4 * end).thrust).toBeCloseTo(0.1 * last[1] * Math.exp(2 * reachError), 9);
  });

  it('wants thrust and power above nought, and no less power than momentum theory', () => {
    expect(() => carriedToSpeed(row(0, 0, 0.05), 'air')).toThrow(/positive thrust and takes power/);
    expect(() => carriedToSpeed(row(0, 0.1, 0), 'air')).toThrow(/positive thrust and takes power/);
    // hover: ½·CT·√(8·CT/π) = 0.02523 at CT 0.1 (Leishman, ch. 2, from memory), a tenth below it is a slip of measuring
    expect(() => carriedToSpeed(row(0, 0.1, 0.0224), 'air')).toThrow(/momentum theory/);
    expect(() => carriedToSpeed(row(0, 0.1, 0.0229), 'air')).not.toThrow();
  });

  it('momentum theory at speed: CP ≥ ½·CT·(J + √(J² + 8·CT/π))', () => {
    const least = 0.5 * 0.05 * (0.4 + Math.sqrt(0.16 + 0.4 / Math.PI));
    const rows = (power: number) => [row(0, 0.05, 0.05), row(0.4, 0.05, power)];
    expect(() => carriedPast(rows(0.89 * least), 'air')).toThrow(/advance ratio 0.400 .* coefficient of 0.0500 /);
    expect(() => carriedPast(rows(0.91 * least), 'air')).not.toThrow();
  });
});
