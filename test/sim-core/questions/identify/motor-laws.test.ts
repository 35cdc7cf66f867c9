/** The laws that a motor's bench is fitted by against the bench that was made, and the numbers that follow from a fit, by hand. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { Fit } from '@shaftwork/sim-core/numerics/least-squares';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { HEAT_DATA, heatWrittenOut } from '@shaftwork/sim-core/questions/identify/heat-data';
import { INSTRUMENTS, scatterOf } from '@shaftwork/sim-core/questions/identify/instruments';
import { motorModel, USUAL_PATH } from '@shaftwork/sim-core/questions/identify/motor-model';
import { derivedNumbers, namedValues } from '@shaftwork/sim-core/questions/identify/motor-numbers';
import { describe, expect, it } from 'vitest';
import { FULL_THROTTLE, MADE, PART_THROTTLE, SETUP } from '../../../identify/coverage.js';
import { madeBench } from '../../../identify/made-bench.js';
import { INRUNNER, OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

/** Begun at the truth itself. */
const STARTS = {
  torqueConstant: MADE.kt,
  resistance: MADE.resistance,
  lossTorque: MADE.constantLoss,
  topSpeed: MADE.constantLoss / MADE.speedLoss,
  torque: [1.6e-8, 2.6e-8],
  thrust: [1.2e-6, 1.6e-6],
};
const ALL = ['voltage', 'current', 'motorCurrent', 'speed', 'torque', 'thrust'] as const;
const rows = madeBench(MADE, [...FULL_THROTTLE.slice(0, 15), ...PART_THROTTLE.slice(0, 16)], 1, { read: ALL, exact: true });
const made = () => motorModel(rows, SETUP, STARTS);
/** Deviates at the truth: what the rules take is moved to what was made. */
const truth = (model = made()): Float64Array =>
  Float64Array.from(model.list, ({ key, start, deviation }) => {
    const value = { inductanceTime: MADE.inductance / MADE.resistance, ripple: MADE.ripple, idle: MADE.idle }[key];
    return value === undefined ? 0 : Math.log(value / start) / deviation;
  });

describe('the laws of a bench', () => {
  it('are met by a bench that was made by them, in every reading', () => {
    const model = made();
    for (const { reading, read, law } of model.compared(truth(model))) expect(law / read, reading).toBeCloseTo(1, 6);
    const readings = new Set(model.compared(truth(model)).map(({ reading }) => reading));
    expect([...readings]).toEqual(['voltage', 'current', 'motorCurrent', 'torque', 'thrust']);
    const out = new Float64Array(model.count);
    model.residuals(truth(model), out);
    for (const each of out) expect(Math.abs(each)).toBeLessThan(1e-3);
  });

  it('know what is unknown: constants, what rules say, and a gain for every instrument', () => {
    const { list, unknowns, rowOf, readingOf, count } = made();
    expect(list.map(({ key }) => key)).toEqual([
      'kt',
      'resistance',
      'constantLoss',
      'speedLoss',
      'torque:P1',
      'torque:P2',
      'thrust:P1',
      'thrust:P2',
      'inductanceTime',
      'ripple',
      'idle',
      ...ALL.map((id) => `gain:${id}`),
    ]);
    expect(unknowns).toBe(list.length);
    expect([rowOf.length, readingOf.length]).toEqual([count, count]);
    // a bare shaft has no torque and no thrust to compare
    expect(readingOf.filter((each) => each === 'torque')).toHaveLength(26);
    expect(list.filter(({ kind }) => kind === 'gain').map(({ deviation }) => deviation)).toEqual(
      ALL.map((id) => INSTRUMENTS[id].gain / 1.959963984540054),
    );
    const words = list.map((each) => each.words);
    expect(new Set(words).size).toBe(words.length);
    for (const each of words) expect(each).toMatch(/^\S.{5,}/);
    const values = namedValues(made(), truth());
    expect(values.get('kt')).toBe(MADE.kt);
    expect(values.get('gain:speed')).toBe(1);
    expect(values.get('idle')).toBeCloseTo(0.06, 9);
  });

  it('with an instrument that reads too much say so of that instrument', () => {
    const model = made();
    for (const id of ['current', 'motorCurrent', 'thrust'] as const) {
      const z = truth(model);
      z[model.list.findIndex(({ key }) => key === `gain:${id}`)] = 1.959963984540054;
      const factor = 1 + INSTRUMENTS[id].gain;
      for (const { reading, read, law } of model.compared(z)) expect(law / read).toBeCloseTo(reading === id ? 1 / factor : 1, 6);
    }
  });

  it('with a warm winding have its resistance as it was read', () => {
    const warm = { ...rows, winding: new Float64Array(rows.time.length).fill(313.15 + 50) };
    const at = (of: typeof rows) =>
      motorModel(of, SETUP, STARTS)
        .compared(truth())
        .filter(({ reading }) => reading === 'voltage');
    const [plain, hot] = [at(rows), at(warm)];
    const { motorCurrent } = rows.read;
    plain.forEach(({ law, row }, k) => {
      expect(hot[k].law - law).toBeCloseTo(0.00393 * 50 * MADE.resistance * (motorCurrent?.[row] ?? 0), 1);
    });
    expect(Math.max(...hot.map(({ law }, k) => law - plain[k].law))).toBeGreaterThan(0.05);
  });

  it('weigh a reading of its own by its instrument’s scatter', () => {
    const model = made();
    const z = truth(model);
    z[model.list.findIndex(({ key }) => key === 'thrust:P1')] = 0.1;
    const out = new Float64Array(model.count);
    model.residuals(z, out);
    const thrusts = Array.from(model.rowOf, (row, i) => ({ row, i })).filter(
      ({ row, i }) => model.readingOf[i] === 'thrust' && rows.propeller[row] === 0,
    );
    for (const { row, i } of thrusts) {
      const read = rows.read.thrust?.[row] ?? 0;
      // scatter of the speed, twice over in its square, comes to that of the sensor
      const sensor = scatterOf(INSTRUMENTS.thrust, read);
      const off = read * (1 - Math.exp(0.07));
      expect(Math.abs(out[i])).toBeLessThanOrEqual(Math.abs(off / sensor) + 1e-9);
      expect(Math.abs(out[i])).toBeGreaterThan(0.5 * Math.abs(off / sensor));
      expect(Math.sign(out[i])).toBe(-1);
    }
  });
});

