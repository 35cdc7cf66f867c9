/** A motor on a bench at steady points: what is predicted, in many draws, for a held throttle or shaft speed at a supply's voltage. */
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import { createKernel } from '../../packages/sim-core/src/kernel/kernel.js';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { type Draw, NOMINAL, realiser } from '../../packages/sim-core/src/provenance/realise.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';
import { quantile } from '../quantile.js';
import type { Compared } from './validation.js';

export interface BenchPoint {
  readonly speed: number;
  readonly power: number;
  readonly current: number;
  readonly thrust: number;
}

const DRAWS = 400;

/** The only candidate of a scenario's text, ready to be drawn. */
export function benchSystem(text: string): (draw?: Draw) => DriveSystem {
  const preparation = prepareScenario(new Map([['bench.yaml', text]]), 'bench.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  return realiser(preparation.prepared.candidates[0]!.data);
}

/** The same on a supply of `voltage` [V], whatever the scenario's own says. */
export const onSupply = (system: DriveSystem, voltage: number): DriveSystem => ({
  ...system,
  battery: { ...system.battery, voltageOffset: voltage },
});

export function steady(system: DriveSystem, hold: 'throttle' | 'shaftSpeed', value: number): BenchPoint {
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  kernel.begin({ duration: 1, hold, value: { from: value, to: value } }, 0, false);
  kernel.solve(0, y);
  const { point } = kernel;
  return { speed: point.speed, power: point.busVoltage * point.packCurrent, current: point.packCurrent, thrust: point.thrust };
}

/** Draws that one seed makes, each the same at every point it is asked at. */
export function draws(seed: number): readonly Draw[] {
  const random = seededRandom(seed, 1);
  return Array.from({ length: DRAWS }, () => {
    const found = new Map<string, number>();
    return (key: string) => {
      const known = found.get(key) ?? inverseNormal(random.fraction());
      found.set(key, known);
      return known;
    };
  });
}

/** Nominal and 5–95 % of each figure against what was measured. */
export function compare(
  make: (draw?: Draw) => DriveSystem,
  drawn: readonly Draw[],
  at: (system: DriveSystem) => BenchPoint,
  measured: BenchPoint,
): { readonly [K in keyof BenchPoint]: Compared } {
  const nominal = at(make(NOMINAL));
  const points = drawn.map((draw) => at(make(draw)));
  const of = (figure: keyof BenchPoint): Compared => {
    const values = points.map((point) => point[figure]);
    return { predicted: nominal[figure], measured: measured[figure], low: quantile(values, 0.05), high: quantile(values, 0.95) };
  };
  return { speed: of('speed'), power: of('power'), current: of('current'), thrust: of('thrust') };
}
