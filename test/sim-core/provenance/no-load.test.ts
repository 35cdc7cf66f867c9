/** Loss torque from no-load points: a straight line, and where draws and readings stop. Worked out by hand; no machine gives power by friction. */
import { lineThrough, losesPower, lossLine, noLoadEmf, type TwoPoints } from '@shaftwork/sim-core/provenance/no-load';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { RULES } from '@shaftwork/sim-core/provenance/rules/rules';
import { describe, expect, it } from 'vitest';
import { dataOf, OUTRUNNER, type Section } from './drives.js';

/** 0.01 N·m/A and 0.1 Ω: 1 A at 5.1 V turns at 500 rad/s, at 10.1 V at 1000 rad/s. */
const at = (current: number, lastCurrent: number): TwoPoints => ({
  torqueConstant: 0.01,
  resistance: 0.1,
  current,
  voltage: 5 + 0.1 * current,
  lastCurrent,
  lastVoltage: 10 + 0.1 * lastCurrent,
});
const turned = ({ current, voltage, lastCurrent, lastVoltage, ...motor }: TwoPoints): TwoPoints => ({
  ...motor,
  current: lastCurrent,
  voltage: lastVoltage,
  lastCurrent: current,
  lastVoltage: voltage,
});

describe('the line of two no-load points', () => {
  it('goes through both', () => {
    const { constant, slope } = lossLine(at(1, 1.5));
    expect(slope).toBeCloseTo(0.005 / 500, 15);
    expect(constant).toBeCloseTo(0.005, 15);
    expect(lossLine(at(1, 1.5))).toEqual(lineThrough(at(1, 1.5)));
  });

  it('loses nothing less than nothing: the faster point holds, whichever was written first', () => {
    // 2.5 times the torque at twice the speed: −0.005 N·m at rest
    expect(losesPower(lineThrough(at(1, 2.5)))).toBe(false);
    for (const points of [at(1, 2.5), turned(at(1, 2.5))]) {
      const { constant, slope } = lossLine(points);
      expect(constant).toBe(0);
      expect(slope).toBeCloseTo(0.025 / 1000, 15);
    }
    for (const points of [at(1, 0.5), turned(at(1, 0.5))]) {
      const { constant, slope } = lossLine(points);
      expect(slope).toBe(0);
      expect(constant).toBeCloseTo(0.005, 15);
    }
  });

  it('is one for points at one speed too', () => {
    const one = { ...at(1, 1.2), lastVoltage: 5.1 - 0.1 + 0.12 };
    const { constant, slope } = lossLine(one);
    expect(constant).toBeGreaterThanOrEqual(0);
    expect(slope).toBeGreaterThanOrEqual(0);
    expect(lossLine({ ...at(1, 1), lastVoltage: 5.1 })).toEqual({ constant: 0.01, slope: 0 });
  });
});

it('half of the voltage at least turns the motor', () => {
  expect(noLoadEmf(0.1, 10, 2)).toBeCloseTo(9.8, 12);
  expect(noLoadEmf(0.1, 10, 80)).toBe(5);
  const one = { torqueConstant: 0.01, resistance: 0.1, current: 120, voltage: 10, share: 0.5 };
  // half of 1.2 N·m over 5 V/0.01 V·s
  expect(RULES['speed-loss-torque'].law(one)).toBeCloseTo(0.6 / 500, 15);
});

describe('a draw of a motor', () => {
  const { kv: _, ...NO_KV } = OUTRUNNER;
  /** Errors one way and the other in turn, `z` deviations each, the way changed after every `turn`. */
  const losses = (motor: Section, z: number, turn: number): number[] => {
    const seen = new Map<string, number>();
    const system = realise(dataOf({ motor }), (key) => {
      const error = seen.get(key) ?? (Math.floor(seen.size / turn) % 2 === 0 ? z : -z);
      seen.set(key, error);
      return error;
    });
    const { hysteresisTorque, frictionTorque, eddyTorque, torqueConstant } = system.motor;
    return [hysteresisTorque, frictionTorque, eddyTorque, torqueConstant];
  };
  it.each<[string, Section]>([
    [
      'points far off',
      {
        ...OUTRUNNER,
        no_load: [
          { current: '0.7 A ± 90 %', voltage: '6 V' },
          { current: '0.9 A ± 90 %', voltage: '10 V' },
        ],
      },
    ],
    ['a winding that would take it all', { ...NO_KV, no_load: { current: '40 A ± 90 %', voltage: '10 V', speed: '5000 rpm' } }],
  ])('loses nothing less than nothing: %s', (_, motor) => {
    for (const z of [0, 4, -4])
      for (const turn of [1, 2, 3]) for (const each of losses(motor, z, turn)) expect(each).toBeGreaterThanOrEqual(0);
  });
});
