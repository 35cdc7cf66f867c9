/**
 * Audit of the spec sheets: what they say when held against physics, against each other and against what the trade usually sees.
 *
 *   (1) P ≤ V·I      (2) n_0 = (V − i_0·R)/k_t      (3) K_m = k_t/√R = c·m^(5/6)      (4) R·K_v² is one value for all winds of a frame
 *   (5) η_max = (1 − √(i_0·R/V))² at i = √(i_0·V/R)
 *
 * *Holds for* what was given; a figure that a gap leaves open is left out, never guessed.
 * *Source* (1)–(5) parts/motor.ts; the marks stand in audit-marks.ts, each labelled.
 */
import { AUDIT_EXPLANATIONS } from '../problems/index.js';
import { fromUnit } from '../quantities/convert.js';
import { type Dimension, formatClock, formatNumber, formatQuantity, SECONDS_PER_MINUTE, type UnitOf } from '../quantities/index.js';
import type { AuditFigure, AuditFigureId, AuditResult, FrameAudit, Oddity, OddityKind } from '../results/audit-result.js';
import type { CandidateResult } from '../results/run-result.js';
import { type SheetFigures, sheetFigures } from './audit-figures.js';
import {
  CAN_TEMPERATURE,
  DISCHARGE,
  ELECTRICAL_SPEED,
  LIGHT_LOAD,
  LOADED_SPEED,
  MEAN_INPUT_PER_MASS,
  MOTOR_CONSTANT,
  NO_LOAD_SHARE,
  PEAK_EFFICIENCY,
  PEER_FACTOR,
  POWER_SHARE,
  RATED_INPUT_PER_MASS,
  ROTOR_SURFACE_SPEED,
  SAME_FRAME,
  STALL_SHARE,
  SUSTAINED_SHARE,
  TIP_MACH,
} from './audit-marks.js';
import type { RunInput } from './run.js';

const PHYSICS = 'physics';
const PRACTICE = 'common practice, no published source';

const text = <D extends Dimension>(value: number, dimension: D, unit?: UnitOf<D>, decimals?: number): string =>
  formatQuantity(value, dimension, { ...(unit === undefined ? {} : { unit }), ...(decimals === undefined ? {} : { decimals }) });
const percent = (value: number): string => text(value, 'fraction', '%', 0);
const perGram = (value: number): string => `${formatNumber(value * fromUnit(1, 'g'), { significant: 2 })} W/g`;
const celsius = (value: number): string => text(value, 'temperature', '°C', 0);

/** Seconds up to two minutes, then a clock. */
const duration = (seconds: number): string =>
  seconds < 2 * SECONDS_PER_MINUTE ? text(seconds, 'time', 's', 0) : `${formatClock(seconds)} min`;

/** "Wide, Long and Small". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

interface Remark {
  readonly kind: OddityKind;
  readonly candidate: string;
  readonly weight: Oddity['weight'];
  /** What follows the candidate's name. */
  readonly says: string;
  readonly basis: string;
  readonly value: number;
  readonly bound: number;
  readonly unit: string;
}

/** Audits `candidates` with their nominal runs, in the same order. */
export function audit(candidates: readonly RunInput[], runs: readonly Pick<CandidateResult, 'trace' | 'headline'>[]): AuditResult {
  const sheets = candidates.map((input, k) => sheetFigures(input, runs[k]));
  const remarks = sheets.flatMap((sheet, k) => [...sheetRemarks(sheet), ...runRemarks(sheet, runs[k])]);
  const frames = framesOf(sheets);
  const oddities = [...together([...remarks, ...peerRemarks(sheets, remarks)]), ...windRemarks(frames)];
  const order = { contradiction: 0, unusual: 1, note: 2 };
  return {
    candidates: sheets.map((sheet, k) => ({ name: sheet.input.name, figures: figuresOf(sheet, runs[k]) })),
    frames,
    oddities: oddities.sort((a, b) => order[a.weight] - order[b.weight]),
  };
}

