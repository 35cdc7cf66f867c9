/**
 * A fleet of identified motors: how far labels, sheets and rules are off for it, learnt by partial pooling, in place of what is usually so.
 *
 *   (1) x_i = ln(measured/said) of motor i, with its error s_i:  x_i ~ N(μ, τ² + s_i²),  μ ~ N(0, c²)
 *   (2) V = 1/(1/c² + Σ 1/(τ² + s_i²)),  μ̂ = V·Σ x_i/(τ² + s_i²),  p(τ | x) ∝ p(τ)·√V·Π (τ² + s_i²)^(−½)·exp(−½·(Σ x_i²/(τ² + s_i²) − μ̂²/V))
 *   (3) means over τ: what is said moves by μ̂, common error V and the scatter of μ̂, own error τ²
 *
 * c and the middle of p(τ), a log-normal of factor e^½, are the common and own error of the rule; of a label or sheet, whose error has no parts, half the
 * variance each (judgement). *Holds for* motors of the kind of those in the fleet.
 * *Source* A. Gelman et al., Bayesian Data Analysis, 3rd ed., 2013, section 5.4, eqs. 5.20–5.21, here with a prior on μ (from memory).
 *
 * @module
 */
import { throughFlowConductance } from '../heat/heat-network.js';
import { type Dimension, deviationOf, logNormal95, ROOM_TEMPERATURE, type Spread } from '../quantities/index.js';
import type { Datum } from './datum.js';
import { type GivenMotor, writtenResistance } from './given.js';
import { CHOICES } from './rules/choices.js';
import { RULES } from './rules/rules.js';
import { usualShare } from './written.js';

/** What a fleet can tell: rules, and what stands on labels and sheets. */
const RULES_LEARNT = ['inrunner-slot-contact', 'outrunner-slot-contact', 'through-flow'] as const;
const SAID_LEARNT = ['motor.kv', 'motor.resistance'] as const;
/** What a fleet of identified motors tells of. */
export type FleetKey = (typeof RULES_LEARNT)[number] | (typeof SAID_LEARNT)[number];

/** One motor's x and s of (1). */
export interface FleetRatio {
  readonly log: number;
  readonly error: number;
}

/** (3): logarithm that what is said moves by, and the errors left. */
export interface Pooled {
  /** Mean of ln(measured over said) [1]. */
  readonly shift: number;
  /** Standard deviation that all of the fleet share [1]. */
  readonly common: number;
  /** Standard deviation from motor to motor [1]. */
  readonly own: number;
}

/** What was learnt, and from what, in words. */
export type Fleet = ReadonlyMap<FleetKey, Pooled & { readonly by: string }>;

const STEP = 0.25;
const FAR = 4;
const TAU_FACTOR = 0.5;

/** (1)–(3); the prior itself where there are no motors. */
export function pooled(ratios: readonly FleetRatio[], prior: { readonly common: number; readonly own: number }): Pooled {
  if (ratios.length === 0) return { shift: 0, ...prior };
  const nodes = Array.from({ length: (2 * FAR) / STEP + 1 }, (_, k) => {
    const g = k * STEP - FAR;
    const tau = prior.own * Math.exp(TAU_FACTOR * g);
    const variances = ratios.map(({ error }) => tau * tau + error * error);
    const sum = (of: (x: number) => number): number => ratios.reduce((total, { log }, i) => total + of(log) / variances[i], 0);
    const variance = 1 / (1 / prior.common ** 2 + sum(() => 1));
    const mean = variance * sum((x) => x);
    const log =
      -0.5 * g * g +
      0.5 * Math.log(variance) -
      0.5 * variances.reduce((total, each) => total + Math.log(each), 0) -
      0.5 * (sum((x) => x * x) - (mean * mean) / variance);
    return { tau, variance, mean, log };
  });
  const top = Math.max(...nodes.map(({ log }) => log));
  const weights = nodes.map(({ log }) => Math.exp(log - top));
  const total = weights.reduce((a, b) => a + b, 0);
  const over = (of: (node: (typeof nodes)[number]) => number): number =>
    nodes.reduce((sum, node, k) => sum + weights[k] * of(node), 0) / total;
  const shift = over(({ mean }) => mean);
  return {
    shift,
    common: Math.sqrt(over(({ variance, mean }) => variance + (mean - shift) ** 2)),
    own: Math.sqrt(over(({ tau }) => tau * tau)),
  };
}

