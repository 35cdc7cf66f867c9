/** What the model answers to a reading, one condition at a time, and how readings are named. */
import { infraredReading, THERMOMETER_PLACES } from '@shaftwork/sim-core/heat/thermometer';
import { windingResistance } from '@shaftwork/sim-core/parts/motor';
import type { GivenReadingRow } from '@shaftwork/sim-core/provenance/given';
import { type Draw, NOMINAL, realise } from '@shaftwork/sim-core/provenance/realise';
import { logNormal95, NO_SPREAD, normal95, type Spread } from '@shaftwork/sim-core/quantities';
import { modelKeys } from '@shaftwork/sim-core/questions/doubt/plan';
import { pointOf } from '@shaftwork/sim-core/questions/point';
import { answersOf, cutOff, otherKeys, thermometerFactor, thermometerKey } from '@shaftwork/sim-core/questions/readings/answers';
import {
  conditionsOf,
  isThermometer,
  numberWords,
  offItsScale,
  onItsScale,
  readingWords,
} from '@shaftwork/sim-core/questions/readings/numbers-read';
import { looksBefore, rimSpeedIn, thermometerExcess } from '@shaftwork/sim-core/questions/readings/thermometer-reads';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { boat, preparedOf, type Section } from '../../provenance/drives.js';
import { type Key, read, row } from './made-row.js';

const PROFILE = [
  { duration: 20, hold: 'throttle' as const, value: { from: 0.4, to: 0.8 } },
  { duration: 20, hold: 'throttle' as const, value: { from: 0.6, to: 0.6 } },
];
const bench = (more: Section = {}) => preparedOf(more).candidates[0];
const answers = (given: GivenReadingRow, draw: Draw = NOMINAL, more: Section = {}): readonly number[] =>
  answersOf(bench(more), read(given), PROFILE)(draw);
const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ');

describe('numbers of a row', () => {
  it('are channels, thermometers and the resistance, in their order; volts beside a throttle are a condition', () => {
    const all = row({ shaftSpeed: 800, batteryCurrent: 9, voltage: 11, resistance: 0.1, inSlot: 350, can: 320, thrust: 4 });
    expect(read(all).map(({ key }) => key)).toEqual(['batteryCurrent', 'shaftSpeed', 'thrust', 'voltage', 'can', 'inSlot', 'resistance']);
    expect(read(row({ throttle: 0.5, voltage: 11, motorCurrent: 9 })).map(({ key }) => key)).toEqual(['motorCurrent']);
    expect(isThermometer('can')).toBe(true);
    expect(isThermometer('resistance')).toBe(false);
  });

  it('have as conditions what was set and is in doubt', () => {
    const keys = (given: GivenReadingRow) => conditionsOf(given).map(({ value }) => value);
    const doubtful = row(
      { throttle: 0.5, voltage: 11, vehicleSpeed: 3, at: 10, after: 20, resistanceAt: 300, emissivity: 0.9, batteryCurrent: 9 },
      () => normal95(0.01),
    );
    expect(keys(doubtful)).toEqual([0.5, 11, 3, 10, 20, 300, 0.9]);
    expect(keys(row({ throttle: 0.5, voltage: 11 }))).toEqual([]);
    expect(keys(row({ voltage: 11, shaftSpeed: 800 }, () => normal95(0.01)))).toEqual([]);
  });

  it('lie on the scale on which their error is normal', () => {
    const [wide, narrow] = [row({ thrust: 4 }, () => logNormal95(0.1)), row({ thrust: 4 }, () => normal95(0.1))].map(
      (each) => read(each)[0].datum,
    );
    expect([onItsScale(wide, Math.E), offItsScale(wide, 1)]).toEqual([1, Math.E]);
    expect([onItsScale(narrow, 3), offItsScale(narrow, 3)]).toEqual([3, 3]);
  });

  it('are named by what and when', () => {
    const said = (values: Partial<Record<Key, number>>) =>
      read(row(values)).map((each) => [plain(readingWords(each)), plain(numberWords(each))]);
    expect(said({ throttle: 0.5, batteryCurrent: 9 })).toEqual([['9.00 A', 'battery current at 50.0 % throttle']]);
    expect(said({ throttle: 0.5, voltage: 11, motorCurrent: 9 })).toEqual([['9.00 A', 'motor current at 50.0 % throttle and 11.0 V']]);
    expect(said({ at: 75, voltage: 11 })).toEqual([['11.0 V at the controller', 'voltage at the controller at 1:15']]);
    expect(said({ after: 60, can: 333.15 })).toEqual([['60 °C on the can', 'temperature on the can 1:00 after the stop']]);
    expect(said({ after: 60, besideCoils: 333.15 })[0][0]).toBe('60 °C beside the coils');
    expect(said({ after: 60, end: 333.15 })[0][0]).toBe('60 °C on the fixed end');
    expect(said({ after: 60, inSlot: 333.15 })[0][0]).toBe('60 °C in a slot');
    expect(said({ after: 60, cells: 333.15 })[0][0]).toBe('60 °C on the cells');
    expect(said({ after: 60, controller: 333.15 })[0][0]).toBe('60 °C on the controller');
    expect(said({ resistance: 0.09 })[0][1]).toBe('winding resistance at 20 °C');
    expect(said({ resistance: 0.09, resistanceAt: 313.15 })[0][1]).toBe('winding resistance at 40 °C');
    expect(said({ resistance: 0.09 })[0][0]).toMatch(/^(90.0 mΩ|0.0900 Ω) of winding$/);
    expect(said({ at: 5, shaftSpeed: 800 })[0][1]).toBe('motor speed at 0:05');
    expect(said({ at: 5, thrust: 8 })[0][1]).toBe('thrust at 0:05');
  });
});