/** One oddity a kind: the same of several candidates is told once. */
function together(remarks: readonly Remark[]): Oddity[] {
  const byKind = new Map<OddityKind, Remark[]>();
  for (const remark of remarks) byKind.set(remark.kind, [...(byKind.get(remark.kind) ?? []), remark]);
  return [...byKind.values()].map((all) => {
    const [first] = all;
    // the same sheet in several candidates says the same of each
    const said = new Map<string, string[]>();
    for (const { says, candidate } of all) said.set(says, [...(said.get(says) ?? []), candidate]);
    return oddity(
      first.kind,
      all.map(({ candidate }) => candidate),
      all.some(({ weight }) => weight === 'contradiction') ? 'contradiction' : first.weight,
      `${[...said].map(([says, names]) => `${listed(names)}: ${says}`).join('; ')}.`,
      first,
    );
  });
}

function oddity(
  kind: OddityKind,
  candidates: readonly string[],
  weight: Oddity['weight'],
  says: string,
  { basis, value, bound, unit }: Pick<Remark, 'basis' | 'value' | 'bound' | 'unit'>,
): Oddity {
  const { meaning, tries } = AUDIT_EXPLANATIONS[kind];
  return { kind, candidates, weight, says, means: meaning, settles: tries[0], basis, value, bound, unit };
}

function sheetRemarks(sheet: SheetFigures): Remark[] {
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
  if (ratio > MOTOR_CONSTANT.factor || ratio < 1 / MOTOR_CONSTANT.factor)
    remark(
      'motor-constant-out-of-line',
      'unusual',
      [sheet.motorConstant, expected, 'N·m/√W'],
      `similarity; its level ${PRACTICE}`,
      `motor constant ${constantText(sheet.motorConstant)} where ${motor.layout}s of ${text(motor.mass, 'mass', 'g', 0)} have about ${constantText(expected)}${slipOf(ratio, sheet)}`,
    );
  const best = sheet.peakEfficiency;
  if (best > PEAK_EFFICIENCY.high || best < PEAK_EFFICIENCY.low)
    remark(
      'peak-efficiency-unlikely',
      'unusual',
      [best, best > PEAK_EFFICIENCY.high ? PEAK_EFFICIENCY.high : PEAK_EFFICIENCY.low, '1'],
      PRACTICE,
      `its no-load current and resistance promise ${text(best, 'fraction', '%', 1)} at best, usual are ${percent(PEAK_EFFICIENCY.low)} to ${percent(PEAK_EFFICIENCY.high)}`,
    );
  if (Number.isFinite(limits.motorCurrent)) {
    const idle = sheet.noLoadCurrent / limits.motorCurrent;
    if (idle > NO_LOAD_SHARE.high || idle < NO_LOAD_SHARE.low)
      remark(
        'no-load-current-unlikely',
        'unusual',
        [idle, idle > NO_LOAD_SHARE.high ? NO_LOAD_SHARE.high : NO_LOAD_SHARE.low, '1'],
        PRACTICE,
        `${text(sheet.noLoadCurrent, 'current')} unloaded against ${text(limits.motorCurrent, 'current')} rated`,
      );
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
      [rated.heating.limitAfter, Number.POSITIVE_INFINITY, 's'],
      'this model',
      `${text(rated.current, 'current', 'A', 0)} are ${text(rated.copperLoss, 'power', 'W', 0)} of copper loss cold and take the winding to its ${celsius(limits.windingTemperature)} in ${duration(rated.heating.limitAfter)}`,
    );
  const perMass = sheet.ratedInputPerMass;
  if (perMass !== undefined && perMass > RATED_INPUT_PER_MASS)
    remark('advertised-power-high', 'note', [perMass, RATED_INPUT_PER_MASS, 'W/kg'], PRACTICE, `rated at ${perGram(perMass)}`);
  return found;
}

