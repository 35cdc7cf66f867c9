/**
 * A bench that was never built: a motor of known constants, its propellers, a supply and instruments with gains and scatter. The point of
 * balance is sought by halving on the laws as written in a textbook, apart from the program's own solution.
 * @module
 */
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import type { BenchRows } from '../../packages/sim-core/src/questions/identify/bench-rows.js';
import { INSTRUMENTS, type InstrumentId, scatterOf } from '../../packages/sim-core/src/questions/identify/instruments.js';

export interface TrueMotor {
  /** k [N·m/A], R and controller path together [Ω], L [H]. */
  readonly kt: number;
  readonly resistance: number;
  readonly inductance: number;
  readonly polePairs: number;
  /** M_0 [N·m], m_1 [N·m·s]. */
  readonly constantLoss: number;
  readonly speedLoss: number;
  /** κ [s], I_0 [A]. */
  readonly ripple: number;
  readonly idle: number;
  /** Something that the program's laws leave out: loss torque per speed squared [N·m·s²]. */
  readonly windage?: number;
}

export interface Point {
  readonly supply: number;
  readonly duty: number;
  /** Torque per speed squared [N·m·s²], 0 for a bare shaft; thrust likewise. */
  readonly propeller: { readonly name: string; readonly torque: number; readonly thrust: number } | undefined;
}

/** Speed, bus current, torque and thrust of one point. */
export function balance(m: TrueMotor, { supply, duty, propeller }: Point) {
  const q = propeller?.torque ?? 0;
  const at = (w: number) => {
    const i = (q * w * w + m.constantLoss + m.speedLoss * w + (m.windage ?? 0) * w * w) / m.kt;
    const v = m.resistance * i + m.kt * w + 0.8 * 1e-6 * 16e3;
    return { i, v, u: v + (3 / (2 * Math.PI)) * m.polePairs * m.inductance * w * i };
  };
  let [low, high] = [0, supply / m.kt];
  for (let k = 0; k < 80; k++) {
    const middle = 0.5 * (low + high);
    if (at(middle).u < duty * supply) low = middle;
    else high = middle;
  }
  const { i, v } = at(low);
  const bus = (v * i) / supply + 0.5 * 200e-9 * 16e3 * i + m.idle + (m.ripple / m.inductance) * supply * (duty * (1 - duty)) ** 2;
  return { speed: low, current: bus, motorCurrent: i, torque: q * low * low, thrust: (propeller?.thrust ?? 0) * low * low };
}

/** Rows as the instruments read them; `exact` reads without error. */
export function madeBench(
  motor: TrueMotor,
  points: readonly Point[],
  seed: number,
  {
    read = ['voltage', 'current', 'speed', 'thrust'],
    exact = false,
    noise = 1,
    gainsOf = seed,
  }: { readonly read?: readonly InstrumentId[]; readonly exact?: boolean; readonly noise?: number; readonly gainsOf?: number } = {},
): BenchRows {
  const random = seededRandom(seed, 3);
  const normal = () => (exact ? 0 : inverseNormal(random.fraction()));
  const own = seededRandom(gainsOf, 4);
  const gains = new Map(read.map((id) => [id, 1 + (INSTRUMENTS[id].gain / 1.959964) * (exact ? 0 : inverseNormal(own.fraction()))]));
  const propellers = [...new Set(points.flatMap(({ propeller }) => (propeller === undefined ? [] : [propeller.name])))];
  const columns = new Map(read.map((id) => [id, new Float64Array(points.length)]));
  points.forEach((point, k) => {
    const found = { ...balance(motor, point), voltage: point.supply };
    for (const id of read) columns.get(id)![k] = found[id] / gains.get(id)! + noise * scatterOf(INSTRUMENTS[id], found[id]) * normal();
  });
  return {
    time: Float64Array.from(points, (_, k) => k),
    timed: false,
    read: Object.fromEntries(columns),
    duty: Float64Array.from(points, ({ duty }) => duty),
    winding: new Float64Array(points.length).fill(Number.NaN),
    propeller: Int32Array.from(points, ({ propeller }) => (propeller === undefined ? -1 : propellers.indexOf(propeller.name))),
    propellers,
  };
}