describe('a throttle', () => {
  it('on volts that were read is a stiff supply’s; without them the pack’s', () => {
    const system = realise(bench().data);
    const [current] = answers(row({ throttle: 0.7, batteryCurrent: 9 }));
    expect(current).toBeCloseTo(pointOf(system, { hold: 'throttle', value: 0.7, vehicleSpeed: 0 }).channels.batteryCurrent, 6);
    const [fed, speed] = answers(row({ throttle: 0.7, voltage: 10, batteryCurrent: 9, shaftSpeed: 700 }));
    // more volts, more turns, as Kv has it less what the current takes
    const [more, faster] = answers(row({ throttle: 0.7, voltage: 11, batteryCurrent: 9, shaftSpeed: 700 }));
    expect(more).toBeGreaterThan(fed);
    expect(faster).toBeGreaterThan(1.03 * speed);
    // it does not sag: at full throttle all of it stands at the motor but for path and winding
    const [full, turns] = answers(row({ throttle: 1, voltage: 10, motorCurrent: 9, shaftSpeed: 700 }));
    const { motor } = system;
    expect(turns * motor.torqueConstant + full * (motor.resistance + system.controller.pathResistance)).toBeGreaterThan(9);
    expect(turns * motor.torqueConstant + full * (motor.resistance + system.controller.pathResistance)).toBeLessThan(10.01);
    expect(answers(row({ throttle: 1.4, batteryCurrent: 9 }))[0]).toBeCloseTo(answers(row({ throttle: 1, batteryCurrent: 9 }))[0], 9);
  });

  it('stands still unless a speed was set', () => {
    const [rest] = answers(row({ throttle: 0.5, thrust: 8 }), NOMINAL, boat());
    const [still] = answers(row({ throttle: 0.5, thrust: 8, vehicleSpeed: 0 }), NOMINAL, boat());
    const [under] = answers(row({ throttle: 0.5, thrust: 8, vehicleSpeed: 2 }), NOMINAL, boat());
    expect(rest).toBe(still);
    expect(under).toBeLessThan(0.95 * rest);
  });

  it('on wheels rolls as it will', () => {
    const car: Section = {
      propeller: 'none',
      wheel: { radius: '40 mm', rolling_resistance: 0.03 },
      gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
      vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
    };
    const [current, turns] = answers(row({ throttle: 0.5, motorCurrent: 9, shaftSpeed: 700 }), NOMINAL, car);
    const { channels } = pointOf(realise(bench(car).data), { hold: 'throttle', value: 0.5 });
    expect([current, turns]).toEqual([channels.motorCurrent, channels.shaftSpeed]);
    expect(turns).toBeGreaterThan(100);
  });

  it('says nothing of temperatures', () => {
    expect(answers(row({ throttle: 0.5, can: 320, resistance: 0.1 }))).toEqual([Number.NaN, Number.NaN]);
  });

  it('is as doubtful as it was set', () => {
    const given = row({ throttle: 0.5, batteryCurrent: 9 }, (key) => (key === 'throttle' ? normal95(0.196) : NO_SPREAD));
    const [datum] = conditionsOf(given);
    const [high] = answers(given, (key) => (key === datum.unknown.key ? 1 : 0));
    expect(high).toBeCloseTo(answers(row({ throttle: 0.6, batteryCurrent: 9 }))[0], 4);
  });
});

