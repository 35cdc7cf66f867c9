/** What is kept of a bench's rows, where a fit begins, and the part files that are written of it. */
import { type BenchRows, joined, steadyRows } from '@shaftwork/sim-core/questions/identify/bench-rows';
import { startsOf } from '@shaftwork/sim-core/questions/identify/motor-starts';
import { motorParts, partText, written } from '@shaftwork/sim-core/questions/identify/part-text';
import type { FoundNumber } from '@shaftwork/sim-core/results/identify-result';
import { describe, expect, it } from 'vitest';
import { FULL_THROTTLE, MADE, SETUP } from '../../../identify/coverage.js';
import { madeBench } from '../../../identify/made-bench.js';

const N = 60;
/** A log of a minute, a row a second, at a steady speed. */
function bench(more: Partial<BenchRows> & { readonly speed?: (k: number) => number } = {}): BenchRows {
  const column = (of: (k: number) => number) => Float64Array.from({ length: N }, (_, k) => of(k));
  const { speed = () => 1000, ...rest } = more;
  return {
    time: column((k) => k),
    timed: true,
    read: { voltage: column(() => 11), current: column((k) => 5 + 0.01 * k), speed: column(speed) },
    duty: column(() => 1),
    winding: column(() => Number.NaN),
    propeller: new Int32Array(N),
    propellers: ['P'],
    ...rest,
  };
}

describe('rows that tell something', () => {
  it('are all of a bench that stands still', () => {
    const { rows, idle, moving, together } = steadyRows(bench());
    expect([rows.time.length, idle, moving, together]).toEqual([N, 0, 0, 1]);
    expect(rows.read.current?.[7]).toBeCloseTo(5.07, 12);
  });

  it('are not those without volts, current or speed, or with the throttle shut', () => {
    const with0 = (key: 'voltage' | 'current' | 'speed', value: number): number => {
      const all = bench({ timed: false });
      all.read[key]?.fill(value, 0, 7);
      return steadyRows(all).idle;
    };
    expect([with0('voltage', 0), with0('current', Number.NaN), with0('speed', -5)]).toEqual([7, 7, 7]);
    const shut = bench({ timed: false });
    shut.duty.fill(0, 0, 9);
    shut.duty.fill(Number.NaN, 20, 30);
    expect(steadyRows(shut).idle).toBe(9);
  });

  it('are none of a bench that stands', () => {
    const { rows, idle, together } = steadyRows(bench({ speed: () => 0 }));
    expect([rows.time.length, rows.propeller.length, idle, together]).toEqual([0, 0, N, 1]);
  });

  it('are not those in which the speed goes up or down by two hundredths over the seconds about them', () => {
    // 1 % in the two seconds about each row, then 4 %
    const slow = steadyRows(bench({ speed: (k) => 1000 * 1.005 ** k }));
    expect(slow.moving).toBe(0);
    const fast = steadyRows(bench({ speed: (k) => 1000 * 1.02 ** k }));
    expect(fast.moving).toBeGreaterThan(50);
    const step = steadyRows(bench({ speed: (k) => (k < 30 ? 1000 : 1300) }));
    expect(step.moving).toBeGreaterThan(0);
    expect(step.moving).toBeLessThan(6);
    // a table without a time has no movement
    expect(steadyRows(bench({ timed: false, speed: (k) => 1000 * 1.02 ** k })).moving).toBe(0);
    expect(steadyRows(bench({ timed: false, speed: (k) => 1000 * 1.02 ** k })).rows.time).toHaveLength(N);
  });

  it('are not those beside a change of the throttle, nor a row alone', () => {
    const throttled = bench();
    throttled.duty.fill(0.5, 30);
    expect(steadyRows(throttled).moving).toBe(2);
    const little = bench();
    little.duty.fill(0.995, 30);
    expect(steadyRows(little).moving).toBe(0);
    // rows more than five seconds from any other say nothing of movement
    expect(steadyRows(bench({ time: Float64Array.from({ length: N }, (_, k) => 6 * k) })).moving).toBe(N);
    expect(steadyRows(bench({ time: Float64Array.from({ length: N }, (_, k) => 5 * k) })).moving).toBe(0);
  });

  it('are put together by neighbours of one propeller and throttle where there are more than a thousand', () => {
    const n = 2400;
    const long = (of: (k: number) => number) => Float64Array.from({ length: n }, (_, k) => of(k));
    const { rows, together } = steadyRows({
      time: long((k) => k),
      timed: false,
      read: { voltage: long(() => 11), current: long((k) => 5 + k), speed: long(() => 1000) },
      duty: long(() => 1),
      winding: long((k) => 300 + k),
      propeller: Int32Array.from({ length: n }, (_, k) => (k < 1201 ? 0 : 1)),
      propellers: ['P', 'Q'],
    });
    expect(together).toBe(3);
    // 401 of the first, the last of it of one row, and 400 of the other, its last of two
    expect(rows.time).toHaveLength(801);
    expect([rows.time[0], rows.read.current?.[0], rows.winding[0]]).toEqual([1, 6, 301]);
    expect([rows.time[400], rows.propeller[400], rows.propeller[401], rows.time[401]]).toEqual([1200, 0, 1, 1202]);
    expect(rows.time[800]).toBe(2398.5);
  });
});

