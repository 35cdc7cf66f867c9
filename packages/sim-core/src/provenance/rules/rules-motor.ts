/** Rules for the motor’s own figures. @module */

import type { Drive } from '../../parts/controller.js';
import { ROOM_TEMPERATURE } from '../../quantities/constants.js';
import { resistanceFrom } from '../bench-reading.js';
import { lossLine, noLoadEmf } from '../no-load.js';
import { byKind, definition, fixed, measurable, type Rule, rule, unmeasured, value } from './rule.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

/** One no-load point, and what divides its loss torque. */
const ONE_POINT = {
  torqueConstant: 'torqueConstant',
  resistance: 'resistance',
  current: 'current',
  voltage: 'voltage',
  share: 'fraction',
} as const;
/** Two no-load points. */
const TWO_POINTS = {
  torqueConstant: 'torqueConstant',
  resistance: 'resistance',
  current: 'current',
  voltage: 'voltage',
  lastCurrent: 'current',
  lastVoltage: 'voltage',
} as const;

/**
 * Motor constant of slotted machines of one shape, K_m = c·m^(5/6) [N·m/√W, kg]: K_m² ∝ D⁴L²/(L + kD) ∝ D⁵ at one shape, m ∝ D³. The
 * exponent is similarity (D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 4). c of outrunners: geometric mean of six motors whose
 * resistance was measured or is printed by a maker who measures (test/checks/outside/motors.ts), 0.24–0.49; c of inrunners: common practice.
 */
export const MOTOR_CONSTANT = { inrunner: 0.155, outrunner: 0.3, exponent: 5 / 6 } as const;
/** No-load torque per mass [N·m/kg], at the ten volts or so where it is usually measured; common practice. */
const NO_LOAD_TORQUE = { inrunner: 0.055, outrunner: 0.11 } as const;

const SIMILARITY = {
  inrunner: 'similarity, Hanselman 2003, ch. 4; its level common practice, no published source',
  outrunner: 'similarity, Hanselman 2003, ch. 4; its level the mean of six motors, docs/theory.md',
} as const;
/** × or ÷ 2.7, as those six scatter: mostly each one's own, for the level is that of many. */
const resistanceByMass = (layout: 'inrunner' | 'outrunner') =>
  rule(
    `winding resistance from the motor constant that ${layout}s of its mass have`,
    'resistance',
    { torqueConstant: 'torqueConstant', mass: 'mass' },
    ({ torqueConstant, mass }) => (torqueConstant / (MOTOR_CONSTANT[layout] * mass ** MOTOR_CONSTANT.exponent)) ** 2,
    measurable('resistance', 'motor.resistance', percent(50), percent(150)),
    SIMILARITY[layout],
  );
/** × or ÷ 2. */
const noLoadByMass = (layout: 'inrunner' | 'outrunner') =>
  rule(
    `no-load current from the loss torque that ${layout}s of its mass have`,
    'current',
    { torqueConstant: 'torqueConstant', mass: 'mass' },
    ({ torqueConstant, mass }) => (NO_LOAD_TORQUE[layout] * mass) / torqueConstant,
    measurable('no-load', 'motor.no_load.current', percent(30), percent(90)),
    PRACTICE,
  );

/** Part of the voltage that the winding is left at least, so that no draw has a resistance of nothing or less [1]. */
export const LEAST_DROP = 0.02;

/** The inductance where it is written, else L/R; the speed is the propeller's. */
const resistanceByReading = (drive: Drive) =>
  rule(
    'winding resistance that the bench reading asks for',
    'resistance',
    {
      torqueConstant: 'torqueConstant',
      voltage: 'voltage',
      current: 'current',
      speed: 'angularSpeed',
      ratio: 'ratio',
      polePairs: 'ratio',
      inductance: 'inductance?',
      inductanceTime: 'time?',
      idleCurrent: 'current',
      pathResistance: 'resistance',
      switchingTime: 'time',
      pwmFrequency: 'frequency',
      deadTime: 'time',
      deadTimeDrop: 'voltage',
    },
    ({ torqueConstant, voltage, current, speed, ratio, polePairs, inductance, inductanceTime = 0, ...switches }) => {
      const controller = { drive, ...switches, rippleConstant: 0 };
      const resistance = resistanceFrom({ voltage, current, speed: speed * ratio, duty: 1 }, controller, (resistance) => ({
        torqueConstant,
        resistance,
        polePairs,
        inductance: inductance ?? inductanceTime * resistance,
      }));
      return Math.max(resistance, (LEAST_DROP * voltage) / current);
    },
    unmeasured(SURE, percent(5)),
    'balance of power and voltage at full throttle, motor cold',
  );

