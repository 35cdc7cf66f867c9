/** The numbers that people know a motor by, from the unknowns of its fit: Kv, resistances, no-load currents, what controller and propellers take. @module */
import type { Fit } from '../../numerics/least-squares.js';
import { usualShare } from '../../provenance/written.js';
import type { FoundNumber } from '../../results/identify-result.js';
import type { BenchRows } from './bench-rows.js';
import type { MotorModel } from './motor-model.js';

/** A number that follows from the fit's values. */
export interface Derived extends Pick<FoundNumber, 'key' | 'words' | 'dimension' | 'of' | 'at'> {
  /** Unknown whose profile may be taken, where it is one. */
  readonly profile?: string;
  /** Doubt of what is taken off or used beside the fit: standard deviation of the logarithm [1]. */
  readonly beside?: number;
  readonly value: (x: ReadonlyMap<string, number>) => number;
  /** Worth of a sheet or rule, half-width as a share [1]. */
  readonly usual: number;
}

/** What the controller’s path takes of the whole resistance [Ω], and the standard deviation of its logarithm. */
export interface Path {
  readonly resistance: number;
  readonly deviation: number;
}

export const namedValues = (model: MotorModel, z: ArrayLike<number>): ReadonlyMap<string, number> => {
  const values = model.values(z);
  return new Map(model.list.map(({ key }, j) => [key, values[j]]));
};

export function derivedNumbers(rows: BenchRows, model: MotorModel, fit: Fit, path: Path): Derived[] {
  const get = (x: ReadonlyMap<string, number>, key: string): number => x.get(key) ?? Number.NaN;
  const volts = Array.from(rows.read.voltage ?? []);
  const [low, high] = [Math.min(...volts), Math.max(...volts)];
  const whole = get(namedValues(model, fit.deviates), 'resistance');
  const rule = (key: string): number =>
    Math.expm1((model.list.find((each) => each.key === key)?.deviation ?? 0) * fit.quantile) * RULE_LEFT;
  const noLoad =
    (voltage: number) =>
    (x: ReadonlyMap<string, number>): number => {
      const [k, r, constant, perSpeed] = [get(x, 'kt'), get(x, 'resistance'), get(x, 'constantLoss'), get(x, 'speedLoss')];
      // v = R·i + k·ω and k·i = M_0 + m_1·ω together
      return (constant + (perSpeed * voltage) / k) / (k + (perSpeed * r) / k);
    };
  const voltages = high - low > 0.1 * high ? [low, high] : [high];
  const fastest = (p: number): number => Math.max(...Array.from(rows.read.speed ?? [], (w, k) => (rows.propeller[k] === p ? w : 0)));
  return [
    { key: 'kv', words: 'Kv', dimension: 'speedConstant', profile: 'kt', value: (x) => 1 / get(x, 'kt'), usual: usualShare('motor.kv') },
    {
      key: 'whole',
      words: 'resistance of winding, leads and controller',
      dimension: 'resistance',
      profile: 'resistance',
      value: (x) => get(x, 'resistance'),
      usual: usualShare('motor.resistance'),
    },
    {
      key: 'resistance',
      words: 'winding resistance, the controller’s path taken off',
      dimension: 'resistance',
      value: (x) => Math.max(LEAST_WINDING * get(x, 'resistance'), get(x, 'resistance') - path.resistance),
      beside: (path.deviation * path.resistance) / Math.max(LEAST_WINDING * whole, whole - path.resistance),
      usual: usualShare('motor.resistance'),
    },
    {
      key: 'inductance',
      words: 'inductance between leads',
      dimension: 'inductance',
      value: (x) => get(x, 'inductanceTime') * get(x, 'resistance'),
      usual: rule('inductanceTime'),
    },
    ...voltages.map(
      (voltage): Derived => ({
        key: 'noLoad',
        at: { dimension: 'voltage', value: voltage },
        words: 'current without load',
        dimension: 'current',
        value: noLoad(voltage),
        usual: usualShare('motor.no_load.current'),
      }),
    ),
    {
      key: 'idle',
      words: 'current of the controller itself',
      dimension: 'current',
      profile: 'idle',
      value: (x) => get(x, 'idle'),
      usual: rule('idle'),
    },
    {
      key: 'ripple',
      at: { dimension: 'voltage', value: high },
      words: 'loss that chopping adds at half throttle',
      dimension: 'power',
      value: (x) => ((get(x, 'ripple') / (get(x, 'inductanceTime') * get(x, 'resistance'))) * high * high) / 16,
      usual: rule('ripple'),
    },
    ...rows.propellers.flatMap((name, p): Derived[] => [
      {
        key: 'torque',
        of: name,
        at: { dimension: 'angularSpeed', value: fastest(p) },
        words: 'torque',
        dimension: 'torque',
        value: (x) => get(x, `torque:${name}`) * fastest(p) ** 2,
        usual: PROPELLER_BY_SIZE,
      },
      ...(rows.read.thrust === undefined
        ? []
        : [
            {
              key: 'thrust',
              of: name,
              at: { dimension: 'angularSpeed', value: fastest(p) },
              words: 'thrust',
              dimension: 'force',
              value: (x: ReadonlyMap<string, number>) => get(x, `thrust:${name}`) * fastest(p) ** 2,
              usual: PROPELLER_BY_SIZE,
            } as const,
          ]),
    ]),
  ];
}
/** A rule's number is told where its interval is at most this much of the rule's own [1]. */
const RULE_LEFT = 0.6;
/** What diameter and pitch alone say of a propeller (docs/validation.md), half-width as a share [1]. */
const PROPELLER_BY_SIZE = 0.4;
/** Share of the whole resistance that the winding has at least [1]. */
const LEAST_WINDING = 0.1;
