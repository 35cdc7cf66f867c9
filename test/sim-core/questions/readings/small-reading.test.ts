/** One thermometer read after the stop of a drive of whose data only the pack’s charge is unsure, which matters little: what is left open is the model's error and the thermometer's own. */
import { damageTemperatures } from '@shaftwork/sim-core/drive/damage';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { normal95 } from '@shaftwork/sim-core/quantities/spread';
import { type ReadingAsk, reading } from '@shaftwork/sim-core/questions/readings/reading';
import { coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { preparedOf, TABLE_SCREW } from '../../provenance/drives.js';
import { sureBut } from '../sure-but.js';

const { candidates, scenario } = preparedOf({ propeller: TABLE_SCREW, profile: [{ for: '40 s', throttle: '90 %' }] });
const [input] = candidates;
const sure = { ...input, data: sureBut(input.data, ({ origin }) => origin.kind === 'given' && origin.subject === 'battery.capacity') };
const system = realise(sure.data);
const run = simulate(system, scenario.profile, { method: 'dormand-prince', relative: 1e-4, record: false });
const air = system.surroundings.motorAirTemperature;
const [stopped] = coolDown(system, run.state, [20], 1e-5) ?? [];
/** What a thermometer held to the can would show by then, a little late. */
const SHOWN = air + 0.95 * (stopped.bodies.can - air);
const ask = { place: 'on-can', reading: SHOWN, after: 20, samples: 16, seed: 3 } as const satisfies ReadingAsk;
const read = (more: Partial<ReadingAsk> = {}, name = 'A') => reading([sure], [], name, scenario.profile, { ...ask, ...more });

describe('a reading', () => {
  it('that is as foretold finds the peak of the run, as sure as model and thermometer leave it', () => {
    let drawn = 0;
    const found = read({ onDraw: () => void drawn++ });
    const { hiddenPeak, windingThen, copperAt60, expected, surprise, ...rest } = found;
    expect(rest).toEqual({ name: 'A', place: 'on-can', reading: SHOWN, after: 20, contradicts: false, samples: 16 });
    expect(drawn).toBe(16);
    expect(Math.abs(expected.nominal - SHOWN)).toBeLessThan(0.6);
    const rise = (value: number): number => value - air;
    const peak = rise(run.highest.windingTemperature.value);
    expect(rise(hiddenPeak.nominal) / peak).toBeGreaterThan(0.93);
    expect(rise(hiddenPeak.nominal) / peak).toBeLessThan(1.07);
    expect(rise(windingThen.nominal) / rise(hiddenPeak.nominal)).toBeCloseTo(rise(stopped.bodies.winding) / peak, 2);
    // model ± 10 % of every rise, thermometer × or ÷ 1.1, reading ± 2 K: two normal errors seen through one sum
    const [model, own, shown] = [0.1, Math.log(1.1), 2 / rise(SHOWN)];
    const left = model * Math.sqrt(1 - model ** 2 / (model ** 2 + own ** 2 + shown ** 2));
    const width = Math.log(rise(hiddenPeak.high) / rise(hiddenPeak.nominal));
    expect(width / left).toBeGreaterThan(0.6);
    expect(width / left).toBeLessThan(1.4);
    expect(Math.log(rise(hiddenPeak.low) / rise(hiddenPeak.nominal))).toBeCloseTo(-width, 9);
    // of what is foretold none of them is known
    const foretold = rise(expected.high) / rise(expected.nominal) - 1;
    expect(foretold / Math.hypot(model, own, shown)).toBeGreaterThan(0.8);
    expect(foretold / Math.hypot(model, own, shown)).toBeLessThan(1.2);
    expect(surprise).toBeLessThan(0.5);
    // the reading that a winding of 60 °C would give, were it as much warmer all over
    const asked = rise(copperAt60.nominal) / (333.15 - air) / (rise(stopped.bodies.winding) / rise(stopped.bodies.can));
    expect(asked).toBeGreaterThan(0.9);
    expect(asked).toBeLessThan(1.2);
    expect(copperAt60.low).toBeLessThan(copperAt60.nominal);
  });

  it('that is higher moves the peak up, by its share, and is as surprising as it is off', () => {
    const [as, more] = [read(), read({ reading: SHOWN + 1 })];
    expect(more.expected.nominal).toBe(as.expected.nominal);
    expect(more.expected.high).toBeCloseTo(as.expected.high, 1);
    expect(more.hiddenPeak.nominal).toBeGreaterThan(as.hiddenPeak.nominal + 0.05);
    // 95 % of what was foretold lies within its interval: 1.96 deviations
    const deviation = (more.expected.high - more.expected.nominal) / 1.96;
    expect(more.surprise).toBeCloseTo((SHOWN + 1 - more.expected.nominal) / deviation, 1);
    // an exact one tells more
    const exact = read({ reading: SHOWN + 1, spread: normal95(0.2) });
    expect(exact.expected.high).toBeLessThan(more.expected.high);
    expect(exact.surprise).toBeGreaterThan(more.surprise);
  });

  it('that no winding survives contradicts what was driven, however little a probe beside the coils is to be believed', () => {
    expect(read({ place: 'beside-coils', reading: 594 }).contradicts).toBe(true);
  });

  it('contradicts where it is more than three deviations off, or hotter than what it sits on survives', () => {
    expect([read().contradicts, read({ reading: SHOWN + 8, spread: normal95(0.2) }).contradicts]).toEqual([false, true]);
    const bounds = damageTemperatures(system.limits);
    // so unsure a reading surprises nobody
    for (const [place, bound] of [
      ['on-cells', bounds.cellTemperature],
      ['on-controller', bounds.controllerTemperature],
      ['on-can', bounds.windingTemperature],
    ] as const) {
      const at = (reading: number) => read({ place, reading, spread: normal95(2000) });
      expect(
        [at(bound - 1), at(bound + 1)].map(({ surprise, contradicts }) => [surprise < 1, contradicts]),
        place,
      ).toEqual([
        [true, false],
        [true, true],
      ]);
    }
  });

  it('by an infrared thermometer is of a surface of its emissivity', () => {
    const found = read({ emissivity: 0.5, reading: air + 0.5 * (stopped.bodies.can - air) });
    expect(found.emissivity).toBe(0.5);
    // set to 0.95, it sees about 0.5/0.95 of the rise
    expect((found.expected.nominal - air) / (stopped.bodies.can - air)).toBeGreaterThan(0.5);
    expect((found.expected.nominal - air) / (stopped.bodies.can - air)).toBeLessThan(0.56);
  });
});

it.each<readonly [string, Partial<ReadingAsk>, string]>([
  ['before the stop', { after: -1 }, 'A reading is taken after the stop, not -1 s from it.'],
  ['at no time', { after: Number.NaN }, 'A reading is taken after the stop, not NaN s from it.'],
  [
    'of coils from afar',
    { place: 'beside-coils', emissivity: 0.5 },
    'An infrared thermometer sees a surface: can, end, controller or cells.',
  ],
  ['of a slot from afar', { place: 'in-slot', emissivity: 0.5 }, 'An infrared thermometer sees a surface: can, end, controller or cells.'],
  ['of no surface', { emissivity: 0 }, 'An emissivity lies above 0 and at most at 1.'],
  ['of more than black', { emissivity: 1.01 }, 'An emissivity lies above 0 and at most at 1.'],
  [
    'of the air',
    { reading: air + 0.5 },
    'The reading is not above the air around it: nothing can be told from it. Check ambient.air, or read sooner.',
  ],
  ['by few draws', { samples: 15 }, 'Too few draws of the data run to their end to tell a range.'],
])('a reading %s is refused', (_, more, words) => {
  expect(() => read(more)).toThrow(new RangeError(words));
});
it('of nobody’s drive is refused', () => {
  expect(() => read({}, 'B')).toThrow(new RangeError('There is no candidate named B.'));
  expect(() => read({ emissivity: 1, samples: 16 })).not.toThrow();
});
