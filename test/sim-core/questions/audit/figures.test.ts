/** Figures of a sheet and a run, by hand: energies under curves of straight lines, speeds, Mach number, discharge. */
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import { sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { CHANNEL_IDS } from '@shaftwork/sim-core/results/channels';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, KT, OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';
import { FULL } from '../judge/simulated.js';

const inputOf = (more: Section = {}) => preparedOf(more).candidates[0];
const [R, D, M] = [96e-3, 27e-3, 66e-3];

const run = runCandidate(inputOf(), FULL);
/** A run with curves drawn by hand over four times. */
function figures(curves: Partial<CandidateResult['trace']> = {}, headline: Record<string, number> = {}, more: Section = {}) {
  const input = inputOf(more);
  const time = [0, 10, 20, 30];
  const blank = recordOf(CHANNEL_IDS, () => time.map(() => 0));
  const figuresOfRun = Object.fromEntries(
    Object.entries(run.headline).map(([key, figure]) => [key, { ...figure, nominal: headline[key] ?? figure.nominal }]),
  ) as CandidateResult['headline'];
  return sheetFigures(input, {
    trace: { ...blank, cellVoltage: [4, 3.9, 3.8, 3.7], charge: [1, 0.9, 0.8, 0.7], ...curves, time },
    headline: { ...figuresOfRun, runTime: { dimension: 'time', nominal: 30 } },
  });
}

describe('a sheet', () => {
  it('is figured at its own voltage, else at the full pack’s', () => {
    expect(figures()).toMatchObject({ voltage: 12, voltageFrom: 'pack' });
    const rated = figures({}, {}, { motor: { ...OUTRUNNER, maker_limits: { voltage: '13 V' } } });
    expect(rated).toMatchObject({ voltage: 13, voltageFrom: 'sheet' });
    expect(rated.stallCurrent).toBeCloseTo(13 / R, 9);
    const free = (13 - 0.9 * R) / KT;
    expect(rated.noLoadSpeed).toBeCloseTo(free, 9);
    // an outrunner's bell is its can; of an inrunner half of the can turns
    expect(rated.rotorSurfaceSpeed).toBeCloseTo(0.5 * D * free, 9);
    expect(rated.electricalSpeed).toBeCloseTo(7 * free, 9);
    const inner = figures({}, {}, { motor: { ...INRUNNER, maker_limits: { voltage: '13 V' } } });
    expect(inner.rotorSurfaceSpeed).toBeCloseTo(0.25 * D * free, 9);
    expect(inner.electricalSpeed).toBeCloseTo(2 * free, 9);
  });

  it('has the usual figures of a motor', () => {
    const { motorConstant, gradient, peakEfficiency, peakEfficiencyCurrent } = figures();
    expect(motorConstant).toBeCloseTo(KT / Math.sqrt(R), 12);
    expect(gradient).toBeCloseTo(R / KT ** 2, 9);
    expect(peakEfficiency).toBeCloseTo((1 - Math.sqrt((0.9 * R) / 12)) ** 2, 12);
    expect(peakEfficiencyCurrent).toBeCloseTo(Math.sqrt((0.9 * 12) / R), 9);
  });

  it('leaves out what it does not say', () => {
    const { resistance: _, no_load: __, ...half } = OUTRUNNER;
    const bare = figures({}, {}, { motor: half });
    for (const each of [bare.motorConstant, bare.stallCurrent, bare.noLoadCurrent, bare.noLoadVoltage, bare.peakEfficiency])
      expect(each).toBeNaN();
    expect([bare.ratedPowerShare, bare.ratedInputPerMass, bare.rated]).toEqual([undefined, undefined, undefined]);
    expect(bare.noLoadSpeed).toBeCloseTo(12 / KT, 9);
  });

  it('has ratings where current, power and voltage are rated', () => {
    const rated = (maker_limits: Section) => figures({}, {}, { motor: { ...OUTRUNNER, maker_limits } });
    const all = rated({ current: '20 A', voltage: '12.5 V', input_power: '200 W' });
    expect(all.ratedPowerShare).toBeCloseTo(200 / 250, 12);
    expect(all.ratedInputPerMass).toBeCloseTo(200 / M, 9);
    expect(all.rated).toMatchObject({ current: 20, copperLoss: expect.closeTo(400 * R, 9) });
    // the pack's voltage is not the sheet's
    expect(rated({ current: '20 A', input_power: '200 W' }).ratedPowerShare).toBeUndefined();
    expect(rated({ voltage: '12.5 V', input_power: '200 W' }).ratedPowerShare).toBeUndefined();
    expect(rated({ voltage: '12.5 V', current: '20 A' }).ratedPowerShare).toBeUndefined();
    // more current than the voltage drives through the winding: 130 A
    expect(rated({ current: '131 A', voltage: '12.5 V' }).rated).toBeUndefined();
    expect(rated({ current: '129 A', voltage: '12.5 V' }).rated?.current).toBe(129);
  });
});

describe('a run', () => {
  it('has its energies under straight lines, driving only', () => {
    const sums = figures({ inputPower: [0, 100, 100, -50], copperLoss: [0, 20, 40, 60], noLoadLoss: [0, 6, 8, 10] });
    // 500 J up, 1000 J level, 500 J down to nothing; the last piece brakes at its end
    expect(sums.inputEnergy).toBeCloseTo(2000, 9);
    expect(sums.copperEnergy).toBeCloseTo(100 + 300, 9);
    expect(sums.noLoadEnergy).toBeCloseTo(30 + 70, 9);
    expect(sums.meanInput).toBeCloseTo(2000 / 30, 9);
  });

  it('turns at full throttle at a share of Kv times the pack’s voltage at rest, where the current is greatest', () => {
    const open_circuit = [
      { charge: '0 %', voltage: '3.2 V' },
      { charge: '100 %', voltage: '4.2 V' },
    ];
    const drive = { battery: { cells: { series: 3 }, capacity: '2.2 Ah', open_circuit } };
    const ratio = (throttle: readonly number[], motorCurrent = [10, 20, 30, 15]) =>
      figures({ throttle, motorCurrent, shaftSpeed: [900, 850, 800, 950] }, {}, drive).loadedSpeedRatio;
    // full at the second and the fourth: 20 A with 0.9 of the charge left, 4.1 V a cell
    expect(ratio([0.5, 1, 0.9, 1])).toBeCloseTo((850 * KT) / 12.3, 9);
    expect(ratio([1, 1, 1, 1])).toBeCloseTo((800 * KT) / 12, 9);
    expect(ratio([0.995, 0.5, 0.5, 0.5])).toBeCloseTo((900 * KT) / 12.6, 9);
    expect(ratio([0.994, 0.5, 0.5, 0.5])).toBeUndefined();
  });

  it('has blade tips that turn and fly, over the speed of sound of its air', () => {
    // 340.3 m/s at 15 °C (ISO 2533); 9 in at 1000 rad/s and 30 m/s
    const tips = (shaftSpeed: number[], topSpeed: number, more: Section = {}) => figures({ shaftSpeed }, { topSpeed }, more).tipMach;
    expect((tips([0, 1000, 500, 0], 30) ?? 0) * 340.29).toBeCloseTo(Math.hypot(0.1143 * 1000, 30), 1);
    expect((tips([0, 1000, 500, 0], 30, { gearbox: { ratio: 2 } }) ?? 0) * 340.29).toBeCloseTo(Math.hypot(0.1143 * 500, 30), 1);
    // it goes with the root of the temperature
    const warm = tips([0, 1000, 500, 0], 0, { ambient: { air: '40 °C' } }) ?? 0;
    expect((tips([0, 1000, 500, 0], 0) ?? 0) / warm).toBeCloseTo(Math.sqrt(313.15 / 288.15), 9);
    expect(tips([0, 1000, 500, 0], 30, boat())).toBeUndefined();
    const car = { motor: INRUNNER, propeller: 'none', wheel: { radius: '40 mm' }, vehicle: { mass: '2 kg' } };
    expect(tips([0, 1000, 500, 0], 30, car)).toBeUndefined();
  });

  it('asks its pack for a discharge: the greatest current over the capacity', () => {
    expect(figures({}, { peakBatteryCurrent: 44 }).dischargeRate * 3600).toBeCloseTo(20, 9);
  });
});