export const MOTOR_RULES = {
  'inrunner-resistance': resistanceByMass('inrunner'),
  'outrunner-resistance': resistanceByMass('outrunner'),
  'inrunner-no-load-current': noLoadByMass('inrunner'),
  'outrunner-no-load-current': noLoadByMass('outrunner'),
  'no-load-voltage': value('voltage of the no-load current', 'voltage', 10, measurable('no-load', null, percent(30)), PRACTICE),
  'kt-from-kv': rule('torque constant from Kv', 'torqueConstant', { kv: 'speedConstant' }, ({ kv }) => 1 / kv, SURE, 'kt = 1/Kv'),
  'kt-from-back-emf': rule(
    'torque constant from Kv by peak back-EMF',
    'torqueConstant',
    { kv: 'speedConstant' },
    ({ kv }) => Math.PI / 3 / kv,
    SURE,
    'six-step drive runs π/3 faster than its peak EMF says',
  ),
  'kt-from-no-load-speed': rule(
    'torque constant from the no-load speed',
    'torqueConstant',
    { voltage: 'voltage', speed: 'angularSpeed', current: 'current?', resistance: 'resistance?' },
    ({ voltage, speed, current = 0, resistance = 0 }) => noLoadEmf(resistance, voltage, current) / speed,
    SURE,
    'volts less current times resistance, over speed',
  ),
  'resistance-at-room': rule(
    'winding resistance at 20 °C from that at another temperature',
    'resistance',
    { resistance: 'resistance', at: 'temperature', coefficient: 'temperatureCoefficient' },
    ({ resistance, at, coefficient }) => resistance / (1 + coefficient * (at - ROOM_TEMPERATURE)),
    SURE,
    'IEC 60028',
  ),
  'line-from-phase': rule(
    'resistance between lines from one phase of a star',
    'resistance',
    { phase: 'resistance' },
    ({ phase }) => 2 * phase,
    SURE,
    definition,
  ),
  'inductance-from-phase': rule(
    'inductance between lines from one phase of a star',
    'inductance',
    { phase: 'inductance' },
    ({ phase }) => 2 * phase,
    SURE,
    definition,
  ),
  'inductance-time': value(
    'inductance between lines over resistance',
    'time',
    0.3e-3,
    measurable('inductance', 'motor.inductance', percent(150)),
    'motors measured and printed, docs/theory.md',
  ),
  'inductance-from-resistance': rule(
    'inductance between lines, resistance × 0.3 ms',
    'inductance',
    { resistance: 'resistance', time: 'time' },
    ({ resistance, time }) => resistance * time,
    SURE,
    definition,
  ),
  'pole-pairs': fixed('pole pairs', 'ratio', definition),
  'resistance-from-reading': resistanceByReading('block'),
  'resistance-from-sinusoidal-reading': resistanceByReading('sinusoidal'),
  'copper-coefficient': value('temperature coefficient of copper', 'temperatureCoefficient', 0.00393, SURE, 'IEC 60028'),
  'flux-coefficient': byKind(
    'temperature coefficient of magnet flux',
    'temperatureCoefficient',
    { N: -0.0012, M: -0.0012, H: -0.0012, SH: -0.0011, UH: -0.0011, EH: -0.0011, AH: -0.0011 },
    unmeasured(percent(15)),
    'magnet makers’ tables',
  ),
  'constant-loss-share': value(
    'part of the no-load torque that does not depend on speed',
    'fraction',
    0.5,
    measurable('loss-share', 'motor.no_load.current', points(0.25)),
    PRACTICE,
  ),
  'friction-share': value(
    'part of the constant loss torque that is bearing friction',
    'fraction',
    0.3,
    measurable('friction-share', null, points(0.2)),
    PRACTICE,
  ),
  'constant-loss-torque': rule(
    'constant loss torque from one no-load point',
    'torque',
    ONE_POINT,
    ({ torqueConstant, current, share }) => torqueConstant * current * share,
    SURE,
    'kt·i0 split by an assumed share',
  ),
  'speed-loss-torque': rule(
    'loss torque per speed from one no-load point',
    'torquePerSpeed',
    ONE_POINT,
    ({ torqueConstant, resistance, current, voltage, share }) =>
      (torqueConstant * current * (1 - share)) / (noLoadEmf(resistance, voltage, current) / torqueConstant),
    SURE,
    'kt·i0 split by an assumed share',
  ),
  'constant-loss-from-two': rule(
    'constant loss torque from two no-load points',
    'torque',
    TWO_POINTS,
    (points) => lossLine(points).constant,
    SURE,
    'straight line through kt·i0 over speed',
  ),
  'speed-loss-from-two': rule(
    'loss torque per speed from two no-load points',
    'torquePerSpeed',
    TWO_POINTS,
    (points) => lossLine(points).slope,
    SURE,
    'straight line through kt·i0 over speed',
  ),
  'hysteresis-torque': rule(
    'hysteresis torque',
    'torque',
    { constant: 'torque', friction: 'fraction' },
    ({ constant, friction }) => constant * (1 - friction),
    SURE,
    'constant loss torque less friction',
  ),
  'friction-torque': rule(
    'bearing friction torque',
    'torque',
    { constant: 'torque', friction: 'fraction' },
    ({ constant, friction }) => constant * friction,
    SURE,
    'share of the constant loss torque',
  ),
  'no-windage': value('windage torque per speed squared, counted in the loss per speed', 'torquePerSpeedSquared', 0, SURE, PRACTICE),
  remanence: value('remanence of the magnets at 20 °C, in tesla', 'ratio', 1.3, unmeasured(percent(4)), 'magnet makers’ tables'),
  // the least of each
  'grade-coercivity': byKind(
    'intrinsic coercivity of the grade at 20 °C, in A/m',
    'ratio',
    { N: 955e3, M: 1114e3, H: 1353e3, SH: 1592e3, UH: 1990e3, EH: 2388e3, AH: 2785e3 },
    unmeasured(percent(5)),
    'magnet makers’ tables; UH, EH, AH from memory',
  ),
  half: rule('radius, half of the diameter', 'length', { diameter: 'length' }, ({ diameter }) => 0.5 * diameter, SURE, definition),
  'magnet-gap': value('air gap between magnets and stator', 'length', 0.5e-3, unmeasured(percent(50)), PRACTICE),
  'coercivity-coefficient': value(
    'temperature coefficient of intrinsic coercivity',
    'temperatureCoefficient',
    -0.0055,
    unmeasured(percent(20)),
    'magnet makers’ tables',
  ),
  'magnet-loss-share': value(
    'part of the iron loss that arises in the magnets',
    'fraction',
    0.07,
    measurable('loss-share', null, points(0.04)),
    PRACTICE,
  ),
  'inrunner-inertia': rule(
    'rotor inertia, 0.3 of the mass on 0.19 of the diameter',
    'inertia',
    { mass: 'mass', diameter: 'length' },
    ({ mass, diameter }) => 0.5 * 0.3 * mass * (0.27 * diameter) ** 2,
    unmeasured(percent(60), percent(20)),
    PRACTICE,
  ),
  'outrunner-inertia': rule(
    'bell inertia, 0.45 of the mass at 0.46 of the diameter',
    'inertia',
    { mass: 'mass', diameter: 'length' },
    ({ mass, diameter }) => 0.45 * mass * (0.46 * diameter) ** 2,
    unmeasured(percent(40), percent(20)),
    PRACTICE,
  ),
} as const satisfies Record<string, Rule>;
