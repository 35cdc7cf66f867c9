/** Measured points: torque off a current, and how far off the points may be, by hand. */
import { lossTorque } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, dataOf, from, OUTRUNNER, preparedOf, problemsOf, SCREW, type Section } from '../drives.js';

const screw = (points: readonly Section[], more: Section = {}): Section => ({
  kind: 'measured-points',
  diameter: AIR_SCREW.diameter,
  points,
  ...more,
});
const drive = (points: readonly Section[], more: Section = {}): Section => ({ propeller: screw(points), ...more });
const loadOf = (of: Section) => {
  const { load } = dataOf(of);
  if (load.kind !== 'propeller') throw new Error('a propeller');
  return load;
};
/** Power coefficient at rest. */
const power = (of: Section): number => loadOf(of).table.power[0];
const SPEED = 300 * Math.PI;

describe('the torque of a point', () => {
  const torque = (newtonMetres: number): Section => ({ shaft_speed: '9000 rpm', thrust: '8 N', torque: `${newtonMetres} N·m` });
  it('is that of a shaft power over the speed', () => {
    expect(power(drive([{ shaft_speed: '9000 rpm', thrust: '8 N', shaft_power: '94.24777960769379 W' }]))).toBeCloseTo(
      power(drive([torque(0.1)])),
      12,
    );
  });
  it('passes the gear that the motor had', () => {
    // without the voltage: (k_t·i − loss torque) × ratio × efficiency, the motor turning faster by the ratio
    const geared = { gearbox: { ratio: 2, efficiency: '90 %' } };
    const by = drive([{ shaft_speed: '9000 rpm', thrust: '8 N', battery_current: '11 A' }], geared);
    const { motor } = realise(dataOf(by));
    const expected = (motor.torqueConstant * 11 - lossTorque(motor, 2 * SPEED, 1)) * 2 * 0.9;
    expect(power(by)).toBeCloseTo(power(drive([torque(expected)], geared)), 12);
    // with it: what the winding does not take of the power, over the motor's own speed
    const slow = drive([{ shaft_speed: '3500 rpm', thrust: '3 N', battery_current: '11 A', voltage: '11.4 V' }], geared);
    const direct = drive([{ shaft_speed: '7000 rpm', thrust: '3 N', battery_current: '11 A', voltage: '11.4 V' }]);
    // the same motor at the same speed gives the same torque; behind the gear 2 × 0.9 of it, at half the speed
    expect(power(slow) / power(direct)).toBeCloseTo(2 * 0.9 * 4, 9);
  });
  it('at part throttle is that of the voltage that is left', () => {
    const at = (throttle: string, current: string): Section => ({
      shaft_speed: '5000 rpm',
      thrust: '3 N',
      battery_current: current,
      voltage: '11.4 V',
      throttle,
    });
    expect(preparedOf(drive([at('60 %', '4 A')])).candidates).toHaveLength(1);
    // 5000 rpm ask for 5.4 V: not from 40 % of 11.4
    expect(problemsOf(drive([at('40 %', '4 A')]))[0].found).toContain('does not reach');
  });
  it('is refused where Kv leaves no room for it, with a tenth to spare', () => {
    // 9000 rpm over 920 rpm/V: 9.78 V, a tenth less 8.89 V
    const read = (voltage: string, current: string) =>
      drive([{ shaft_speed: '9000 rpm', thrust: '8 N', battery_current: current, voltage }]);
    expect(problemsOf(read('8.85 V', '11 A'))[0].found).toContain('does not reach at that voltage');
    expect(preparedOf(read('8.95 V', '11 A')).candidates).toHaveLength(1);
    // 0.1 Ω of winding and path take all of 8.95 V at 90 A
    expect(problemsOf(read('8.95 V', '95 A'))[0].found).toContain('turns into heat alone');
  });
  it('reads the air where it was measured, and water as it is', () => {
    const air = (measured_at: Section) => power({ propeller: screw([torque(0.1)], { measured_at }) });
    // the coefficient goes with the inverse of the density, and that with the inverse of the temperature
    expect(air({ air: '30 °C' }) / air({ air: '0 °C' })).toBeCloseTo(303.15 / 273.15, 9);
    expect(air({ altitude: '0 m' })).toBeCloseTo(power(drive([torque(0.1)])), 9);
    expect(air({ altitude: '2000 m' }) / air({ altitude: '0 m' })).toBeCloseTo(101_325 / 79_501, 4);
    const wet = (more: Section) => power({ propeller: screw([torque(0.1)], { medium: 'water', ...more }) });
    expect(wet({ measured_at: { air: '30 °C' } })).toBe(wet({}));
    expect(power(drive([torque(0.1)])) / wet({})).toBeCloseTo(999.1 / 1.225, 0);
  });
});

