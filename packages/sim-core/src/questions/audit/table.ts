/** The figures made from a sheet, each with its words. @module */

import { fromUnit } from '../../quantities/convert.js';
import { formatNumber } from '../../quantities/index.js';
import type { AuditFigure, AuditFigureId } from '../../results/audit-result.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { SheetFigures } from './figures.js';
import { celsius, constantText, duration, lossAtTorque, percent, perGram, SHOWN_TORQUE, text } from './words.js';

const inHundredths = (value: number): string => formatNumber(value, { decimals: 2 });

/** All figures that the sheet allows, in the order they are shown. */
export function figuresOf(sheet: SheetFigures, run: Pick<CandidateResult, 'headline'>): AuditFigure[] {
  const { system, rated, voltage } = sheet;
  const { motor, limits } = system;
  const figures: AuditFigure[] = [];
  const add = (
    id: AuditFigureId,
    words: string,
    value: number | undefined,
    unit: string,
    shown: (value: number) => string,
    at?: string,
  ): void => {
    if (value === undefined || !Number.isFinite(value)) return;
    figures.push({ id, words, value, unit, text: shown(value), ...(at === undefined ? {} : { at }) });
  };
  const volts = `at ${text(voltage, 'voltage', 'V', 1)}`;
  const perTorque = sheet.gradient * fromUnit(1, 'mN·m');
  const product = sheet.motorConstant ** -2;
  add('torqueConstant', 'torque constant', motor.torqueConstant, 'N·m/A', () => text(motor.torqueConstant, 'torqueConstant', 'mN·m/A'));
  add('motorConstant', 'motor constant', sheet.motorConstant, 'N·m/√W', () => constantText(sheet.motorConstant));
  const specific = sheet.motorConstant / motor.mass;
  add(
    'motorConstantPerMass',
    'motor constant per mass',
    specific,
    'N·m/(√W·kg)',
    () => `${constantText(specific * fromUnit(100, 'g'))} per 100 g`,
  );
  add(
    'resistanceTimesKvSquared',
    'resistance times Kv squared',
    product,
    'W/(N·m)²',
    () => `${lossAtTorque(product)} of copper loss at ${text(SHOWN_TORQUE, 'torque', 'N·m', 1)}`,
  );
  add(
    'speedTorqueGradient',
    'speed–torque gradient',
    sheet.gradient,
    'rad/(s·N·m)',
    () => `${text(perTorque, 'angularSpeed', 'rpm')} per mN·m`,
  );
  add('stallCurrent', 'stall current', sheet.stallCurrent, 'A', () => text(sheet.stallCurrent, 'current', 'A', 0), volts);
  add('noLoadSpeed', 'no-load speed', sheet.noLoadSpeed, 'rad/s', () => text(sheet.noLoadSpeed, 'angularSpeed', 'rpm', 0), volts);
  add(
    'rotorSurfaceSpeed',
    'surface speed of the rotor',
    sheet.rotorSurfaceSpeed,
    'm/s',
    () => text(sheet.rotorSurfaceSpeed, 'speed', 'm/s', 0),
    volts,
  );
  add(
    'electricalSpeed',
    'electrical speed',
    sheet.electricalSpeed,
    'rad/s',
    () => text(sheet.electricalSpeed, 'angularSpeed', 'rpm', 0),
    volts,
  );
  add('peakEfficiency', 'best efficiency', sheet.peakEfficiency, '1', () => text(sheet.peakEfficiency, 'fraction', '%', 1), volts);
  add(
    'peakEfficiencyCurrent',
    'current of best efficiency',
    sheet.peakEfficiencyCurrent,
    'A',
    () => text(sheet.peakEfficiencyCurrent, 'current'),
    volts,
  );
  add('ratedPowerShare', 'rated power over voltage times current', sheet.ratedPowerShare, '1', percent);
  add('ratedInputPerMass', 'rated input per mass', sheet.ratedInputPerMass, 'W/kg', perGram);
  if (rated !== undefined) {
    const amperes = `at ${text(rated.current, 'current')}`;
    const { settles, limitAfter } = rated.heating;
    add(
      'ratedCopperLoss',
      'copper loss at the rated current, cold',
      rated.copperLoss,
      'W',
      () => text(rated.copperLoss, 'power', 'W', 0),
      amperes,
    );
    add('ratedWindingTemperature', 'winding at the rated current for good', settles, 'K', celsius, amperes);
    add('ratedTimeToLimit', `time to the winding’s ${celsius(limits.windingTemperature)}`, limitAfter, 's', duration, amperes);
  }
  add('loadedSpeedRatio', 'speed over Kv times resting voltage, full throttle', sheet.loadedSpeedRatio, '1', inHundredths);
  add('meanInputPerMass', 'mean input per mass over the run', sheet.meanInput / motor.mass, 'W/kg', perGram);
  add('noLoadShare', 'iron and friction of the run’s input', sheet.noLoadEnergy / sheet.inputEnergy, '1', percent);
  add('tipMach', 'Mach number of the blade tips', sheet.tipMach, '1', inHundredths);
  const can = run.headline.peakCanTemperature.nominal;
  add('canTemperature', 'hottest can', can, 'K', celsius);
  add('dischargeRate', 'peak discharge', sheet.dischargeRate, '1/s', () => text(sheet.dischargeRate, 'dischargeRate', 'C', 1));
  return figures;
}