/** Every ratio that one motor tells. */
export function ratiosOf(motor: GivenMotor): ReadonlyMap<FleetKey, FleetRatio> {
  const found = new Map<FleetKey, FleetRatio>();
  const note = (key: FleetKey, measured: Datum | undefined, said: number | undefined, value = measured?.value): void => {
    if (measured === undefined || value === undefined || said === undefined || !(said > 0 && value > 0)) return;
    found.set(key, { log: Math.log(value / said), error: deviationOf(measured.unknown.spread) });
  };
  const { layout, can, thermal } = motor;
  note('motor.kv', motor.kv, motor.labelKv?.value);
  const resistance = writtenResistance(motor);
  const between = motor.resistanceBetween === 'phase-and-star' ? 2 : 1;
  const cold = RULES['resistance-at-room'].law({
    resistance: resistance?.value ?? Number.NaN,
    at: motor.resistanceAt?.value ?? ROOM_TEMPERATURE,
    coefficient: RULES['copper-coefficient'].value,
  });
  note('motor.resistance', resistance, motor.labelResistance?.value, between * cold);
  if (layout === undefined || can?.diameter === undefined || can.length === undefined) return found;
  const bore = motor.statorDiameter?.value ?? RULES[`${layout}-stator-diameter`].law({ can: can.diameter.value });
  const stack = motor.stackLength?.value ?? RULES[`${layout}-stack`].law({ can: can.length.value });
  note(
    `${layout}-slot-contact`,
    thermal?.windingToStator,
    RULES[`${layout}-slot-contact`].law({ bore, stack, poles: motor.poles ?? CHOICES[`${layout}-poles`].value }),
  );
  const flow = thermal?.statorToAir;
  const paths = { throughFlow: RULES['through-flow'].law({ bore, stack }), openness: 1, canDiameter: can.diameter.value };
  if (layout === 'outrunner' && flow?.atSpeed !== undefined)
    note('through-flow', flow.conductance, throughFlowConductance(paths, flow.atSpeed.value, 0));
  return found;
}

/** Common and own deviation of what is usually so. */
function priorOf(key: FleetKey): { readonly common: number; readonly own: number } {
  if (key === 'motor.kv' || key === 'motor.resistance') {
    const whole = deviationOf(logNormal95(usualShare(key)));
    return { common: whole * Math.SQRT1_2, own: whole * Math.SQRT1_2 };
  }
  const { common, own } = RULES[key];
  if (typeof common === 'function') throw new Error(`The rule ${key} has no one doubt.`);
  return { common: deviationOf(common), own: deviationOf(own) };
}

/** What `motors` tell, said to be those of `folder`, which `hash` tells from others; nothing of what none of them measured. */
export function fleetOf(motors: readonly GivenMotor[], folder: string, hash: string): Fleet {
  const ratios = motors.map(ratiosOf);
  return new Map(
    [...RULES_LEARNT, ...SAID_LEARNT].flatMap((key) => {
      const told = ratios.flatMap((each) => each.get(key) ?? []);
      if (told.length === 0) return [];
      const by = `${told.length} identified ${told.length === 1 ? 'motor' : 'motors'} of ${folder} (${hash})`;
      return [[key, { ...pooled(told, priorOf(key)), by }] as const];
    }),
  );
}

const logNormal = (sigma: number): Spread => ({ shape: 'log-normal', sigma });

/** A datum as the fleet has it: `common` is the key of what all such data share, `own` that of this one's part. */
export function asFleet<D extends Dimension>(
  datum: Datum<D>,
  { shift, common, own, by }: Pooled & { readonly by: string },
  keys: { readonly common: string; readonly own: string },
): Datum<D> {
  return {
    ...datum,
    value: datum.value * Math.exp(shift),
    unknown: { key: keys.common, spread: logNormal(common), offset: shift },
    own: { key: keys.own, spread: logNormal(own) },
    learnt: { before: datum, by: [by] },
  };
}

/** A motor's label and sheet, where no ± stands beside them, as the fleet has them. */
export function saidByFleet(motor: GivenMotor, fleet: Fleet): GivenMotor {
  const said = <D extends Datum>(key: FleetKey, datum: D | undefined): D | undefined => {
    const learnt = fleet.get(key);
    const usual = datum?.origin.kind === 'given' && datum.origin.usual !== undefined;
    if (datum === undefined || learnt === undefined || !usual) return datum;
    return { ...datum, ...asFleet(datum, learnt, { common: `fleet:${key}`, own: datum.unknown.key }) };
  };
  const kv = said('motor.kv', motor.kv);
  const resistance = said('motor.resistance', writtenResistance(motor));
  return { ...motor, ...(kv === undefined ? {} : { kv }), ...(resistance === undefined ? {} : { resistance }) };
}