describe('a time of the run', () => {
  it('is the run cut off there', () => {
    const [current, turns] = answers(row({ at: 30, batteryCurrent: 9, shaftSpeed: 700 }));
    const run = simulate(realise(bench().data), cutOff(PROFILE, 30), { method: 'dormand-prince', relative: 1e-6, record: true });
    const { trace } = run.recorded ?? { trace: { batteryCurrent: [], shaftSpeed: [] } };
    expect(current / (trace.batteryCurrent.at(-1) ?? 0)).toBeCloseTo(1, 3);
    expect(turns / (trace.shaftSpeed.at(-1) ?? 0)).toBeCloseTo(1, 3);
    expect(answers(row({ at: 41, batteryCurrent: 9 }))).toEqual([Number.NaN]);
    expect(answers(row({ at: 40, batteryCurrent: 9 }))[0]).toBeGreaterThan(1);
  });

  it('cuts a ramp where it has come to', () => {
    const [first, second] = cutOff(PROFILE, 25);
    expect(first).toEqual(PROFILE[0]);
    expect(second).toEqual({ duration: 5, hold: 'throttle', value: { from: 0.6, to: 0.6 } });
    expect(cutOff(PROFILE, 5)).toEqual([{ duration: 5, hold: 'throttle', value: { from: 0.4, to: expect.closeTo(0.5, 12) } }]);
    expect(cutOff(PROFILE, 20)).toHaveLength(1);
    expect(cutOff(PROFILE, 0)).toEqual([]);
    expect(cutOff(PROFILE, 90)).toEqual(PROFILE);
  });
});

describe('a thermometer', () => {
  const air = 288.15;
  const shown = (values: Partial<Record<Key, number>>, draw: Draw = NOMINAL): number => answers(row(values), draw)[0];
  it('shows its share of the excess, late, by its own factor and the model’s', () => {
    const slot = shown({ at: 40, inSlot: 350 });
    const run = simulate(realise(bench().data), PROFILE, { method: 'dormand-prince', relative: 1e-6, record: false });
    const winding = run.state[run.kernel.at.winding];
    expect(slot).toBeGreaterThan(air + 0.85 * (winding - air));
    expect(slot).toBeLessThan(air + 0.96 * (winding - air));
    const key = thermometerKey('inSlot', row({}), 'A');
    expect(key).toBe('thermometer:in-slot@A');
    const factor = thermometerFactor(THERMOMETER_PLACES['in-slot'], 1.959963984540054);
    expect(factor).toBeCloseTo(1.1, 9);
    expect(shown({ at: 40, inSlot: 350 }, (each) => (each === key ? 1.959963984540054 : 0)) - air).toBeCloseTo(1.1 * (slot - air), 6);
    const [common] = modelKeys('A');
    // a deviate of the model's common error: √0.8 of 10 %/1.96
    const warmer = shown({ at: 40, inSlot: 350 }, (each) => (each === common ? 1 : 0));
    expect((warmer - air) / (slot - air)).toBeCloseTo(1 + (Math.sqrt(0.8) * 0.1) / 1.96, 4);
  });

  it('after the stop shows what is left; one that looks sees less of bare metal', () => {
    expect(shown({ after: 300, inSlot: 350 })).toBeLessThan(shown({ after: 5, inSlot: 350 }));
    const black = shown({ after: 60, can: 320, emissivity: 0.95 });
    const bare = shown({ after: 60, can: 320, emissivity: 0.2 });
    expect(bare).toBeCloseTo(infraredReading(black, 0.2, air), 6);
    expect(thermometerKey('can', row({ emissivity: 0.2 }), 'A')).toBe('thermometer:infrared-can@A');
  });
});

