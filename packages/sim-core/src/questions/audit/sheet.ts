/** What a spec sheet says against itself and against practice. @module */

import { askedBy, type BenchReading, resistanceFrom } from '../../provenance/bench-reading.js';
import { ANGLES_APART, anglesApart } from '../../provenance/complete/complete-blades.js';
import type { Datum } from '../../provenance/datum.js';
import { type GivenReading, writtenResistance } from '../../provenance/given.js';
import { realiser } from '../../provenance/realise.js';
import { inputsOf } from '../../provenance/rules/rules.js';
import { MOTOR_CONSTANT, MOTOR_RULES } from '../../provenance/rules/rules-motor.js';
import { unknownsOf } from '../../provenance/unknowns.js';
import { fromUnit } from '../../quantities/convert.js';
import { drawn, massText, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { Oddity, OddityKind } from '../../results/audit-result.js';
import { LONG } from '../rate/rated-current.js';
import type { SheetFigures } from './figures.js';
import {
  CAN_DENSITY,
  ELECTRICAL_SPEED,
  MOST_BLADES,
  MOTOR_CONSTANT_FACTOR,
  NO_LOAD_FACTOR,
  NO_LOAD_SHARE,
  PEAK_EFFICIENCY,
  POINTS_SCATTER,
  POWER_SHARE,
  passed,
  RATED_INPUT_PER_MASS,
  READING_APART,
  ROTOR_SURFACE_SPEED,
  STALL_SHARE,
} from './marks.js';
import { PHYSICS, PRACTICE, type Remark } from './remark.js';
import { celsius, constantText, duration, percent, perGram, slipOf, text } from './words.js';

/** Remarks on one sheet. */
export function sheetRemarks(sheet: SheetFigures): Remark[] {
  const found: Remark[] = [];
  const { system, voltage, noLoadSpeed, rated } = sheet;
  const { motor, limits } = system;
  const candidate = sheet.input.name;
  const remark = (
    kind: OddityKind,
    weight: Oddity['weight'],
    [value, bound, unit]: readonly [number, number, string],
    basis: string,
    says: string,
  ): void => void found.push({ kind, candidate, weight, says, basis, value, bound, unit });
  const at = `at ${text(voltage, 'voltage', 'V', 1)} (${sheet.voltageFrom === 'sheet' ? 'the sheet’s' : 'the full pack’s'})`;

  const share = sheet.ratedPowerShare;
  if (share !== undefined) {
    const product = `${text(limits.inputPower, 'power', 'W', 0)} rated, ${text(voltage * limits.motorCurrent, 'power', 'W', 0)} by voltage times current`;
    if (share > POWER_SHARE.high) remark('rated-power-over-product', 'contradiction', [share, 1, '1'], PHYSICS, product);
    if (share < POWER_SHARE.low) remark('rated-power-far-below-product', 'unusual', [share, POWER_SHARE.low, '1'], PRACTICE, product);
  }
  if (noLoadSpeed > limits.shaftSpeed)
    remark(
      'no-load-speed-over-limit',
      'unusual',
      [noLoadSpeed, limits.shaftSpeed, 'rad/s'],
      PHYSICS,
      `${text(noLoadSpeed, 'angularSpeed', 'rpm', 0)} unloaded ${at}, limit ${text(limits.shaftSpeed, 'angularSpeed', 'rpm', 0)}`,
    );
  if (sheet.rotorSurfaceSpeed > ROTOR_SURFACE_SPEED)
    remark(
      'rotor-surface-speed-high',
      'unusual',
      [sheet.rotorSurfaceSpeed, ROTOR_SURFACE_SPEED, 'm/s'],
      PRACTICE,
      `its rim would run at ${text(sheet.rotorSurfaceSpeed, 'speed', 'm/s', 0)}, ${text(noLoadSpeed, 'angularSpeed', 'rpm', 0)} unloaded ${at}`,
    );
  const electrical = fromUnit(ELECTRICAL_SPEED.value, ELECTRICAL_SPEED.unit);
  if (sheet.electricalSpeed > electrical)
    remark(
      'electrical-speed-high',
      'unusual',
      [sheet.electricalSpeed, electrical, 'rad/s'],
      PRACTICE,
      `${motor.polePairs} pole pairs at ${text(noLoadSpeed, 'angularSpeed', 'rpm', 0)} are ${text(sheet.electricalSpeed, 'angularSpeed', 'rpm', 0)} electrically`,
    );
  const expected = MOTOR_CONSTANT[motor.layout] * motor.mass ** MOTOR_CONSTANT.exponent;
  const ratio = sheet.motorConstant / expected;
  if (ratio > MOTOR_CONSTANT_FACTOR || ratio < 1 / MOTOR_CONSTANT_FACTOR)
    remark(
      'motor-constant-out-of-line',
      'unusual',
      [sheet.motorConstant, expected, 'N·m/√W'],
      `similarity; its level ${PRACTICE}`,
      `motor constant ${constantText(sheet.motorConstant)} where ${motor.layout}s of ${massText(motor.mass)} have about ${constantText(expected)}${slipOf(ratio, sheet)}`,
    );
  const density = motor.mass / (0.25 * Math.PI * motor.canDiameter ** 2 * motor.canLength);
  const dense = passed(density, CAN_DENSITY);
  if (dense !== undefined)
    remark(
      'can-and-mass-apart',
      'contradiction',
      [density, dense, 'kg/m³'],
      PRACTICE,
      `can of ${text(motor.canDiameter, 'length', 'mm')} × ${text(motor.canLength, 'length', 'mm')} and mass ${text(motor.mass, 'mass', 'g')} make ${text(density, 'density', 'g/cm³', 1)}`,
    );
  const best = sheet.peakEfficiency;
  const efficient = passed(best, PEAK_EFFICIENCY);
  if (efficient !== undefined)
    remark(
      'peak-efficiency-unlikely',
      'unusual',
      [best, efficient, '1'],
      PRACTICE,
      `its no-load current and resistance promise ${text(best, 'fraction', '%', 1)} at best, usual are ${percent(PEAK_EFFICIENCY.low)} to ${percent(PEAK_EFFICIENCY.high)}`,
    );
  const idle = Number.isFinite(limits.motorCurrent) ? sheet.noLoadCurrent / limits.motorCurrent : Number.NaN;
  const idleMark = passed(idle, NO_LOAD_SHARE);
  const massIdle = idleOfMass(sheet);
  const idleFactor = sheet.noLoadCurrent / massIdle;
  if (idleFactor > NO_LOAD_FACTOR)
    remark(
      'no-load-current-unlikely',
      'unusual',
      [idleFactor, NO_LOAD_FACTOR, '1'],
      PRACTICE,
      `${text(sheet.noLoadCurrent, 'current')} unloaded, where ${motor.layout}s of ${massText(motor.mass)} and this Kv take about ${text(massIdle, 'current')}`,
    );
  else if (idleMark !== undefined)
    remark(
      'no-load-current-unlikely',
      'unusual',
      [idle, idleMark, '1'],
      PRACTICE,
      `${text(sheet.noLoadCurrent, 'current')} unloaded against ${text(limits.motorCurrent, 'current')} rated`,
    );
  if (Number.isFinite(limits.motorCurrent)) {
    const stall = limits.motorCurrent / sheet.stallCurrent;
    if (stall > STALL_SHARE)
      remark(
        'rated-current-near-stall',
        stall > 1 ? 'contradiction' : 'unusual',
        [stall, STALL_SHARE, '1'],
        PHYSICS,
        `its rated ${text(limits.motorCurrent, 'current')} are ${percent(stall)} of the ${text(sheet.stallCurrent, 'current')} it would draw held fast ${at}`,
      );
  }
  if (rated?.heating.limitAfter !== undefined)
    remark(
      'rated-current-overheats',
      'note',
      [rated.heating.limitAfter, LONG, 's'],
      'this model',
      `${text(rated.current, 'current', 'A', 0)} are ${text(rated.copperLoss, 'power', 'W', 0)} of copper loss cold and take the winding to its ${celsius(limits.windingTemperature)} in ${duration(rated.heating.limitAfter)}`,
    );
  const perMass = sheet.ratedInputPerMass;
  if (perMass !== undefined && perMass > RATED_INPUT_PER_MASS)
    remark('advertised-power-high', 'note', [perMass, RATED_INPUT_PER_MASS, 'W/kg'], PRACTICE, `rated at ${perGram(perMass)}`);
  const read = readingOf(sheet);
  if (read !== undefined && Math.abs(read.speedRatio - 1) > READING_APART)
    remark('reading-and-sheet-apart', read.withinDoubt ? 'unusual' : 'contradiction', [read.speedRatio, 1, '1'], PHYSICS, read.says);
  for (const { quantity, scatter } of scatterOf(sheet.input.data.load))
    if (scatter > POINTS_SCATTER)
      remark(
        'measured-points-apart',
        'unusual',
        [scatter, POINTS_SCATTER, '1'],
        PRACTICE,
        `the ${quantity} of the propeller’s measured points lies ${percent(scatter)} off one square law (root mean square)`,
      );
  const { propeller } = sheet.input.given;
  if (propeller?.kind === 'blade-element' && system.load.kind === 'propeller') {
    const apart = anglesApart(propeller, system.load.diameter);
    if (apart !== undefined)
      remark(
        'blade-angles-apart',
        'unusual',
        [Math.abs(apart), ANGLES_APART, 'rad'],
        PRACTICE,
        `the printed pitch has the blades ${text(Math.abs(apart), 'angle', '°', 1)} ${apart > 0 ? 'steeper' : 'flatter'} than the measured twist, at three quarters of the radius`,
      );
    const blades = propeller.blades ?? 2;
    if (blades > MOST_BLADES)
      remark(
        'many-blades',
        'unusual',
        [blades, MOST_BLADES, '1'],
        PRACTICE,
        `${blades} blades, calculated as turning free, without a duct`,
      );
  }
  return found;
}

/** Current that motors of its mass and Kv take unloaded [A]: above the usual voltage more, for part of the loss grows with speed. */
function idleOfMass({ system: { motor }, noLoadVoltage }: SheetFigures): number {
  const usual = MOTOR_RULES[`${motor.layout}-no-load-current`].law(motor);
  const above = noLoadVoltage / MOTOR_RULES['no-load-voltage'].law({}) - 1;
  return above > 0 ? usual * (1 + (1 - MOTOR_RULES['constant-loss-share'].law({})) * above) : usual;
}

/** How far measured points lie from their fit; nothing where there are none. */
function scatterOf(load: SheetFigures['input']['data']['load']): { quantity: 'thrust' | 'power'; scatter: number }[] {
  if (load.kind !== 'propeller') return [];
  return (['thrust', 'power'] as const).flatMap((quantity) => {
    const inputs = inputsOf(load[`${quantity}Factor`], `fitted-${quantity}-error`);
    return inputs === undefined ? [] : [{ quantity, scatter: inputs.scatter.value }];
  });
}

/** The sheet against the bench reading of its motor: the speed its Kv and resistance give there over what was read, and what would agree. */
function readingOf({
  input,
  system,
}: SheetFigures): { readonly speedRatio: number; readonly withinDoubt: boolean; readonly says: string } | undefined {
  const { reading } = input.given.motor ?? {};
  if (reading === undefined || writtenResistance(input.given.motor) === undefined) return undefined;
  const { motor, controller, gearbox } = system;
  const speed = reading.shaftSpeed.value * gearbox.ratio;
  const taken = { voltage: reading.voltage.value, current: reading.current.value, speed, duty: 1 };
  const { resistance, torqueConstant, whole } = askedBy(taken, motor, controller);
  // with the winding's L/R kept where the sheet gives no inductance
  const time = motor.inductance / motor.resistance;
  const asked =
    input.given.motor?.inductance === undefined
      ? resistanceFrom(taken, controller, (ohms) => ({ ...motor, resistance: ohms, inductance: time * ohms }))
      : resistance;
  const speedRatio = ratioOf(torqueConstant, motor);
  const ohms = (value: number): string => text(value, 'resistance');
  const bySpeed =
    speedRatio > 0 ? `, or a Kv of ${text(1 / torqueConstant, 'speedConstant', 'rpm/V', 0)} with its ${ohms(motor.resistance)}` : '';
  const agree =
    asked > 0
      ? `a winding of ${ohms(asked)} would agree with its Kv (${ohms(whole)} in all from supply to back-EMF)${bySpeed}`
      : `no winding would agree with its Kv${bySpeed}`;
  const gives = speedRatio > 0 ? `give ${text(speed * speedRatio, 'angularSpeed', 'rpm', 0)}` : 'let no such current through';
  return {
    speedRatio,
    withinDoubt: mayAgree(input, reading, taken),
    says: `${text(taken.voltage, 'voltage', 'V', 1)} and ${text(taken.current, 'current', 'A')} turned it at ${text(speed, 'angularSpeed', 'rpm', 0)} on the bench, where its Kv and resistance ${gives}; ${agree}`,
  };
}

/** Speed by the sheet over speed read; no current at all makes the reading true where resistance and inductance let less through. */
const ratioOf = (asked: number, { torqueConstant }: { readonly torqueConstant: number }): number =>
  Number.isNaN(asked) ? 0 : asked / torqueConstant;

/**
 * Whether the ratio may be 1 within the 95 % intervals of sheet, controller and instruments: all are moved together by 95 % of their joint
 * spread, each in proportion to what it alone brings the ratio nearer to 1.
 */
function mayAgree({ name, data }: SheetFigures['input'], reading: GivenReading, taken: BenchReading): boolean {
  const { torqueConstant, resistance, inductance } = data.motor;
  const realised = realiser(data);
  const unknowns = unknownsOf([
    {
      name,
      data: {
        torqueConstant,
        resistance,
        inductance,
        path: data.controller.pathResistance,
        volts: reading.voltage,
        amperes: reading.current,
      },
    },
  ]);
  const ratioAt = (z: (key: string) => number): number => {
    const { motor, controller } = realised(z);
    const read = ({ value, unknown: { key, spread } }: Datum): number => drawn(value, spread, z(key));
    const moved = { ...taken, voltage: read(reading.voltage), current: read(reading.current) };
    return ratioOf(askedBy(moved, motor, controller).torqueConstant, motor);
  };
  const nominal = ratioAt(() => 0);
  const side = Math.sign(1 - nominal);
  const gains = unknowns.map(({ key }) => {
    const gain = (z: number): number => side * (ratioAt((each) => (each === key ? z : 0)) - nominal);
    const [down, up] = [gain(-STANDARD_DEVIATIONS_95), gain(STANDARD_DEVIATIONS_95)];
    return [key, up > down ? Math.max(0, up) : -Math.max(0, down)] as const;
  });
  const size = Math.hypot(...gains.map(([, gain]) => gain));
  if (size === 0) return false;
  const together = new Map(gains.map(([key, gain]) => [key, (STANDARD_DEVIATIONS_95 * gain) / size]));
  return side * (ratioAt((key) => together.get(key) ?? 0) - 1) >= 0;
}
