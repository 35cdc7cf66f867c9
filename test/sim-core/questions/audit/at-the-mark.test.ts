/** What lies just at a mark is within it; what a sheet or a run does not say is held against nothing. */
import { AUDIT_EXPLANATIONS } from '@shaftwork/sim-core/problems';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import { fromUnit } from '@shaftwork/sim-core/quantities';
import { audit } from '@shaftwork/sim-core/questions/audit/audit';
import { type SheetFigures, sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { framesOf, peerRemarks, shapeRemarks, windRemarks } from '@shaftwork/sim-core/questions/audit/peers';
import { oddity, type Remark } from '@shaftwork/sim-core/questions/audit/remark';
import { runRemarks } from '@shaftwork/sim-core/questions/audit/run';
import { sheetRemarks } from '@shaftwork/sim-core/questions/audit/sheet';
import { CHANNEL_IDS } from '@shaftwork/sim-core/results/channels';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf } from '../../provenance/drives.js';
import { input, run, sheet, usualRun } from './usual-motor.js';

const { system } = sheet;
const { motor, limits } = system;
type Motor = typeof motor;
const withMotor = (more: Partial<Motor>): Partial<SheetFigures> => ({ system: { ...system, motor: { ...motor, ...more } } });
const kinds = (more: Partial<SheetFigures>) => sheetRemarks({ ...sheet, ...more }).map(({ kind }) => kind);
/** A motor of 1 kg, whose motor constant is 0.3 N·m/√W by its mass, in a can of a cubic decimetre's quarter. */
const heavy = withMotor({ mass: 1, canDiameter: 0.07, canLength: 0.07 });
const volume = 0.25 * Math.PI * motor.canDiameter ** 2 * motor.canLength;

describe('a sheet', () => {
  it.each<readonly [string, Partial<SheetFigures>]>([
    ['rated power', { ratedPowerShare: 1.03 }],
    ['half the rated power', { ratedPowerShare: 0.5 }],
    ['free speed', { noLoadSpeed: limits.shaftSpeed }],
    ['speed of the rim', { rotorSurfaceSpeed: 100 }],
    ['electrical speed', { electricalSpeed: fromUnit(240_000, 'rpm') }],
    ['motor constant', { ...heavy, motorConstant: 2.2 * 0.3 }],
    ['motor constant below', { ...heavy, motorConstant: 0.3 / 2.2 }],
    ['efficiency', { peakEfficiency: 0.945 }],
    ['poor efficiency', { peakEfficiency: 0.6 }],
    ['idle current', { ...withMotor({ mass: 0.13 }), noLoadCurrent: 4 }],
    ['small idle current', { noLoadCurrent: 0.08 }],
    ['stall', { stallCurrent: 50 }],
    ['input per mass', { ratedInputPerMass: 5000 }],
    ['a light can', { ...withMotor({ mass: 1200 * volume }), noLoadCurrent: 0.3 }],
  ])('just at a mark is not remarked on: %s', (_, more) => expect(kinds({ motorConstant: Number.NaN, ...more })).toEqual([]));

  it('of a can just as dense as steel and copper is not remarked on for that', () =>
    expect(kinds(withMotor({ mass: 7500 * volume }))).not.toContain('can-and-mass-apart'));

  it('that would draw its rated current held fast does not contradict itself', () =>
    expect(sheetRemarks({ ...sheet, stallCurrent: 20 }).map(({ weight }) => weight)).toEqual(['unusual']));

  it('without a rated current is held against none', () => {
    const unrated = { system: { ...system, limits: { ...limits, motorCurrent: Number.POSITIVE_INFINITY } } };
    expect(kinds({ ...unrated, ratedPowerShare: undefined, noLoadCurrent: 0.01, stallCurrent: 10 })).toEqual([]);
  });
});