describe('several benches', () => {
  it('are one after another, propellers of one name one, what one did not read missing', () => {
    const first = bench();
    const second: BenchRows = {
      ...bench({ timed: false, propellers: ['Q', 'P'] }),
      propeller: Int32Array.from({ length: N }, (_, k) => (k === 0 ? -1 : k % 2)),
      read: { ...first.read, thrust: new Float64Array(N).fill(4) },
    };
    const all = joined([first, second]);
    expect([all.time.length, all.timed, all.propellers]).toEqual([2 * N, false, ['P', 'Q']]);
    expect(Array.from(all.propeller.slice(N - 1, N + 3))).toEqual([0, -1, 0, 1]);
    expect([all.read.thrust?.[0], all.read.thrust?.[N]]).toEqual([Number.NaN, 4]);
    expect(all.read.speed?.[N + 5]).toBe(1000);
    expect(joined([first, first]).timed).toBe(true);
  });
});

it('a fit begins within a factor of two of the motor that was made', () => {
  const rows = madeBench(MADE, FULL_THROTTLE, 1);
  const starts = startsOf(rows);
  const near = (value: number, truth: number): boolean => value > truth / 2 && value < truth * 2;
  expect(near(starts.torqueConstant, MADE.kt)).toBe(true);
  expect(near(starts.resistance, MADE.resistance)).toBe(true);
  expect(starts.topSpeed).toBe(Math.max(...(rows.read.speed ?? [])));
  expect(near(starts.torque[0], 1.6e-8)).toBe(true);
  expect(near(starts.torque[1], 2.6e-8)).toBe(true);
  expect(starts.thrust[0] / 1.2e-6).toBeCloseTo(1, 1);
  expect(starts.thrust[1] / 1.6e-6).toBeCloseTo(1, 1);
  const unread: BenchRows = { ...rows, read: { ...rows.read } };
  delete (unread.read as { thrust?: Float64Array }).thrust;
  expect(startsOf(unread).thrust).toEqual([Number.NaN, Number.NaN]);
});

it('a fit begins at what the rows themselves say by rules of thumb', () => {
  const n = 100;
  // volts 10.00, 10.01 …; amperes 1 … 100; each row at 1000 rad/s but the duty of the first four, which is not known or half
  const column = (of: (k: number) => number) => Float64Array.from({ length: n }, (_, k) => of(k));
  const rows: BenchRows = {
    ...bench(),
    time: column((k) => k),
    read: {
      voltage: column((k) => 10 + 0.01 * k),
      current: column((k) => n - k),
      speed: column((k) => (k === 7 ? 1250 : 1000)),
      thrust: column((k) => (k % 2 === 0 ? 3 : 5)),
    },
    duty: column((k) => (k === 0 ? Number.NaN : k < 4 ? 0.5 : 1)),
    winding: column(() => Number.NaN),
    propeller: Int32Array.from({ length: n }, (_, k) => (k < 10 ? -1 : k % 2)),
    propellers: ['P', 'Q'],
  };
  const starts = startsOf(rows);
  // volts a turn from the least on: half of 10.01, of 10.02, of 10.03; a fiftieth of the rows are two
  expect(starts.torqueConstant).toBeCloseTo(0.85 * 0.5 * 10.03e-3, 12);
  // of the five greatest currents the middle one is 98 A; of all voltages 10.5 V
  expect(starts.resistance).toBeCloseTo((0.1 * 10.5) / 98, 12);
  expect(starts.lossTorque).toBeCloseTo(0.02 * starts.torqueConstant * 98, 12);
  expect(starts.topSpeed).toBe(1250);
  // the watts of each propeller in the middle, over the cube of the speed, three quarters of them on the shaft: rows 10, 12 … and 11, 13 …
  const watts = (first: number): number => {
    const all = Array.from({ length: 45 }, (_, m) => first + 2 * m).map((k) => (10 + 0.01 * k) * (n - k));
    return all.sort((a, b) => a - b)[22];
  };
  expect(starts.torque).toEqual([expect.closeTo(0.75e-9 * watts(10), 15), expect.closeTo(0.75e-9 * watts(11), 15)]);
  expect(starts.thrust).toEqual([expect.closeTo(3e-6, 15), expect.closeTo(5e-6, 15)]);
  // of few rows the greatest current alone counts
  const few = startsOf({
    ...rows,
    read: { voltage: Float64Array.of(9, 11, 10), current: Float64Array.of(1, 4, 2), speed: Float64Array.of(900, 1000, 950) },
    duty: Float64Array.of(1, 1, 1),
    propeller: Int32Array.of(-1, -1, -1),
    propellers: ['P'],
  });
  expect(few.resistance).toBeCloseTo(1 / 4, 12);
  expect(few.torqueConstant).toBeCloseTo(0.85e-2, 12);
  expect(few.torque).toEqual([Number.NaN]);
});