describe('numbers of a motor', () => {
  const found = () => {
    const model = made();
    const fit = { deviates: [...truth(model)], quantile: 2 } as Partial<Fit> as Fit;
    const x = namedValues(model, fit.deviates);
    const of = (bench: typeof rows, path: Parameters<typeof derivedNumbers>[3]) => derivedNumbers(bench, model, fit, path);
    const derived = of(rows, { resistance: 0.01, deviation: 0.2 });
    const value = (key: string, name?: string, at?: number): number =>
      derived
        .find((each) => each.key === key && (name === undefined || each.of === name) && (at === undefined || each.at?.value === at))
        ?.value(x) ?? Number.NaN;
    return { x, of, derived, value };
  };

  it('follow from the constants', () => {
    const { x, of, derived, value } = found();
    expect(value('kv')).toBeCloseTo(1 / MADE.kt, 6);
    for (const each of derived) {
      expect(each.words).toMatch(/^\S.+/);
      expect(each.usual).toBeGreaterThan(0);
    }
    expect(value('whole')).toBeCloseTo(MADE.resistance, 12);
    expect(value('resistance')).toBeCloseTo(MADE.resistance - 0.01, 12);
    expect(value('inductance')).toBeCloseTo(MADE.inductance, 12);
    expect(value('idle')).toBeCloseTo(0.06, 9);
    // κ/L·v²·(½·½)² at the highest voltage
    expect(value('ripple')).toBeCloseTo(((MADE.ripple / MADE.inductance) * 12.6 ** 2) / 16, 9);
    expect(derived.find(({ key }) => key === 'resistance')?.beside).toBeCloseTo((0.2 * 0.01) / 0.08, 9);
    // never less than a tenth of the whole is the winding's
    const thick = of(rows, { resistance: 0.2, deviation: 0.2 }).find(({ key }) => key === 'resistance');
    expect(thick?.value(x)).toBeCloseTo(0.009, 9);
    expect(thick?.beside).toBeCloseTo((0.2 * 0.2) / 0.009, 6);
  });

  it('unloaded draw what their losses take, at the lowest and the highest voltage where these are apart', () => {
    const { of, value } = found();
    for (const voltage of [7.4, 12.6]) {
      const i = value('noLoad', undefined, voltage);
      const speed = (voltage - MADE.resistance * i) / MADE.kt;
      expect(MADE.kt * i).toBeCloseTo(MADE.constantLoss + MADE.speedLoss * speed, 12);
    }
    const narrow = madeBench(MADE, PART_THROTTLE, 1, { exact: true });
    expect(of(narrow, USUAL_PATH).filter(({ key }) => key === 'noLoad')).toHaveLength(1);
  });

  it('of propellers are those at the highest speed that each was turned at', () => {
    const { x, of, derived, value } = found();
    rows.propellers.forEach((name, p) => {
      const fastest = Math.max(...Array.from(rows.read.speed ?? []).filter((_, k) => rows.propeller[k] === p));
      const torque = derived.find((each) => each.key === 'torque' && each.of === name);
      expect(torque?.at).toEqual({ dimension: 'angularSpeed', value: fastest });
      expect(torque?.value(x)).toBeCloseTo([1.6e-8, 2.6e-8][p] * fastest ** 2, 12);
      expect(value('thrust', name)).toBeCloseTo([1.2e-6, 1.6e-6][p] * fastest ** 2, 9);
    });
    const unread = madeBench(MADE, FULL_THROTTLE, 1, { read: ['voltage', 'current', 'speed'], exact: true });
    expect(of(unread, USUAL_PATH).filter(({ key }) => key === 'thrust')).toHaveLength(0);
  });
});