describe('a run', () => {
  const told = (more: Partial<SheetFigures>, headline: Partial<(typeof run)['headline']> = {}) =>
    runRemarks({ ...usualRun, ...more }, { ...run, headline: { ...run.headline, ...headline } });
  it.each<readonly [string, Partial<SheetFigures>]>([
    ['half of the rated power', { meanInput: 100 }],
    ['input per mass', { meanInput: 150, system: { ...system, motor: { ...motor, mass: 0.05 }, limits: { ...limits, inputPower: 400 } } }],
    ['slow under load', { loadedSpeedRatio: 0.65 }],
    ['fast under load', { loadedSpeedRatio: 0.93 }],
    ['three times the copper', { noLoadEnergy: 60, copperEnergy: 20 }],
    ['a tenth of the input', { noLoadEnergy: 50, copperEnergy: 1 }],
    ['tips', { tipMach: 0.85 }],
    ['discharge', { dischargeRate: fromUnit(24, 'C') }],
  ])('just at a mark is not remarked on: %s', (_, more) => expect(told(more)).toEqual([]));

  it('with a can of 70 °C, or 8 m/s more air than its speed, is not remarked on', () => {
    expect(told({}, { peakCanTemperature: { dimension: 'temperature', nominal: fromUnit<'temperature'>(70, '°C') } })).toEqual([]);
    const [breezy] = preparedOf({ cooling: { air: { speed: '10 m/s' } } }).candidates;
    const aired = (top: number) => told({ input: breezy, tipMach: undefined }, { topSpeed: { dimension: 'speed', nominal: top } });
    expect(aired(2)).toEqual([]);
    expect(aired(1.5)).toMatchObject([{ kind: 'air-at-motor-fast', weight: 'unusual', value: 8.5, bound: 8, unit: 'm/s' }]);
  });

  it('of 36 C is not more than any pack gives', () =>
    expect(told({ dischargeRate: fromUnit(36, 'C') })).toMatchObject([{ kind: 'discharge-optimistic', weight: 'note' }]));
});

describe('candidates', () => {
  const named = (name: string, constant: number, more: Partial<Motor> = {}): SheetFigures => ({
    ...sheet,
    motorConstant: constant,
    input: { ...input, name },
    system: { ...system, motor: { ...motor, mass: 1, ...more } },
  });
  const out = (constants: readonly number[], told: readonly Remark[] = []) =>
    peerRemarks(
      constants.map((each, k) => named('ABCDE'.charAt(k), each)),
      told,
    );

  it('are held against the middle one, whatever their order; of an even number against the upper of two', () => {
    expect(out([1, 9, 2]).map(({ candidate, bound }) => [candidate, bound])).toEqual([
      ['A', 2],
      ['B', 2],
    ]);
    expect(out([9, 1.6, 1, 2]).map(({ candidate, bound }) => [candidate, bound])).toEqual([
      ['A', 2],
      ['C', 2],
    ]);
  });

  it('1.7 from the middle are out of line, either way', () => {
    expect(out([1, 0.9, 1.7]).map(({ candidate }) => candidate)).toEqual(['C']);
    expect(out([1, 1.1, 1 / 1.7]).map(({ candidate }) => candidate)).toEqual(['C']);
  });

  it('of whom something else was told are told this too', () => {
    const [one] = out([1, 1.1, 3]);
    expect(out([1, 1.1, 3], [{ ...one, kind: 'tip-mach-high' }])).toEqual([one]);
  });

  it('of one mass and shape are held against the first that claims most', () => {
    const { resistance } = motor;
    const three = [named('A', 1), named('B', 1), named('C', 1, { resistance: 2 * resistance })];
    expect(shapeRemarks(three, []).map(({ candidate, says }) => [candidate, says.slice(0, 23)])).toEqual([
      ['C', 'by the figures of A, wh'],
    ]);
    // a Kv half as much again is compared still
    const apart = [named('A', 1, { torqueConstant: 1.5, resistance: 5 * resistance }), named('B', 1, { torqueConstant: 1 })];
    expect(shapeRemarks(apart, []).map(({ candidate }) => candidate)).toEqual(['A']);
  });

  it('that are winds of one frame are left to those who ask next', () => {
    const sheets = [named('A', 1), named('B', 1, { resistance: 0.2 })];
    expect(framesOf(sheets)).toHaveLength(1);
    expect(sheets).toHaveLength(2);
    // just a quarter apart they agree
    expect(windRemarks([{ candidates: ['A', 'B'], resistanceTimesKvSquared: [1, 1.25], spread: 1.25 }])).toEqual([]);
  });
});

