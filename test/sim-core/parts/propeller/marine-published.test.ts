/** The screw series’ correction for Reynolds number, term by term as it was published, and the parabola from no thrust to a screw held still. */
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { lockedScrew, marineTable } from '@shaftwork/sim-core/parts/propeller/marine-coasting';
import { MARINE_SERIES_RANGE, marineOpenWater, marinePoint, marineRangeProblems } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { evaluatePolynomial, polynomialSlope } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { expect, it } from 'vitest';

type Term = readonly [coefficient: number, log: number, j: number, pitch: number, area: number, blades: number];
/** M. W. C. Oosterveld & P. van Oossanen, Int. Shipbuilding Progress 22, 1975, table 6, in the order of print (from memory): powers of log Rn − 0.301, J, P/D, AE/A0, Z. */
const THRUST: readonly Term[] = [
  [0.000353485, 0, 0, 0, 0, 0],
  [-0.00333758, 0, 2, 0, 1, 0],
  [-0.00478125, 0, 1, 1, 1, 0],
  [0.000257792, 2, 2, 0, 1, 0],
  [0.0000643192, 1, 2, 6, 0, 0],
  [-0.0000110636, 2, 2, 6, 0, 0],
  [-0.0000276305, 2, 2, 0, 1, 1],
  [0.0000954, 1, 1, 1, 1, 1],
  [0.0000032049, 1, 1, 3, 1, 2],
];
const TORQUE: readonly Term[] = [
  [-0.000591412, 0, 0, 0, 0, 0],
  [0.00696898, 0, 0, 1, 0, 0],
  [-0.0000666654, 0, 0, 6, 0, 1],
  [0.0160818, 0, 0, 0, 2, 0],
  [-0.000938091, 1, 0, 1, 0, 0],
  [-0.00059593, 1, 0, 2, 0, 0],
  [0.0000782099, 2, 0, 2, 0, 0],
  [0.0000052199, 1, 2, 0, 1, 1],
  [-0.00000088528, 2, 1, 1, 1, 1],
  [0.0000230171, 1, 0, 6, 0, 1],
  [-0.00000184341, 2, 0, 6, 0, 1],
  [-0.00400252, 1, 0, 0, 2, 0],
  [0.000220915, 2, 0, 0, 2, 0],
];
const screws = [
  { blades: 3, areaRatio: 0.6, pitchRatio: 1.15 },
  { blades: 5, areaRatio: 0.9, pitchRatio: 0.8 },
];

it.each([3e6, 1e8])('what a Reynolds number of %d adds to KT and KQ', (reynolds) => {
  for (const screw of screws) {
    const plain = marineOpenWater(screw);
    const corrected = marineOpenWater(screw, reynolds);
    const log = Math.log10(reynolds) - 0.301;
    for (const j of [0, 0.3, 0.7]) {
      const sum = (terms: readonly Term[]): number =>
        terms.reduce(
          (all, [c, l, n, p, a, z]) => all + c * log ** l * j ** n * screw.pitchRatio ** p * screw.areaRatio ** a * screw.blades ** z,
          0,
        );
      expect(evaluatePolynomial(corrected.thrust, j) - evaluatePolynomial(plain.thrust, j)).toBeCloseTo(sum(THRUST), 12);
      expect(evaluatePolynomial(corrected.torque, j) - evaluatePolynomial(plain.torque, j)).toBeCloseTo(sum(TORQUE), 12);
    }
  }
});

it('a point of the series: efficiency is J·KT/(2π·KQ)', () => {
  const { thrustCoefficient, torqueCoefficient, efficiency } = marinePoint(marineOpenWater(screws[0]), 0.6);
  expect(efficiency).toBeCloseTo((0.6 * thrustCoefficient) / (2 * Math.PI * torqueCoefficient), 12);
  expect(efficiency).toBeGreaterThan(0.5);
});

it('both ends of the series are in it; what is not is told by name, with what it has', () => {
  const { blades, areaRatio, pitchRatio } = MARINE_SERIES_RANGE;
  for (const end of ['from', 'to'] as const)
    expect(marineRangeProblems({ blades: blades[end], areaRatio: areaRatio[end], pitchRatio: pitchRatio[end] })).toEqual([]);
  expect(marineRangeProblems({ blades: 8, areaRatio: 0.2, pitchRatio: 0.4 })).toEqual([
    'the B-series has screws of 2 to 7 blades, not 8',
    'the B-series covers area ratios of 0.3 to 1.05, not 0.2',
    'the B-series covers pitch ratios of 0.5 to 1.4, not 0.4',
  ]);
});

it('a screw held still is flat plates at 0.7 R: −π/8·AE/A0·1.2, along by cos φ and round by sin φ at 0.35 D (from memory)', () => {
  const locked = lockedScrew(screws[0]);
  const angle = Math.atan(1.15 / (0.7 * Math.PI));
  expect(locked.thrust).toBeCloseTo(-(Math.PI / 8) * 0.6 * 1.2 * Math.cos(angle), 12);
  expect(locked.torque).toBeCloseTo(-(Math.PI / 8) * 0.6 * 1.2 * Math.sin(angle) * 0.35, 12);
});

it('past no thrust both run as parabolas with the locked screw for their square, from value and slope there, and are held from 30 J0 on', () => {
  const out = emptyCoefficients();
  for (const screw of screws) {
    const { thrust, torque, zeroThrust: end } = marineOpenWater(screw);
    const table = marineTable(screw);
    const locked = lockedScrew(screw);
    const beyond = (cubic: readonly number[], square: number, j: number): number =>
      evaluatePolynomial(cubic, end) + polynomialSlope(cubic, end) * (j - end) + square * (j - end) ** 2;
    for (const times of [1.5, 6, 30]) {
      evaluateTable(table, times * end, 0, out);
      expect(out.thrustCoefficient / beyond(thrust, locked.thrust, times * end)).toBeCloseTo(1, 9);
      expect(out.powerCoefficient / (2 * Math.PI) / beyond(torque, locked.torque, times * end)).toBeCloseTo(1, 9);
    }
    evaluateTable(table, 90 * end, 0, out);
    expect(out.thrustCoefficient / (9 * beyond(thrust, locked.thrust, 30 * end))).toBeCloseTo(1, 9);
  }
});