describe('a resistance', () => {
  it('is copper’s at its temperature, at 20 °C where none was read, at the winding’s after the stop', () => {
    const { motor } = realise(bench().data);
    expect(answers(row({ resistance: 0.1 }))[0]).toBeCloseTo(0.096, 12);
    expect(answers(row({ resistance: 0.1, resistanceAt: 333.15 }))[0]).toBeCloseTo(windingResistance(motor, 333.15), 12);
    const [soon, late] = [5, 600].map((after) => answers(row({ resistance: 0.1, after }))[0]);
    expect(soon).toBeGreaterThan(1.02 * windingResistance(motor, 288.15));
    expect(late).toBeLessThan(soon);
  });
});

describe('a run that is read', () => {
  const small: Section = { battery: { cells: { series: 3 }, capacity: '0.06 Ah' } };
  it('is asked only for moments that it comes to, and for what is left after it where it ends early', () => {
    const of = (values: Partial<Record<Key, number>>) => answers(row(values), NOMINAL, small)[0];
    const { time, end } = simulate(realise(bench(small).data), PROFILE, { method: 'dormand-prince', relative: 1e-4, record: false });
    expect([end === 'finished', time > 3, time < 40]).toEqual([false, true, true]);
    expect(of({ at: 3, batteryCurrent: 9 })).toBeGreaterThan(1);
    expect(of({ at: 39, batteryCurrent: 9 })).toBeNaN();
    expect(of({ after: 5, inSlot: 350 })).toBeGreaterThan(288.15);
  });
  it('shows on several thermometers and instruments what it shows on each alone', () => {
    const all: Partial<Record<Key, number>> = { at: 40, batteryCurrent: 9, inSlot: 350, besideCoils: 320 };
    const [amps, coils, slot] = answers(row(all));
    const alone = (key: Key): number => answers(row({ at: 40, [key]: 300 }))[0];
    expect([amps, coils, slot]).toEqual((['batteryCurrent', 'besideCoils', 'inSlot'] as const).map((key) => expect.closeTo(alone(key), 1)));
    // as warm as they are they must not be taken for one another
    expect(slot - coils).toBeGreaterThan(1);
  });
  it('has thermometers as late as their law, in the stream of the turning rim', () => {
    const system = realise(bench().data);
    const STEPPER = { method: 'dormand-prince', relative: 1e-4, record: false } as const;
    const recorded = simulate(system, PROFILE, { ...STEPPER, record: true });
    const rim = rimSpeedIn(recorded, system.motor.canDiameter);
    for (const [key, id] of [
      ['inSlot', 'in-slot'],
      ['besideCoils', 'beside-coils'],
    ] as const) {
      const place = THERMOMETER_PLACES[id];
      const looks = looksBefore(place, 25);
      const run = simulate(system, cutOff(PROFILE, 25), { ...STEPPER, keepAt: Float64Array.from(looks) });
      const { excess } = thermometerExcess(place, system, run, new Map(run.kept.map((y, k) => [looks[k], y])), rim, undefined);
      expect(answers(row({ at: 25, [key]: 350 }))[0] - 288.15, key).toBeCloseTo(excess, 6);
      const still = thermometerExcess(place, system, run, new Map(), () => 0, undefined).excess;
      expect(Math.abs(still / excess - 1), key).toBeGreaterThan(0.03);
    }
  });
  it('that ends early is followed up to there', () => {
    const { time } = simulate(realise(bench(small).data), PROFILE, { method: 'dormand-prince', relative: 1e-4, record: false });
    const of = (values: Partial<Record<Key, number>>) => answers(row(values), NOMINAL, small)[0];
    expect(Math.abs(of({ after: 0.01, inSlot: 350 }) - of({ at: time - 0.01, inSlot: 350 }))).toBeLessThan(0.05);
  });
  it('on a supply knows nothing of what else hangs on the pack', () => {
    const given = row({ throttle: 0.7, voltage: 10, batteryCurrent: 9, thrust: 3 });
    const alone = answers(given);
    const data = bench().data;
    const burdened = {
      ...data,
      otherLoads: { ...data.otherLoads, value: 50 },
      wiring: { ...data.wiring, resistance: { ...data.wiring.resistance, value: 0.2 } },
      drives: 2,
    } as typeof data;
    expect(answersOf({ ...bench(), data: burdened }, read(given), PROFILE)(NOMINAL)).toEqual(alone);
    // without volts that were read the pack gives for all of it
    const own = row({ throttle: 0.7, batteryCurrent: 9 });
    expect(answersOf({ ...bench(), data: burdened }, read(own), PROFILE)(NOMINAL)[0]).not.toBeCloseTo(answers(own)[0], 3);
  });
  it('has a winding after the stop by as much warmer as the model errs', () => {
    const given = row({ after: 5, resistance: 0.1 });
    const rise = (draw: Draw): number => (answers(given, draw)[0] / 0.096 - 1) / 0.00393 + 20 - 15;
    const [common] = modelKeys('A');
    expect(rise(NOMINAL)).toBeGreaterThan(3);
    expect(rise((each) => (each === common ? 1 : 0)) / rise(NOMINAL)).toBeCloseTo(1 + (Math.sqrt(0.8) * 0.1) / 1.96, 2);
  });
  it('is read as late, as bare and as warm as it may have been', () => {
    const wide =
      (key: Key) =>
      (each: Key): Spread =>
        each === key ? normal95(1.96 * STEP_OF[each]) : NO_SPREAD;
    const STEP_OF = { at: 2, after: 20, emissivity: 0.1, resistanceAt: 10, voltage: 0.5 } as Record<Key, number>;
    const cases: readonly (readonly [Key, Partial<Record<Key, number>>])[] = [
      ['at', { at: 10, batteryCurrent: 9 }],
      ['after', { after: 10, inSlot: 350 }],
      ['emissivity', { after: 10, can: 320, emissivity: 0.5 }],
      ['resistanceAt', { resistance: 0.1, resistanceAt: 300 }],
      ['voltage', { throttle: 0.7, voltage: 10, batteryCurrent: 9 }],
    ];
    for (const [key, values] of cases) {
      const given = row(values, wide(key));
      const unsure = given[key] ?? expect.fail();
      const moved = answers(given, (each) => (each === unsure.unknown.key ? 1 : 0))[0];
      const value = values[key] ?? Number.NaN;
      expect(moved, key).toBeCloseTo(answers(row({ ...values, [key]: value + STEP_OF[key] }))[0], 4);
      expect(moved, key).not.toBe(answers(given)[0]);
    }
  });
});

it('what else may be off: conditions in doubt, the model where heat is read, each thermometer', () => {
  const doubtful = (values: Partial<Record<Key, number>>) =>
    otherKeys(read(row(values, () => normal95(0.01))), 'A').map((key) => key.replace(/^a\.yaml.*/, 'condition'));
  expect(doubtful({ throttle: 0.5, batteryCurrent: 9 })).toEqual(['condition']);
  expect(doubtful({ after: 60, can: 320 })).toEqual(['condition', ...modelKeys('A'), 'thermometer:on-can@A']);
  expect(doubtful({ after: 60, resistance: 0.1 })).toEqual(['condition', ...modelKeys('A')]);
  expect(doubtful({ resistance: 0.1 })).toEqual([]);
  // what is no temperature owes nothing to the model of heat
  expect(doubtful({ after: 60, batteryCurrent: 9 })).toEqual(['condition']);
});