function runRemarks(sheet: SheetFigures, run: Pick<CandidateResult, 'trace' | 'headline'>): Remark[] {
  const found: Remark[] = [];
  const { system, input, loadedSpeedRatio } = sheet;
  const { motor, limits } = system;
  const remark = (
    kind: OddityKind,
    weight: Oddity['weight'],
    [value, bound, unit]: readonly [number, number, string],
    says: string,
  ): void => void found.push({ kind, candidate: input.name, weight, says, basis: PRACTICE, value, bound, unit });
  const share = sheet.meanInput / limits.inputPower;
  if (share > SUSTAINED_SHARE)
    remark(
      'sustained-over-half-of-rating',
      'note',
      [share, SUSTAINED_SHARE, '1'],
      `${text(sheet.meanInput, 'power', 'W', 0)} on average over the run, rated ${text(limits.inputPower, 'power', 'W', 0)}`,
    );
  const perMass = sheet.meanInput / motor.mass;
  if (perMass > MEAN_INPUT_PER_MASS)
    remark('input-per-mass-high', 'note', [perMass, MEAN_INPUT_PER_MASS, 'W/kg'], `${perGram(perMass)} on average over the run`);
  if (loadedSpeedRatio !== undefined && (loadedSpeedRatio < LOADED_SPEED.low || loadedSpeedRatio > LOADED_SPEED.high))
    remark(
      'loaded-speed-out-of-band',
      'unusual',
      [loadedSpeedRatio, loadedSpeedRatio < LOADED_SPEED.low ? LOADED_SPEED.low : LOADED_SPEED.high, '1'],
      `at full throttle it turns at ${formatNumber(loadedSpeedRatio, { decimals: 2 })} of Kv times the pack’s resting voltage`,
    );
  const { noLoadEnergy, copperEnergy, inputEnergy } = sheet;
  if (noLoadEnergy > LIGHT_LOAD.overCopper * copperEnergy && noLoadEnergy > LIGHT_LOAD.ofInput * inputEnergy)
    remark(
      'load-light',
      'note',
      [noLoadEnergy / copperEnergy, LIGHT_LOAD.overCopper, '1'],
      `iron and friction take ${percent(noLoadEnergy / inputEnergy)} of its input over the run, the copper ${percent(copperEnergy / inputEnergy)}`,
    );
  if (sheet.tipMach !== undefined && sheet.tipMach > TIP_MACH)
    remark(
      'tip-mach-high',
      'unusual',
      [sheet.tipMach, TIP_MACH, '1'],
      `blade tips at Mach ${formatNumber(sheet.tipMach, { decimals: 2 })}`,
    );
  const can = run.headline.peakCanTemperature.nominal;
  const most = fromUnit<Dimension>(CAN_TEMPERATURE, '°C');
  if (can > most) remark('can-hotter-than-practised', 'note', [can, most, 'K'], `can at ${celsius(can)}`);
  const rate = sheet.dischargeRate;
  if (rate > fromUnit(DISCHARGE.word, 'C'))
    remark(
      'discharge-optimistic',
      rate > fromUnit(DISCHARGE.none, 'C') ? 'unusual' : 'note',
      [rate, fromUnit(DISCHARGE.word, 'C'), '1/s'],
      `the pack is asked for ${text(rate, 'dischargeRate', 'C', 0)} at the peak`,
    );
  return found;
}

const constantText = (value: number): string => `${text(value, 'torque', 'mN·m')}/√W`;

/** A slip of a digit that would explain a motor constant so far off: a factor of 10 in Kv is 10, in the resistance √10. */
function slipOf(ratio: number, { system }: SheetFigures): string {
  const { torqueConstant, resistance } = system.motor;
  const near = (factor: number): boolean => Math.abs(Math.log(ratio * factor)) < 0.5 * Math.log(MOTOR_CONSTANT.factor);
  const kv = (value: number): string => text(value, 'speedConstant', 'rpm/V', 0);
  if (near(10)) return `; with a Kv of ${kv(0.1 / torqueConstant)} it would be in line`;
  if (near(0.1)) return `; with a Kv of ${kv(10 / torqueConstant)} it would be in line`;
  if (near(Math.sqrt(10))) return `; with ${text(0.1 * resistance, 'resistance')} it would be in line`;
  if (near(Math.sqrt(0.1))) return `; with ${text(10 * resistance, 'resistance')} it would be in line`;
  return '';
}

