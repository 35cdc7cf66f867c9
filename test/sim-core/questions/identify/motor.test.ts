/** A motor's constants from benches that were made: found again, told honestly, refused where the rows cannot tell them. @module */
import { RPM } from '@shaftwork/sim-core/quantities';
import { identifyMotor } from '@shaftwork/sim-core/questions/identify/identify-motor';
import { USUAL_PATH } from '@shaftwork/sim-core/questions/identify/motor-model';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { covered, FULL_THROTTLE, MADE, ONE_POINT, PART_THROTTLE, SETUP } from '../../../identify/coverage.js';
import { madeBench, type Point } from '../../../identify/made-bench.js';

const identified = (points: readonly Point[], seed = 1, motor = MADE) =>
  identifyMotor({ rows: madeBench(motor, points, seed), setup: SETUP, sources: ['bench.csv'], taken: [], path: USUAL_PATH });
const numberOf = (result: ReturnType<typeof identified>, key: string) => {
  const found = result.numbers.find((each) => each.key === key);
  if (found === undefined) throw new Error(`no ${key}`);
  return found;
};

describe('a motor that was made', () => {
  it('is found again without noise', () => {
    const rows = madeBench(MADE, FULL_THROTTLE, 1, { exact: true });
    const result = identifyMotor({ rows, setup: SETUP, sources: ['b'], taken: [], path: USUAL_PATH });
    expect(result.settled).toBe(true);
    // what is known before draws by less than its own interval
    expect(Math.abs(numberOf(result, 'kv').value * MADE.kt - 1)).toBeLessThan(0.003);
    expect(Math.abs(numberOf(result, 'whole').value / MADE.resistance - 1)).toBeLessThan(0.03);
    expect(Math.abs(numberOf(result, 'inductance').value / MADE.inductance - 1)).toBeLessThan(0.03);
  });

  it('has intervals that hold the truth in 95 of 100 benches; 500 are counted by test/identify/coverage.ts', { timeout: 120_000 }, () => {
    for (const [points, seeds] of [
      [FULL_THROTTLE, 24],
      [PART_THROTTLE, 12],
    ] as const) {
      const { shares, misfit, unsettled } = covered(points, seeds);
      const all = Object.values(shares);
      const mean = all.reduce((sum, each) => sum + each, 0) / all.length;
      expect(mean).toBeGreaterThan(0.89);
      expect(mean).toBeLessThan(0.999);
      expect(misfit).toBeLessThan(0.1);
      expect(unsettled).toBe(0);
    }
  });

  it('that has a drag which the laws leave out is said not to fit', { timeout: 60_000 }, () => {
    const { misfit } = covered([...FULL_THROTTLE, ...FULL_THROTTLE, ...FULL_THROTTLE], 2, {
      ...MADE,
      constantLoss: 2e-5,
      speedLoss: 1e-9,
      windage: 3e-8,
    });
    expect(misfit).toBeGreaterThan(0.8);
  });

  it('is found in spite of rows that are wrong', () => {
    const rows = madeBench(MADE, FULL_THROTTLE, 3);
    const amps = rows.read.current ?? new Float64Array();
    const volts = rows.read.voltage ?? new Float64Array();
    amps[4] *= 3;
    volts[11] *= 0.5;
    const clean = identified(FULL_THROTTLE, 3);
    const result = identifyMotor({ rows, setup: SETUP, sources: ['b'], taken: [], path: USUAL_PATH });
    expect(Math.abs(numberOf(result, 'kv').value / numberOf(clean, 'kv').value - 1)).toBeLessThan(0.01);
    expect(result.fits.some(({ outliers }) => outliers > 0)).toBe(true);
  });
});

describe('what a bench cannot tell', () => {
  it('is refused with one propeller on one voltage: Kv and resistance are one', () => {
    const result = identified(ONE_POINT);
    const [kv, whole] = [numberOf(result, 'kv'), numberOf(result, 'whole')];
    expect([kv.told, whole.told]).toEqual([false, false]);
    for (const { low, value, high } of result.numbers) expect([low < value, value < high]).toEqual([true, true]);
    expect(kv.instead?.from?.words).toMatch(/resistance/);
    expect(Math.abs(kv.instead?.from?.correlation ?? 0)).toBeGreaterThan(0.9);
    expect(kv.instead?.run?.words).toMatch(/bare shaft/);
    expect(result.rank).toBeLessThan(5);
    expect(result.parts.some(({ file }) => file === 'motor.yaml')).toBe(false);
  });

  it('is told by the run that is named: the bare shaft gives Kv to what was foretold', () => {
    const foretold = numberOf(identified(ONE_POINT), 'kv').instead?.run?.left ?? Number.NaN;
    const bare: Point[] = Array.from({ length: 8 }, (_, k) => ({ supply: k < 4 ? 7.437 : 11.1, duty: 1, propeller: undefined }));
    const { value, high } = numberOf(identified([...ONE_POINT, ...bare]), 'kv');
    expect((high / value - 1) / foretold).toBeGreaterThan(0.6);
    expect((high / value - 1) / foretold).toBeLessThan(1.6);
  });

  it('throws where hardly a row tells anything', () => {
    expect(() => identified(ONE_POINT.slice(0, 2))).toThrow(/at least three/);
  });
});

it('the part file is read back as it was found', () => {
  const result = identified(FULL_THROTTLE);
  const [part, controller] = ['motor.yaml', 'controller.yaml'].map((name) => result.parts.find(({ file }) => file === name)?.text);
  expect(controller).toBeUndefined();
  const text = `title: read back
battery: { supply: 11.1 V }
propeller: { kind: measured-points, diameter: 5 in, points: [{ shaft_speed: 15000 rpm, thrust: 3 N, torque: 40 mN*m }] }
profile: [{ for: 1 s, throttle: 100 % }]
candidates: [{ name: One, motor: { use: motor.yaml, layout: outrunner, poles: 14, mass: 30 g, can: { diameter: 28 mm, length: 18 mm } } }]
`;
  const made = prepareScenario(
    new Map([
      ['s.yaml', text],
      ['motor.yaml', part ?? ''],
    ]),
    's.yaml',
  );
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  const { motor } = made.prepared.candidates[0].data;
  const kv = numberOf(result, 'kv');
  expect(Math.abs(motor.torqueConstant.value * kv.value - 1)).toBeLessThan(1e-3);
  expect(motor.resistance.value).toBeLessThan(numberOf(result, 'resistance').value);
  // the loss torque at speed is the one that was found: k·i at the higher voltage
  const noLoad = result.numbers.filter(({ key }) => key === 'noLoad').at(-1);
  const speed = ((noLoad?.at?.value ?? 0) - (noLoad?.value ?? 0) * motor.resistance.value) / motor.torqueConstant.value;
  const lost = motor.hysteresisTorque.value + motor.frictionTorque.value + motor.eddyTorque.value * speed;
  expect(Math.abs(lost / (motor.torqueConstant.value * (noLoad?.value ?? 0)) - 1)).toBeLessThan(0.01);
  expect(kv.value / RPM).toBeGreaterThan(2300);
});
