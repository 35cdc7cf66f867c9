/** Every figure that the audit makes of a sheet and a run: its name, its number, its unit and the words it is shown in. */
import { type SheetFigures, sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { peerRemarks, shapeRemarks, windRemarks } from '@shaftwork/sim-core/questions/audit/peers';
import { figuresOf } from '@shaftwork/sim-core/questions/audit/table';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { expect, it } from 'vitest';
import { OUTRUNNER, preparedOf } from '../../provenance/drives.js';
import { FULL } from '../judge/simulated.js';

const [input] = preparedOf({
  motor: { ...OUTRUNNER, maker_limits: { current: '20 A', voltage: '12.5 V', input_power: '200 W' } },
}).candidates;
const run = runCandidate(input, FULL);
const sheet: SheetFigures = {
  ...sheetFigures(input, run),
  motorConstant: 0.02,
  gradient: 1000,
  stallCurrent: 130,
  noLoadSpeed: 1200,
  rotorSurfaceSpeed: 16,
  electricalSpeed: 8400,
  peakEfficiency: 0.836,
  peakEfficiencyCurrent: 10.6,
  ratedPowerShare: 0.8,
  ratedInputPerMass: 3030,
  rated: { current: 20, copperLoss: 38.4, heating: { settles: 350, limitAfter: 300 } },
  loadedSpeedRatio: 0.8,
  meanInput: 100,
  noLoadEnergy: 30,
  inputEnergy: 120,
  tipMach: 0.42,
  dischargeRate: 20 / 3600,
};
const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ');

it('figures stand in one order, each with its number and words', () => {
  const hot = { headline: { ...run.headline, peakCanTemperature: { dimension: 'temperature' as const, nominal: 330 } } };
  const { torqueConstant } = sheet.system.motor;
  const volts = 'at 12.5 V';
  const amperes = 'at 20.0 A';
  const rows = figuresOf(sheet, hot).map(({ id, words, value, unit, text, at }) => [
    id,
    plain(words),
    value,
    unit,
    plain(text),
    at === undefined ? at : plain(at),
  ]);
  const near = (value: number) => expect.closeTo(value, 6);
  expect(rows).toEqual([
    ['torqueConstant', 'torque constant', torqueConstant, 'N·m/A', '10.4 mN·m/A', undefined],
    ['motorConstant', 'motor constant', 0.02, 'N·m/√W', '20.0 mN·m/√W', undefined],
    ['motorConstantPerMass', 'motor constant per mass', near(0.02 / 0.066), 'N·m/(√W·kg)', '30.3 mN·m/√W per 100 g', undefined],
    ['resistanceTimesKvSquared', 'resistance times Kv squared', near(2500), 'W/(N·m)²', '25.0 W of copper loss at 0.1 N·m', undefined],
    ['speedTorqueGradient', 'speed–torque gradient', 1000, 'rad/(s·N·m)', '9.55 rpm per mN·m', undefined],
    ['stallCurrent', 'stall current', 130, 'A', '130 A', volts],
    ['noLoadSpeed', 'no-load speed', 1200, 'rad/s', '11459 rpm', volts],
    ['rotorSurfaceSpeed', 'surface speed of the rotor', 16, 'm/s', '16 m/s', volts],
    ['electricalSpeed', 'electrical speed', 8400, 'rad/s', '80214 rpm', volts],
    ['peakEfficiency', 'best efficiency', 0.836, '1', '83.6 %', volts],
    ['peakEfficiencyCurrent', 'current of best efficiency', 10.6, 'A', '10.6 A', volts],
    ['ratedPowerShare', 'rated power over voltage times current', 0.8, '1', '80 %', undefined],
    ['ratedInputPerMass', 'rated input per mass', 3030, 'W/kg', '3.0 W/g', undefined],
    ['ratedCopperLoss', 'copper loss at the rated current, cold', 38.4, 'W', '38 W', amperes],
    ['ratedWindingTemperature', 'winding at the rated current for good', 350, 'K', '77 °C', amperes],
    ['ratedTimeToLimit', 'time to the winding’s 130 °C', 300, 's', '5:00 min', amperes],
    ['loadedSpeedRatio', 'speed over Kv times resting voltage, full throttle', 0.8, '1', '0.80', undefined],
    ['meanInputPerMass', 'mean input per mass over the run', near(100 / 0.066), 'W/kg', '1.5 W/g', undefined],
    ['noLoadShare', 'iron and friction of the run’s input', 0.25, '1', '25 %', undefined],
    ['tipMach', 'Mach number of the blade tips', 0.42, '1', '0.42', undefined],
    ['canTemperature', 'hottest can', 330, 'K', '57 °C', undefined],
    ['dischargeRate', 'peak discharge', near(20 / 3600), '1/s', '20.0 C', undefined],
  ]);
});

it('candidates against one another are told word for word', () => {
  const { system } = sheet;
  const { motor } = system;
  const named = (name: string, motorConstant: number, more: Partial<typeof motor> = {}): SheetFigures => ({
    ...sheet,
    motorConstant,
    input: { ...input, name },
    system: { ...system, motor: { ...motor, ...more } },
  });
  const kin = [named('A', 0.02), named('B', 0.021), named('C', 0.05)];
  expect(peerRemarks(kin, []).map((each) => ({ ...each, says: plain(each.says) }))).toEqual([
    {
      kind: 'motor-constant-out-of-line',
      candidate: 'C',
      weight: 'unusual',
      says: 'motor constant 50.0 mN·m/√W where the other outrunners of this scenario, scaled to its mass, have about 21.0 mN·m/√W; with 960 mΩ it would be in line',
      basis: 'similarity, from the other candidates',
      value: 0.05,
      bound: expect.closeTo(0.021, 9),
      unit: 'N·m/√W',
    },
  ]);
  const [one] = peerRemarks(kin, []);
  expect(peerRemarks(kin, [one])).toEqual([]);
  expect(peerRemarks(kin, [{ ...one, candidate: 'A' }])).toHaveLength(1);
  // two of a kind, or three of which two are the same, have no middle
  expect(peerRemarks(kin.slice(1), [])).toEqual([]);
  expect(peerRemarks([named('A', 0.02), named('B', 0.02), named('C', 0.05)], [])).toEqual([]);
  const two = [named('A', 0.02), named('B', 0.02, { resistance: 2 * motor.resistance, canDiameter: motor.canDiameter })];
  expect(shapeRemarks(two, []).map((each) => ({ ...each, says: plain(each.says) }))).toEqual([
    {
      kind: 'shapes-disagree',
      candidate: 'B',
      weight: 'note',
      says: 'by the figures of A, which weighs about the same, a can of this shape should have 96.0 mΩ at this Kv; its sheet says 192 mΩ (+100 %)',
      basis: 'shape laws, D⁴L²/(L + k·D); Hanselman 2003, ch. 4',
      value: 2 * motor.resistance,
      bound: expect.closeTo(motor.resistance, 9),
      unit: 'Ω',
    },
  ]);
  const [winds] = windRemarks([{ candidates: ['A', 'B'], resistanceTimesKvSquared: [2500, 5000], spread: 2 }]);
  expect({ ...winds, says: plain(winds.says) }).toMatchObject({
    kind: 'winds-disagree',
    weight: 'contradiction',
    says: 'A and B share can and mass, yet their copper losses at one torque are 25.0 W and 50.0 W.',
    basis: 'physics',
    value: 2,
    bound: 1.25,
    unit: '1',
  });
});