describe('part files', () => {
  const number = (key: string, value: number, more: Partial<FoundNumber> = {}): FoundNumber => ({
    key,
    words: key,
    dimension: 'ratio',
    value,
    low: value / 1.02,
    high: value * 1.02,
    told: true,
    ...more,
  });
  const rows = madeBench(MADE, FULL_THROTTLE.slice(0, 4), 1);
  const files = (numbers: readonly FoundNumber[], setup: Partial<typeof SETUP> = {}, of = rows) =>
    new Map(motorParts({ numbers, rows: of, setup: { ...SETUP, ...setup }, sources: ['b.csv'] }).map(({ file, text }) => [file, text]));

  it('write a number with four digits and its wider half, never finer than a tenth of a per cent', () => {
    expect(written({ value: 0.0123456, low: 0.0123456 / 1.012, high: 0.0123456 * 1.01 }, 'ohm')).toBe('0.01235 ohm ± 1.2 %');
    expect(written({ value: 2, low: 1.9999, high: 2.0001 }, 'A')).toBe('2 A ± 0.1 %');
  });

  it('say where they are from', () => {
    expect(partText('motor', ['a.csv', 'b.csv'], ['x: 1'])).toBe('part: motor\nsource: "identified from a.csv, b.csv"\nx: 1\n');
  });

  it('of a motor hold what was told and nothing else, its resistance at the winding’s temperature', () => {
    const at10 = { at: { dimension: 'voltage', value: 10 } } as const;
    const found = [
      number('kv', (920 * 2 * Math.PI) / 60),
      number('resistance', 0.09),
      number('inductance', 18e-6, { told: false }),
      number('noLoad', 0.9, at10),
    ];
    expect(files(found).get('motor.yaml')).toBe(
      'part: motor\nsource: "identified from b.csv"\nkv: 920 rpm/V ± 2 %\nresistance: 90 mohm ± 2 %\nresistance_at: 40 °C ± 20 K\n' +
        'no_load:\n  - { current: 0.9 A ± 2 %, voltage: 10 V }\n',
    );
    const warm = { ...rows, winding: new Float64Array(rows.time.length).fill(330) };
    expect(files(found, {}, warm).get('motor.yaml')).toContain('\nresistance_at: 40 °C\n');
    expect(files(found, { windingTemperature: 293.15 }, warm).get('motor.yaml')).not.toContain('resistance_at');
    expect(files(found, { windingTemperature: 293.15 }).get('motor.yaml')).toContain('resistance_at: 20 °C ± 20 K');
    expect(files([number('kv', 100)]).get('motor.yaml')).not.toContain('resistance_at');
    expect(files([number('inductance', 18e-6)]).get('motor.yaml')).toContain('inductance: 18 µH ± 2 %');
    expect(files([number('kv', 100, { told: false })]).size).toBe(0);
  });

  it('have two no-load rows where their intervals lie apart, else the one at the higher voltage', () => {
    const rowsAt = (second: number) => [
      number('noLoad', 0.9, { at: { dimension: 'voltage', value: 7.4 } }),
      number('noLoad', second, { at: { dimension: 'voltage', value: 11.1 } }),
    ];
    expect(
      files(rowsAt(1.2))
        .get('motor.yaml')
        ?.match(/current/g),
    ).toHaveLength(2);
    expect(
      files(rowsAt(0.91))
        .get('motor.yaml')
        ?.match(/current.*/g),
    ).toEqual(['current: 0.91 A ± 2 %, voltage: 11.1 V }']);
  });

  it('of a controller have its own current and what chopping adds', () => {
    const found = [number('idle', 0.06), number('ripple', 2, { at: { dimension: 'voltage', value: 12.6 } })];
    expect(files(found).get('controller.yaml')).toBe(
      'part: controller\nsource: "identified from b.csv"\nidle_current: 60 mA ± 2 %\n' +
        "# at 12.6 V; it grows with the square of the pack's nominal voltage\nvoltage_loss: 2 W ± 2 %\n",
    );
    expect([...files(found).keys()]).toEqual(['controller.yaml']);
  });

  it('of a propeller have one point at its highest speed, under a name that a file may have', () => {
    const of = { of: 'Wide 9 x 4.5!', at: { dimension: 'angularSpeed', value: (6000 * 2 * Math.PI) / 60 } } as const;
    const turned = { ...rows, propellers: ['Wide 9 x 4.5!', 'none'] };
    const both = files([number('torque', 0.05, of), number('thrust', 4, of)], {}, turned);
    expect([...both.keys()]).toEqual(['propeller-wide-9-x-4.5.yaml']);
    expect(both.get('propeller-wide-9-x-4.5.yaml')).toContain(
      'kind: measured-points\npoints: [{ shaft_speed: 6000 rpm, thrust: 4 N ± 2 %, torque: 50 mN·m ± 2 % }]\n',
    );
    expect(files([number('thrust', 4, of)], {}, turned).get('propeller-wide-9-x-4.5.yaml')).toContain(
      '[{ shaft_speed: 6000 rpm, thrust: 4 N ± 2 % }]',
    );
    expect(files([number('thrust', 4, { ...of, told: false })], {}, turned).size).toBe(0);
  });
});
