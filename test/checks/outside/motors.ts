/**
 * Motor identities against catalogue pages of a motor maker (maxon: RE 35 48 V, RE 25 118743 12 V, EC 13 305190 and 305192): every printed constant.
 * Loaded points of EC 45 flat 50 W 18 V and 70 W 24 V (8 pole pairs, from memory) and of the EC 13 judge the law of inductance. The first are brushed or
 * slotless machines; they check identities, not hobby motors' heat. The motor constant of a mass against six outrunners of 28 to 555 g.
 * @module
 */
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import {
  loadedSpeed,
  noLoadSpeed,
  peakEfficiency,
  speedTorqueGradient,
  stallCurrent,
  windingResistance,
} from '@shaftwork/sim-core/parts/motor';
import { MOTOR_CONSTANT, MOTOR_RULES } from '@shaftwork/sim-core/provenance/rules/rules-motor';
import { RPM, ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { MOTOR_CONSTANT_FACTOR } from '@shaftwork/sim-core/questions/audit/marks';
import { FLAT, levelOf, mean, SIX, SMALL, slopeOf } from '../known-motors.js';
import { type Allowed, amount, amountBetween, type Check, once, type Point, share, shareBetween, type Topic } from './check.js';

interface Catalogue {
  readonly name: string;
  readonly volts: number;
  readonly noLoadRpm: number;
  readonly noLoadAmps: number;
  readonly nominalRpm: number;
  readonly nominalTorque: number;
  readonly stallAmps: number;
  readonly bestPercent: number;
  readonly resistance: number;
  /** mN·m/A, rpm/V, rpm/(mN·m). */
  readonly kt: number;
  readonly kn: number;
  readonly gradient: number;
  /** Digits that the stall current is printed with. */
  readonly digits: number;
}
const catalogue = ([name, ...n]: readonly [string, ...number[]]): Catalogue => ({
  name,
  volts: n[0],
  noLoadRpm: n[1],
  noLoadAmps: n[2],
  nominalRpm: n[3],
  nominalTorque: n[4],
  stallAmps: n[5],
  bestPercent: n[6],
  resistance: n[7],
  kt: n[8],
  kn: n[9],
  gradient: n[10],
  digits: n[11],
});
/** V, no-load rpm, no-load A, nominal rpm, nominal mN·m, stall A, best efficiency %, R Ω, kt mN·m/A, kn rpm/V, gradient rpm/(mN·m); digits of the stall current. */
export const CATALOGUE = (
  [
    ['RE 35', 48, 8490, 0.0786, 7760, 89.7, 19.6, 88, 2.45, 53.8, 178, 8.09, 3],
    ['RE 25', 12, 4860, 0.0263, 3800, 28.6, 5.5, 87, 2.18, 23.4, 407, 37.7, 2],
    ['EC 13 6 V', 6, 28300, 0.194, 20500, 2.2, 4.3, 63, 1.4, 1.93, 4950, 3580, 2],
    ['EC 13 12 V', 12, 27000, 0.0905, 19400, 2.3, 2.09, 63, 5.74, 4.05, 2360, 3340, 3],
  ] as const
).map(catalogue);

const PAGES = 'maxon catalogue pages';
const identity = (
  what: string,
  unit: string,
  allowed: Allowed,
  pair: (motor: Catalogue) => readonly [theirs: number, ours: number],
  which: (motor: Catalogue) => boolean = () => true,
): Check => ({
  standing: 'printed',
  source: PAGES,
  what,
  unit,
  allowed,
  points: () =>
    CATALOGUE.filter(which).map((motor): Point => {
      const [theirs, ours] = pair(motor);
      return { at: motor.name, theirs, ours };
    }),
});
const si = ({ kt, resistance }: Catalogue) => ({ torqueConstant: kt / 1000, resistance });
const stall = (motor: Catalogue): readonly [number, number] => [motor.stallAmps, stallCurrent(si(motor), motor.volts)];

interface Loaded {
  readonly name: string;
  readonly speed: number;
  readonly amps: number;
  readonly flat: boolean;
  /** Share of the printed speed and of the printed current of the supply, with this inductance [H]. */
  readonly shares: (henries: number) => readonly [number, number];
  readonly inductance: number;
}
/** V, nominal rpm, nominal mN·m, nominal A, R Ω, L mH, kt mN·m/A, no-load A, pole pairs. */
const LOADED = (
  [
    ['EC 45 flat 50 W', 18, 4690, 112, 3.68, 0.447, 0.243, 29.5, 0.277, 8],
    ['EC 45 flat 70 W', 24, 4750, 134, 3.29, 0.573, 0.301, 40.4, 0.27, 8],
    ['EC 13 6 V', 6, 20500, 2.2, 1.31, 1.4, 0.0206, 1.93, 0.194, 1],
    ['EC 13 12 V', 12, 19400, 2.3, 0.645, 5.74, 0.091, 4.05, 0.0905, 1],
  ] as const
).map(([name, volts, speed, torque, amps, resistance, millihenries, kt, noLoad, polePairs]): Loaded => {
  const motor = { torqueConstant: kt / 1000, resistance, polePairs };
  // loss torque as the no-load current says
  const current = torque / kt + noLoad;
  return {
    name,
    speed,
    amps,
    flat: polePairs > 1,
    inductance: millihenries / 1000,
    shares: (inductance) => {
      const turning = loadedSpeed({ ...motor, inductance }, false, volts, current);
      return [turning / RPM / speed, (current * (current * resistance + motor.torqueConstant * turning)) / volts / amps];
    },
  };
});

/** Two-node warm-up of the RE 35, 10 W in the winding, by the printed resistances and time constants. */
function warmUp(): readonly Point[] {
  const [housing, winding, tauWinding, tauMotor] = [6, 1.7, 16.9, 593];
  const [cw, cm] = [tauWinding / winding, tauMotor / housing];
  const y = new Float64Array(2);
  const system = {
    dimension: 2,
    eventCount: 0,
    derivative: (_: number, s: Float64Array, ds: Float64Array) => {
      ds[0] = (10 - (s[0] - s[1]) / winding) / cw;
      ds[1] = ((s[0] - s[1]) / winding - s[1] / housing) / cm;
    },
  };
  let time = 0;
  return [
    [10, 7.636],
    [60, 19.182],
    [300, 37.129],
    [600, 51.794],
    [20_000, 77.0],
  ].map(([until, rise]) => {
    integrate(system, 'odex', { relative: 1e-9, absolute: new Float64Array(2).fill(1e-9) }, time, y, until);
    time = until;
    return { at: `${until} s`, theirs: rise, ours: y[0] };
  });
}

/** Doubt of a resistance by the rule, as the logarithm of its factor, and 1.96 deviations of ln R over the six: it goes by the square of the motor constant. */
function doubtOfResistance(): readonly Point[] {
  const logs = SIX.map((motor) => Math.log(levelOf(motor)));
  const deviation = Math.sqrt((SIX.length / (SIX.length - 1)) * mean(logs.map((each) => (each - mean(logs)) ** 2)));
  const { common, own } = MOTOR_RULES['outrunner-resistance'];
  if (typeof common === 'function') throw new TypeError('its doubt depends on inputs');
  return [{ at: '', theirs: 1.96 * 2 * deviation, ours: Math.hypot(...[common, own].map((spread) => Math.log1p(halfWidth95(spread)))) }];
}
const COPPER = {
  resistance: 1,
  resistanceCoefficient: 0.00393,
  torqueConstant: 1,
  fluxCoefficient: 0,
  hysteresisTorque: 0,
  eddyTorque: 0,
  frictionTorque: 0,
  windageTorque: 0,
};
const SIX_SOURCE = 'maxon catalogue pages; StrawsonDesign, motor_propeller_testing; Kennesaw State University UAS bench (known-motors.ts)';

export const MOTORS: Topic = {
  title: 'Motors',
  checks: [
    identity('torque constant times Kv', '', share(0.005), (motor) => [1, (motor.kt / 1000) * motor.kn * RPM]),
    identity('gradient of the speed–torque line', 'rpm/(mN·m)', share(0.01), (motor) => [
      motor.gradient,
      (speedTorqueGradient(si(motor)) / RPM) * 1e-3,
    ]),
    identity('stall current, printed to two digits', 'A', share(0.025), stall, ({ digits }) => digits === 2),
    identity('stall current, printed to three digits', 'A', share(0.01), stall, ({ digits }) => digits === 3),
    identity('no-load speed', 'rpm', share(0.011), (motor) => [
      motor.noLoadRpm,
      noLoadSpeed({ torqueConstant: 1 / (motor.kn * RPM), resistance: motor.resistance }, motor.volts, motor.noLoadAmps) / RPM,
    ]),
    identity('best efficiency', '%', amount(1.1), ({ bestPercent, resistance, noLoadAmps, volts }) => [
      bestPercent,
      peakEfficiency(resistance, noLoadAmps, volts) * 100,
    ]),
    {
      standing: 'printed',
      source: `${PAGES}; pole pairs from memory`,
      what: 'loaded speed at the printed torque with the printed inductance, block drive',
      unit: 'rpm',
      allowed: share(0.03),
      points: () => LOADED.map(({ name, speed, inductance, shares }) => ({ at: name, theirs: speed, ours: shares(inductance)[0] * speed })),
    },
    {
      standing: 'printed',
      source: `${PAGES}; pole pairs from memory`,
      what: 'current of the supply at the printed torque with the printed inductance, block drive',
      unit: 'A',
      allowed: share(0.03),
      points: () => LOADED.map(({ name, amps, inductance, shares }) => ({ at: name, theirs: amps, ours: shares(inductance)[1] * amps })),
    },
    {
      standing: 'printed',
      source: `${PAGES}; pole pairs from memory`,
      what: 'speed of the two flat motors without inductance: too fast, which is what the law is for',
      unit: 'rpm',
      allowed: shareBetween(0.08, Number.POSITIVE_INFINITY),
      points: () =>
        LOADED.filter(({ flat }) => flat).map(({ name, speed, shares }) => ({ at: name, theirs: speed, ours: shares(0)[0] * speed })),
    },
    {
      standing: 'printed',
      source: `${PAGES}; pole pairs from memory`,
      what: 'current of the supply of the same two without inductance: too much',
      unit: 'A',
      allowed: shareBetween(0.08, Number.POSITIVE_INFINITY),
      points: () =>
        LOADED.filter(({ flat }) => flat).map(({ name, amps, shares }) => ({ at: name, theirs: amps, ours: shares(0)[1] * amps })),
    },
    {
      standing: 'printed',
      source: 'IEC 60034-1, rule of 234.5 K; IEC 60028, α = 0.00393/K',
      what: 'resistance of copper at 125 °C over that at 20 °C',
      allowed: share(2e-4),
      points: once((234.5 + 125) / (234.5 + 20), () => windingResistance(COPPER, ZERO_CELSIUS + 125)),
    },
    {
      standing: 'theory',
      source: 'closed form of two bodies; resistances and time constants of the catalogue page of the RE 35',
      what: 'rise of the winding under 10 W',
      unit: 'K',
      allowed: share(0.001),
      points: warmUp,
    },
    {
      standing: 'measured',
      source: SIX_SOURCE,
      what: 'motor constant that six outrunners ask for, over the rule’s: inside the mark of the audit (logarithm)',
      allowed: amount(Math.log(MOTOR_CONSTANT_FACTOR)),
      points: () => SIX.map((motor) => ({ at: motor.name, theirs: 0, ours: Math.log(levelOf(motor) / MOTOR_CONSTANT.outrunner) })),
    },
    {
      standing: 'measured',
      source: SIX_SOURCE,
      what: 'the rule’s level against their geometric mean',
      allowed: amount(0.05),
      points: () => [{ at: '', theirs: Math.exp(mean(SIX.map((motor) => Math.log(levelOf(motor))))) / MOTOR_CONSTANT.outrunner, ours: 1 }],
    },
    {
      standing: 'measured',
      source: SIX_SOURCE,
      what: 'doubt of a resistance by the rule against their scatter (logarithm of the factor)',
      allowed: share(0.1),
      points: doubtOfResistance,
    },
    // five of the six ask for 0.90; the large one, mass from memory, for more than one: too few to leave similarity, and said on the theory page
    {
      standing: 'measured',
      source: SIX_SOURCE,
      what: 'exponent of the mass, the rule’s being similarity’s: at least that',
      allowed: amountBetween(Number.NEGATIVE_INFINITY, 0),
      points: () => [{ at: 'five up to 141 g', theirs: slopeOf([...FLAT, ...SMALL]), ours: MOTOR_CONSTANT.exponent }],
    },
    {
      standing: 'measured',
      source: SIX_SOURCE,
      what: 'resistance that stands in for a missing one (logarithm of its ratio)',
      allowed: amount(Math.log(2.7)),
      points: () =>
        SIX.map(({ name, kt, resistance, mass }) => ({
          at: name,
          theirs: 0,
          ours: Math.log(MOTOR_RULES['outrunner-resistance'].law({ torqueConstant: kt, mass }) / resistance),
        })),
    },
    {
      standing: 'printed',
      source: `${PAGES}; masses from memory`,
      what: 'no-load current that stands in for a missing one (logarithm of its ratio)',
      allowed: amount(Math.log(2)),
      points: () =>
        FLAT.map(({ name, kt, noLoad, mass }) => ({
          at: name,
          theirs: 0,
          ours: Math.log(MOTOR_RULES['outrunner-no-load-current'].law({ torqueConstant: kt, mass }) / noLoad),
        })),
    },
  ],
};