/** Motors out of line with the middle of their own kind in this scenario, unless that was told already. */
function peerRemarks(sheets: readonly SheetFigures[], told: readonly Remark[]): Remark[] {
  const found: Remark[] = [];
  for (const layout of ['inrunner', 'outrunner'] as const) {
    const kin = sheets.filter(({ system }) => system.motor.layout === layout);
    const levels = kin.map((sheet) => sheet.motorConstant / sheet.system.motor.mass ** MOTOR_CONSTANT.exponent);
    if (new Set(levels).size < 3) continue;
    const middle = [...levels].sort((a, b) => a - b)[Math.floor(levels.length / 2)];
    kin.forEach((sheet, k) => {
      const candidate = sheet.input.name;
      const ratio = levels[k] / middle;
      if (ratio < PEER_FACTOR && ratio > 1 / PEER_FACTOR) return;
      if (told.some((each) => each.kind === 'motor-constant-out-of-line' && each.candidate === candidate)) return;
      const expected = sheet.motorConstant / ratio;
      found.push({
        kind: 'motor-constant-out-of-line',
        candidate,
        weight: 'unusual',
        says: `motor constant ${constantText(sheet.motorConstant)} where the other ${layout}s of this scenario, scaled to its mass, have about ${constantText(expected)}${slipOf(ratio, sheet)}`,
        basis: 'similarity, from the other candidates',
        value: sheet.motorConstant,
        bound: expected,
        unit: 'N·m/√W',
      });
    });
  }
  return found;
}

/** Candidates of one layout, can and mass with different windings. */
function framesOf(sheets: readonly SheetFigures[]): FrameAudit[] {
  const close = (a: number, b: number, share: number): boolean => Math.abs(a / b - 1) <= share;
  const left = [...sheets];
  const frames: FrameAudit[] = [];
  while (left.length > 0) {
    const first = left.shift()!;
    const m = first.system.motor;
    const kin = [first];
    for (const other of [...left]) {
      const o = other.system.motor;
      const same =
        o.layout === m.layout &&
        close(o.canDiameter, m.canDiameter, SAME_FRAME.size) &&
        close(o.canLength, m.canLength, SAME_FRAME.size) &&
        close(o.mass, m.mass, SAME_FRAME.mass);
      if (!same) continue;
      left.splice(left.indexOf(other), 1);
      // the same motor again, on another gear, is no other wind
      if (!kin.some(({ system }) => system.motor.torqueConstant === o.torqueConstant && system.motor.resistance === o.resistance))
        kin.push(other);
    }
    if (kin.length < 2) continue;
    const products = kin.map(({ motorConstant: km }) => km ** -2);
    frames.push({
      candidates: kin.map(({ input }) => input.name),
      resistanceTimesKvSquared: products,
      spread: Math.max(...products) / Math.min(...products),
    });
  }
  return frames;
}

function windRemarks(frames: readonly FrameAudit[]): Oddity[] {
  return frames
    .filter(({ spread }) => spread > SAME_FRAME.spread)
    .map(({ candidates, resistanceTimesKvSquared: products, spread }) =>
      oddity(
        'winds-disagree',
        candidates,
        'contradiction',
        `${listed(candidates)} share can and mass, yet their copper losses at one torque are ${listed(products.map(lossAtTorque))}.`,
        { basis: PHYSICS, value: spread, bound: SAME_FRAME.spread, unit: '1' },
      ),
    );
}

/** Torque at which R·Kv² is shown as a loss people can picture [N·m]. */
const SHOWN_TORQUE = 0.1;
const lossAtTorque = (product: number): string => text(product * SHOWN_TORQUE ** 2, 'power', 'W');