describe('heat data written out', () => {
  const writtenOut = (more: Section = {}) => {
    const [{ name, given, data }] = preparedOf(more).candidates;
    const begunOf = ({ heat }: DriveSystem) => ({ heat, shaftSpeed: 500, outside: 0.8, throughFlow: 0.3 });
    return heatWrittenOut(name, given, data, begunOf);
  };

  it('are those of the motor’s layout, and leave the drive as it was', () => {
    const outrunner = writtenOut();
    expect(outrunner.unknowns.map(({ way }) => way.key)).toEqual([
      'winding_to_stator',
      'stator_to_can',
      'stator_to_air',
      'mount',
      'winding_capacity',
      'stator_capacity',
      'can_capacity',
    ]);
    expect(writtenOut({ motor: INRUNNER }).unknowns.map(({ way }) => way.key)).toEqual([
      'winding_to_stator',
      'stator_to_can',
      'can_to_air',
      'winding_capacity',
      'stator_capacity',
      'can_capacity',
    ]);
    const { heat } = outrunner.system(new Float64Array(7));
    expect(heat.windingToStator).toBeCloseTo(outrunner.system(new Float64Array(7)).heat.windingToStator, 12);
    expect(heat.capacity.winding).toBeCloseTo(realise(preparedOf({}).candidates[0].data).heat.capacity.winding, 9);
    expect(new Set(HEAT_DATA.map(({ words }) => words)).size).toBe(8);
    for (const { words, dimension, key } of HEAT_DATA) {
      expect(words).toMatch(/^(conductance (from|of)|heat capacity of) \S+/);
      expect(dimension).toBe(key.endsWith('capacity') ? 'heatCapacity' : 'conductance');
    }
  });

  it('are as doubtful as what they come from, between a twentieth and a factor of five', () => {
    const given = (way: string) =>
      writtenOut({ motor: { ...OUTRUNNER, thermal: { winding_to_stator: way } } }).unknowns.find(
        ({ way: each }) => each.key === 'winding_to_stator',
      );
    expect(given('1.4 W/K ± 30 %')?.deviation).toBeCloseTo(Math.log(1.3) / 1.959963984540054, 6);
    expect(given('1.4 W/K ± 30 %')?.start).toBeCloseTo(1.4, 9);
    expect(given('1.4 W/K ± 1 %')?.deviation).toBe(0.05);
  });

  it('move each by its own deviate, and no other', () => {
    const { unknowns, system } = writtenOut();
    const base = system(new Float64Array(7)).heat;
    unknowns.forEach(({ way, deviation, start }, k) => {
      expect(deviation).toBeGreaterThanOrEqual(0.05);
      expect(deviation).toBeLessThanOrEqual(Math.log(5) / 1.96 + 1e-12);
      const { heat } = system(Float64Array.from({ length: 7 }, (_, j) => (j === k ? 1 : 0)));
      const of = (each: typeof heat): number =>
        ({
          winding_to_stator: each.windingToStator,
          stator_to_can: [each.statorToCan, each.statorToMagnets].find((way) => way > 0 && way < 1e9) ?? Number.NaN,
          stator_to_air: each.statorToAir?.conductance ?? each.throughFlow,
          mount: each.toMount,
          winding_capacity: each.capacity.winding,
          stator_capacity: each.capacity.stator,
          can_capacity: each.capacity.can + each.capacity.magnets,
          can_to_air: Number.NaN,
        })[way.key];
      expect(of(heat) / of(base), way.key).toBeCloseTo(Math.exp(deviation), 6);
      expect(start).toBeGreaterThan(0);
      for (const other of unknowns) {
        if (other.way.key !== 'winding_capacity' || way.key === 'winding_capacity') continue;
        expect(heat.capacity.winding).toBe(base.capacity.winding);
      }
    });
  });
});