it('an oddity says what it means and what settles it, and no mark where there is none', () => {
  const { meaning, tries } = AUDIT_EXPLANATIONS['tip-mach-high'];
  const made = (bound: number) => oddity('tip-mach-high', ['A'], 'unusual', 'fast', { basis: 'physics', value: 0.9, bound, unit: '1' });
  expect(made(0.85)).toEqual({
    kind: 'tip-mach-high',
    candidates: ['A'],
    weight: 'unusual',
    says: 'fast',
    means: meaning,
    settles: tries[0],
    basis: 'physics',
    value: 0.9,
    bound: 0.85,
    unit: '1',
  });
  expect(made(Number.POSITIVE_INFINITY)).not.toHaveProperty('bound');
});

describe('an audit', () => {
  it('tells contradictions first, notes last, and compares those whose sheets say enough', () => {
    const { resistance: _, ...unsaid } = OUTRUNNER;
    const motors = {
      A: { ...OUTRUNNER, maker_limits: { current: '20 A', input_power: '500 W' } },
      B: { ...OUTRUNNER, resistance: '200 mohm', maker_limits: { current: '20 A', voltage: '12.5 V', input_power: '300 W' } },
      C: unsaid,
    };
    const { candidates } = preparedOf({ candidates: Object.entries(motors).map(([name, motor]) => ({ name, motor })) });
    const found = audit(
      candidates,
      candidates.map(() => run),
    );
    const rank = found.oddities.map(({ weight }) => ['contradiction', 'unusual', 'note'].indexOf(weight));
    expect(rank).toEqual([...rank].sort());
    expect(new Set(rank)).toEqual(new Set([0, 2]));
    expect(found.oddities.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['rated-power-over-product', 'winds-disagree', 'advertised-power-high', 'rated-current-overheats']),
    );
    expect(found.frames.map((frame) => frame.candidates)).toEqual([['A', 'B']]);
    expect(found.candidates.map(({ name }) => name)).toEqual(['A', 'B', 'C']);
    const ids = found.candidates.map(({ figures }) => figures.map(({ id }) => id));
    expect(ids.map((each) => each.includes('stallCurrent'))).toEqual([true, true, false]);
  });

  it('has figures of a run: what is gained or braked at a standstill of power is not counted, the first of equals is the hardest', () => {
    const { trace } = run;
    const time = [0, 10, 20, 30];
    const blank = recordOf(CHANNEL_IDS, () => time.map(() => 0));
    const of = (curves: Partial<typeof trace>) =>
      sheetFigures(input, { ...run, trace: { ...blank, cellVoltage: [4, 4, 4, 4], ...curves, time } });
    const { copperEnergy, noLoadEnergy, inputEnergy } = of({
      inputPower: [0, 100, 0, 0],
      copperLoss: [0, 20, 40, 60],
      noLoadLoss: [0, 6, 8, 10],
    });
    expect([copperEnergy, noLoadEnergy, inputEnergy]).toEqual([100, 30, 1000]);
    const ratio = (motorCurrent: number[]) =>
      of({ throttle: [1, 1, 1, 1], motorCurrent, charge: [1, 1, 1, 1], shaftSpeed: [900, 800, 700, 600] }).loadedSpeedRatio ?? 0;
    expect(ratio([30, 20, 30, 10]) / ratio([10, 20, 10, 10])).toBeCloseTo(9 / 8, 9);
  });

  it('rates no current that the voltage just drives through the winding', () => {
    const [edge] = preparedOf({
      motor: { ...OUTRUNNER, resistance: '100 mohm', maker_limits: { current: '125 A', voltage: '12.5 V' } },
    }).candidates;
    expect(sheetFigures(edge, run).rated).toBeUndefined();
  });
});
