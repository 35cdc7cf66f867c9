/** Intervals of what follows from other numbers: its own error and theirs, each moved alone, the logarithms added by squares; the same where readings tied them. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { withLearnt } from '@shaftwork/sim-core/provenance/learnt';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import type { Dimension, Spread } from '@shaftwork/sim-core/quantities';
import { logNormal95, NO_SPREAD } from '@shaftwork/sim-core/quantities/spread';
import { assumedNumbers } from '@shaftwork/sim-core/questions/run/assumptions';
import { describe, expect, it } from 'vitest';

let line = 0;
const given = <D extends Dimension>(dimension: D, value: number, spread: Spread = NO_SPREAD) =>
  givenDatum('motor.kv', dimension, value, spread, { file: 'a.yaml', line: ++line, column: 1, path: 'motor' });
/** A resistance from a bench's reading: ten volts and ten amperes at 500 rad/s, through nothing but the winding. */
function reading(torqueConstant: Spread, voltage: Spread = NO_SPREAD) {
  const none = 0;
  return createFiller('A').by('resistance-from-reading', {
    torqueConstant: given('torqueConstant', 0.01, torqueConstant),
    voltage: given('voltage', 10, voltage),
    current: given('current', 10),
    speed: given('angularSpeed', 500),
    ratio: given('ratio', 1),
    polePairs: given('ratio', 7),
    inductance: given('inductance', none),
    inductanceTime: given('time', none),
    idleCurrent: given('current', none),
    pathResistance: given('resistance', none),
    switchingTime: given('time', none),
    pwmFrequency: given('frequency', none),
    deadTime: given('time', none),
    deadTimeDrop: given('voltage', none),
  });
}
/** By hand: R = (U − k·ω)/I. */
const ohms = (k: number, volts = 10): number => (volts - k * 500) / 10;
const lineOf = (data: object) =>
  assumedNumbers([{ name: 'A', data }]).find(({ origin }) => origin === 'resistance-from-reading') ?? expect.fail();

describe('a number that follows from others', () => {
  it('has its own error and theirs, by squares, each side for itself', () => {
    const alone = lineOf({ motor: { resistance: reading(NO_SPREAD) } });
    expect([alone.value, alone.kind, alone.path]).toEqual([expect.closeTo(0.5, 9), 'derived', 'motor.resistance']);
    // ± 5 % of the rule itself
    expect([alone.low, alone.high]).toEqual([expect.closeTo(0.5 / 1.05, 9), expect.closeTo(0.525, 9)]);
    const own = [Math.log(alone.low / 0.5), Math.log(alone.high / 0.5)];
    const one = lineOf({ resistance: reading(logNormal95(0.02)) });
    expect(Math.log(one.high / 0.5)).toBeCloseTo(Math.hypot(own[1], Math.log(ohms(0.01 / 1.02) / 0.5)), 9);
    expect(Math.log(one.low / 0.5)).toBeCloseTo(-Math.hypot(own[0], Math.log(ohms(0.01 * 1.02) / 0.5)), 9);
    const two = lineOf({ resistance: reading(logNormal95(0.02), logNormal95(0.03)) });
    expect(Math.log(two.high / 0.5)).toBeCloseTo(
      Math.hypot(own[1], Math.log(ohms(0.01 / 1.02) / 0.5), Math.log(ohms(0.01, 10.3) / 0.5)),
      9,
    );
  });

  it('has what is left of theirs where readings narrowed one', () => {
    const resistance = reading(logNormal95(0.02));
    const [entry] = unknownsOf([{ name: 'A', data: { resistance } }]).filter(({ words }) => words === 'Kv');
    const learnt = withLearnt(
      { resistance },
      new Map([[entry.key, { mean: 0, deviation: 0.5, mix: [{ of: entry, weight: 1 }], by: ['your reading'] }]]),
    );
    const before = lineOf({ resistance: reading(NO_SPREAD) });
    const after = lineOf(learnt);
    expect(after.value).toBeCloseTo(0.5, 9);
    expect(Math.log(after.high / 0.5)).toBeCloseTo(
      Math.hypot(Math.log(before.high / 0.5), Math.log(ohms(0.01 / Math.sqrt(1.02)) / 0.5)),
      4,
    );
    expect(Math.log(after.low / 0.5)).toBeCloseTo(-Math.hypot(Math.log(before.low / 0.5), Math.log(ohms(0.01 * Math.sqrt(1.02)) / 0.5)), 4);
  });

  it('tied to another so that both move it alike has the sum of what both do', () => {
    const resistance = reading(logNormal95(0.02), logNormal95(0.02));
    const entries = unknownsOf([{ name: 'A', data: { resistance } }]).filter(({ words }) => words === 'Kv');
    const [k, volts] = entries;
    // the volts have the deviate of the torque constant: U and k·ω rise together
    const same = { mean: 0, deviation: 1, mix: [{ of: k, weight: 1 }], by: [] };
    const tied = lineOf(withLearnt({ resistance }, new Map([k, volts].map(({ key }) => [key, same]))));
    const own = lineOf({ resistance: reading(NO_SPREAD) });
    expect(Math.log(tied.high / 0.5)).toBeCloseTo(Math.hypot(Math.log(own.high / 0.5), Math.log(ohms(0.01 * 1.02, 10.2) / 0.5)), 4);
  });
});