function figuresOf(sheet: SheetFigures, run: Pick<CandidateResult, 'headline'>): AuditFigure[] {
  const { system, rated, voltage } = sheet;
  const { motor, limits } = system;
  const figures: AuditFigure[] = [];
  const add = (id: AuditFigureId, words: string, value: number | undefined, unit: string, shown: string, at?: string): void => {
    if (value === undefined || !Number.isFinite(value)) return;
    figures.push({ id, words, value, unit, text: shown, ...(at === undefined ? {} : { at }) });
  };
  const volts = `at ${text(voltage, 'voltage', 'V', 1)}`;
  const perTorque = sheet.gradient * fromUnit(1, 'mN·m');
  const product = sheet.motorConstant ** -2;
  add('torqueConstant', 'torque constant', motor.torqueConstant, 'N·m/A', text(motor.torqueConstant, 'torqueConstant', 'mN·m/A'));
  add('motorConstant', 'motor constant', sheet.motorConstant, 'N·m/√W', constantText(sheet.motorConstant));
  const specific = sheet.motorConstant / motor.mass;
  add(
    'motorConstantPerMass',
    'motor constant per mass',
    specific,
    'N·m/(√W·kg)',
    `${constantText(specific * fromUnit(100, 'g'))} per 100 g`,
  );
  add(
    'resistanceTimesKvSquared',
    'resistance times Kv squared',
    product,
    'W/(N·m)²',
    `${lossAtTorque(product)} of copper loss at ${text(SHOWN_TORQUE, 'torque', 'N·m', 1)}`,
  );
  add('speedTorqueGradient', 'speed–torque gradient', sheet.gradient, 'rad/(s·N·m)', `${text(perTorque, 'angularSpeed', 'rpm')} per mN·m`);
  add('stallCurrent', 'stall current', sheet.stallCurrent, 'A', text(sheet.stallCurrent, 'current', 'A', 0), volts);
  add('noLoadSpeed', 'no-load speed', sheet.noLoadSpeed, 'rad/s', text(sheet.noLoadSpeed, 'angularSpeed', 'rpm', 0), volts);
  add(
    'rotorSurfaceSpeed',
    'surface speed of the rotor',
    sheet.rotorSurfaceSpeed,
    'm/s',
    text(sheet.rotorSurfaceSpeed, 'speed', 'm/s', 0),
    volts,
  );
  add('electricalSpeed', 'electrical speed', sheet.electricalSpeed, 'rad/s', text(sheet.electricalSpeed, 'angularSpeed', 'rpm', 0), volts);
  add('peakEfficiency', 'best efficiency', sheet.peakEfficiency, '1', text(sheet.peakEfficiency, 'fraction', '%', 1), volts);
  add(
    'peakEfficiencyCurrent',
    'current of best efficiency',
    sheet.peakEfficiencyCurrent,
    'A',
    text(sheet.peakEfficiencyCurrent, 'current'),
    volts,
  );
  add('ratedPowerShare', 'rated power over voltage times current', sheet.ratedPowerShare, '1', percent(sheet.ratedPowerShare ?? 0));
  add('ratedInputPerMass', 'rated input per mass', sheet.ratedInputPerMass, 'W/kg', perGram(sheet.ratedInputPerMass ?? 0));
  if (rated !== undefined) {
    const amperes = `at ${text(rated.current, 'current')}`;
    const { settles, limitAfter } = rated.heating;
    add(
      'ratedCopperLoss',
      'copper loss at the rated current, cold',
      rated.copperLoss,
      'W',
      text(rated.copperLoss, 'power', 'W', 0),
      amperes,
    );
    if (settles !== undefined)
      add('ratedWindingTemperature', 'winding at the rated current for good', settles, 'K', celsius(settles), amperes);
    if (limitAfter !== undefined)
      add(
        'ratedTimeToLimit',
        `time to the winding’s ${celsius(limits.windingTemperature)}`,
        limitAfter,
        's',
        duration(limitAfter),
        amperes,
      );
  }
  const ratio = sheet.loadedSpeedRatio;
  if (ratio !== undefined)
    add('loadedSpeedRatio', 'speed over Kv times resting voltage, full throttle', ratio, '1', formatNumber(ratio, { decimals: 2 }));
  add('meanInputPerMass', 'mean input per mass over the run', sheet.meanInput / motor.mass, 'W/kg', perGram(sheet.meanInput / motor.mass));
  const share = sheet.noLoadEnergy / sheet.inputEnergy;
  if (sheet.inputEnergy > 0) add('noLoadShare', 'iron and friction of the run’s input', share, '1', percent(share));
  if (sheet.tipMach !== undefined)
    add('tipMach', 'Mach number of the blade tips', sheet.tipMach, '1', formatNumber(sheet.tipMach, { decimals: 2 }));
  const can = run.headline.peakCanTemperature.nominal;
  add('canTemperature', 'hottest can', can, 'K', celsius(can));
  add('dischargeRate', 'peak discharge', sheet.dischargeRate, '1/s', text(sheet.dischargeRate, 'dischargeRate', 'C', 1));
  return figures;
}
