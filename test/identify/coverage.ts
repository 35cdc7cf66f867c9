/**
 * How often the 95 % intervals hold the truth, over many made benches: npx tsx test/identify/coverage.ts 500. Gains of the instruments are drawn anew
 * with each seed.
 * @module
 */
import { fileURLToPath } from 'node:url';
import { fittedMotor } from '../../packages/sim-core/src/questions/identify/fitted-motor.js';
import { INSTRUMENTS } from '../../packages/sim-core/src/questions/identify/instruments.js';
import { motorModel } from '../../packages/sim-core/src/questions/identify/motor-model.js';
import { patternAlong } from '../../packages/sim-core/src/questions/identify/pattern.js';
import { madeBench, type Point, type TrueMotor } from './made-bench.js';

export const MADE: TrueMotor = {
  kt: 3.979e-3,
  resistance: 0.09,
  inductance: 18e-6,
  polePairs: 7,
  constantLoss: 2e-3,
  speedLoss: 8e-7,
  ripple: 9e-6,
  idle: 0.06,
};
const P1 = { name: 'P1', torque: 1.6e-8, thrust: 1.2e-6 };
const P2 = { name: 'P2', torque: 2.6e-8, thrust: 1.6e-6 };
const VOLTS = [7.4, 8.4, 9.6, 11.1, 12.6];
const times = (count: number, points: readonly Point[]): Point[] => Array.from({ length: count }, () => points).flat();

/** A bare shaft and two propellers at full throttle on five voltages, each twice. */
export const FULL_THROTTLE = times(
  2,
  [undefined, P1, P2].flatMap((propeller) => VOLTS.map((supply) => ({ supply, duty: 1, propeller }))),
);
/** Two propellers on one voltage over the throttle, each three times. */
export const PART_THROTTLE = times(
  3,
  [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1].flatMap((duty) => [P1, P2].map((propeller) => ({ supply: 11.1, duty, propeller }))),
);
export const ONE_POINT = times(20, [{ supply: 11.1, duty: 1, propeller: P1 }]);
export const SETUP = { polePairs: 7, sinusoidal: false, instruments: INSTRUMENTS, windingTemperature: 313.15 };

const TRUTH: Readonly<Record<string, number>> = {
  kt: MADE.kt,
  resistance: MADE.resistance,
  constantLoss: MADE.constantLoss,
  speedLoss: MADE.speedLoss,
  'torque:P1': P1.torque,
  'torque:P2': P2.torque,
  'thrust:P1': P1.thrust,
  inductanceTime: MADE.inductance / MADE.resistance,
};

export interface Covered {
  /** Share of seeds whose interval holds the truth [1]. */
  readonly shares: Readonly<Record<string, number>>;
  /** Share of seeds in which the laws are said to leave something out, and in which the fit did not settle [1]. */
  readonly misfit: number;
  readonly unsettled: number;
}

export function covered(points: readonly Point[], seeds: number, motor: TrueMotor = MADE): Covered {
  const hits: Record<string, number> = {};
  let [misfit, unsettled] = [0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const rows = madeBench(motor, points, seed);
    const model = motorModel(rows, SETUP);
    const fit = fittedMotor(model);
    const values = model.values(fit.deviates);
    if (!fit.settled) unsettled++;
    model.list.forEach(({ key, deviation }, j) => {
      const truth = TRUTH[key];
      if (truth === undefined) return;
      const half = fit.quantile * deviation * Math.sqrt(fit.covariance[j][j]);
      hits[key] = (hits[key] ?? 0) + (Math.abs(Math.log(values[j] / truth)) < half ? 1 : 0);
    });
    const of = model
      .compared(fit.deviates)
      .flatMap(({ reading, row }, i) =>
        reading === 'current'
          ? [{ along: rows.read.speed?.[row] ?? 0, group: String(rows.propeller[row]), left: fit.residuals[i] * fit.weights[i] }]
          : [],
      );
    if (patternAlong(of, fit.scales[1]) > 4) misfit++;
  }
  return {
    shares: Object.fromEntries(Object.entries(hits).map(([key, count]) => [key, count / seeds])),
    misfit: misfit / seeds,
    unsettled: unsettled / seeds,
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const seeds = Number(process.argv[2] ?? 500);
  for (const [words, points] of [
    ['full throttle, bare and two propellers', FULL_THROTTLE],
    ['over the throttle, two propellers', PART_THROTTLE],
  ] as const)
    console.log(words, covered(points, seeds));
}