describe('how far off points may be', () => {
  /** Half-widths of what was written beside the points. */
  const written = (points: readonly Section[], more: Section = {}) => {
    const { thrustFactor, powerFactor } = loadOf(drive(points, more));
    return [thrustFactor, powerFactor].map(({ origin }) => (origin.kind === 'given' ? Number.NaN : origin.inputs.written.value));
  };
  it('counts the speed twice for thrust and torque, three times for power', () => {
    const [thrust, torque] = written([{ shaft_speed: '9000 rpm ± 2 %', thrust: '8 N ± 3 %', torque: '0.1 N·m ± 1 %' }]);
    expect(thrust).toBeCloseTo(Math.hypot(0.03, 0.04), 6);
    expect(torque).toBeCloseTo(Math.hypot(0.01, 0.04), 6);
    expect(written([{ shaft_speed: '9000 rpm ± 2 %', thrust: '8 N', shaft_power: '90 W ± 1 %' }])[1]).toBeCloseTo(
      Math.hypot(0.01, 0.06),
      6,
    );
  });
  it('of a current holds the voltage and the balance of power besides', () => {
    const read = { shaft_speed: '9000 rpm ± 2 %', thrust: '8 N', battery_current: '11 A ± 4 %' };
    expect(written([{ ...read, voltage: '11.4 V ± 1 %' }])[1]).toBeCloseTo(Math.hypot(0.04, 0.03, 0.01, 0.06), 6);
    // by the torque constant alone ± 30 %
    expect(written([read])[1]).toBeCloseTo(Math.hypot(0.04, 0.3, 0.06), 6);
  });
  it('of several is the mean square of theirs', () => {
    const row = (rpm: number, thrust: string): Section => ({ shaft_speed: `${rpm} rpm`, thrust, torque: `${1.2e-9 * rpm ** 2} N·m` });
    const [thrust, torque] = written([row(9000, '8.1 N ± 2 %'), row(6000, '3.6 N ± 6 %')]);
    expect(thrust).toBeCloseTo(Math.sqrt((0.02 ** 2 + 0.06 ** 2) / 2), 6);
    expect(torque).toBeCloseTo(0.05, 6);
  });
  it('carried to speed is that of the fall besides, which a bench does not ask for', () => {
    const row = { shaft_speed: '9000 rpm', thrust: '8 N ± 0 %', torque: '0.1 N·m ± 0 %' };
    const bench = loadOf(drive([row]));
    expect([bench.thrustFactor, bench.powerFactor].map(from)).toEqual(['one-point-thrust-error', 'one-point-power-error']);
    expect(bench.shape).toBeUndefined();
    const carried = loadOf(drive([row], { vehicle: { mass: '1 kg', drag_area: '0.02 m2' } }));
    expect([carried.thrustFactor, carried.powerFactor].map(({ unknown }) => halfWidth95(unknown.spread))).toEqual([
      expect.closeTo(0.15, 9),
      expect.closeTo(0.2, 9),
    ]);
    expect(halfWidth95(carried.shape?.amount.unknown.spread ?? { shape: 'none' })).toBeCloseTo(0.38, 9);
    // in water the fall is better known
    const screwed = loadOf({
      motor: { ...OUTRUNNER, layout: 'inrunner' },
      propeller: screw([row], { medium: 'water', diameter: SCREW.diameter }),
      vehicle: { mass: '3 kg', drag_area: '0.02 m2' },
    });
    expect(halfWidth95(screwed.shape?.amount.unknown.spread ?? { shape: 'none' })).toBeCloseTo(0.17, 9);
  });
  it('is not narrowed by exact numbers where points scatter', () => {
    // thrust over speed squared 1 and 1.3, weighed by the fourth power of speed
    const rows = [
      { shaft_speed: '6000 rpm', thrust: '4 N ± 0 %', torque: '64 mN·m ± 0 %' },
      { shaft_speed: '9000 rpm', thrust: '11.7 N ± 0 %', torque: '144 mN·m ± 0 %' },
    ];
    const [slow, fast] = [6000 ** 4, 9000 ** 4];
    const fit = (slow + 1.3 * fast) / (slow + fast);
    const scatter = Math.sqrt(((1 / fit - 1) ** 2 + (1.3 / fit - 1) ** 2) / 2);
    const { thrustFactor, powerFactor } = loadOf(drive(rows));
    expect(halfWidth95(thrustFactor.unknown.spread)).toBeCloseTo(2 * scatter, 9);
    expect(halfWidth95(powerFactor.unknown.spread)).toBeLessThan(1e-9);
    // carried to speed, the scatter stands in place of what was written
    const carried = loadOf(drive(rows, { vehicle: { mass: '1 kg', drag_area: '0.02 m2' } }));
    expect(halfWidth95(carried.thrustFactor.unknown.spread)).toBeCloseTo(Math.hypot(0.15, 2 * scatter), 9);
  });
  it('measured under way needs no fall', () => {
    const rows = [0, 6, 12].map((v, k) => ({
      shaft_speed: '9000 rpm',
      thrust: `${8 - 2 * k} N`,
      torque: `${0.1 - 0.01 * k} N·m`,
      vehicle_speed: `${v} m/s`,
    }));
    const load = loadOf(drive(rows, { vehicle: { mass: '1 kg', drag_area: '0.02 m2' } }));
    expect([load.thrustFactor, load.powerFactor].map(from)).toEqual(['fitted-thrust-error', 'fitted-power-error']);
    expect(load.shape).toBeUndefined();
  });
});

it('notes the air and the motor of a measurement only where they are left unsaid', () => {
  const choices = (points: readonly Section[], more: Section = {}) =>
    preparedOf({ propeller: screw(points, more) })
      .candidates[0].choices.map(({ choice }) => choice)
      .filter((choice) => choice.startsWith('measured'));
  const torque = { shaft_speed: '9000 rpm', thrust: '8 N', torque: '0.1 N·m' };
  const current = { shaft_speed: '9000 rpm', thrust: '8 N', battery_current: '11 A', voltage: '11.4 V' };
  expect(choices([torque])).toEqual(['measured-at']);
  expect(choices([torque], { measured_at: { air: '5 °C' } })).toEqual([]);
  expect(choices([torque], { medium: 'water' })).toEqual([]);
  expect(choices([current])).toEqual(['measured-at', 'measured-with']);
  expect(choices([current], { measured_with: 'A' })).toEqual(['measured-at']);
});
