/** Of moves that were made, which explain; of columns, which sensor has a wrong scale. */
import type { MeasurableId } from '@shaftwork/sim-core/provenance/measurables';
import { explanationOf, sensorScale } from '@shaftwork/sim-core/questions/measured/explain';
import { dot, misfitOf } from '@shaftwork/sim-core/questions/measured/misfit';
import type { MeasuredMove } from '@shaftwork/sim-core/results/measured-result';
import { describe, expect, it } from 'vitest';

describe('of the moves of single numbers', () => {
  const move = (subject: string, deviations: number, explains: number): MeasuredMove => ({
    subject,
    words: subject,
    dimension: 'ratio',
    value: 1,
    moved: 2,
    deviations,
    explains,
  });
  const [a, b, c, d, e, f] = [0.95, 0.9, 0.89, 0.88, 0.87, 0.86].map((each, k) => move('abcdef'[k], 1, each));
  it('the best is named, with up to four that explain nine tenths as much', () => {
    expect(explanationOf([a, b, c, d, e, f])).toEqual({ kind: 'one', best: a, alike: [b, c, d, e] });
    expect(explanationOf([a, move('x', 1, 0.855), move('y', 1, 0.856)])).toEqual({ kind: 'one', best: a, alike: [move('y', 1, 0.856)] });
    expect(explanationOf([move('x', 1, 0.51)])).toEqual({ kind: 'one', best: move('x', 1, 0.51), alike: [] });
  });
  it('none is believed that takes half or less, or that goes as far as it may', () => {
    expect(explanationOf([move('x', 1, 0.5)])).toEqual({ kind: 'none', best: move('x', 1, 0.5) });
    expect(explanationOf([move('x', 3, 0.9), move('y', -3, 0.8)])).toEqual({ kind: 'none', best: move('x', 3, 0.9) });
    expect(explanationOf([move('x', -3, 0.9), move('y', -2.9, 0.8)])).toEqual({ kind: 'one', best: move('y', -2.9, 0.8), alike: [] });
    expect(explanationOf([move('x', 1, 0)])).toEqual({ kind: 'none' });
    expect(explanationOf([])).toEqual({ kind: 'none' });
  });
});

describe('the scale of a sensor', () => {
  const N = 5;
  const times = Float64Array.from({ length: N }, (_, k) => k);
  const predicted = (scale: number) => Float64Array.from({ length: N }, (_, k) => scale * (10 + k));
  const scaled = (columns: readonly (readonly [MeasurableId, number, number])[], n = N) => {
    const nominal = columns.map(([, scale]) => predicted(scale).slice(0, n));
    const compared = columns.map(([id, , factor], k) => ({
      id,
      at: Int32Array.from({ length: n }, (_, i) => i),
      measured: nominal[k].map((each) => factor * each),
      counts: new Array<boolean>(n).fill(true),
    }));
    const misfit = misfitOf(compared, nominal);
    const moments = {
      watch: { candidate: 'A', ids: columns.map(([id]) => id), times },
      columns: compared,
      nearJumps: 0,
      rowsWithin: 1,
      spanned: 1,
    };
    return {
      sensor: sensorScale(moments, nominal, misfit.residuals(nominal), misfit.begins),
      r: misfit.residuals(nominal),
      begins: misfit.begins,
    };
  };
  it('is told where it alone takes most of the squares and is farther off than such sensors are', () => {
    expect(
      scaled([
        ['voltage', 1, 1],
        ['shaft_speed', 50, 0.8],
      ]).sensor,
    ).toEqual({ id: 'shaft_speed', factor: expect.closeTo(0.8, 9), explains: expect.closeTo(1, 9) });
    // within what such a sensor errs by
    expect(scaled([['battery_current', 1, 1.049]]).sensor).toBeUndefined();
    expect(scaled([['battery_current', 1, 1.051]]).sensor?.factor).toBeCloseTo(1.051, 9);
    expect(scaled([['battery_current', 1, 0.949]]).sensor?.factor).toBeCloseTo(0.949, 9);
    // a thermometer has a share, a throttle no scale
    expect(scaled([['can_temperature', 30, 1.2]]).sensor).toBeUndefined();
    expect(scaled([['throttle', 0.05, 0.5]]).sensor).toBeUndefined();
    expect([scaled([['thrust', 1, 0.7]], 2).sensor, scaled([['thrust', 1, 0.7]], 3).sensor?.id]).toEqual([undefined, 'thrust']);
  });
  it('is told of the sensor that explains most, and of none where two explain half', () => {
    const of = (first: number, second: number) =>
      scaled([
        ['thrust', 1, first],
        ['shaft_speed', 50, second],
      ]).sensor?.id;
    expect([of(0.7, 0.98), of(0.99, 0.8)]).toEqual(['thrust', 'shaft_speed']);
    // what a tachometer shows is not scaled with what a current sensor does
    expect(
      scaled([
        ['shaft_speed', 50, 0.8],
        ['battery_current', 1, 1],
        ['battery_power', 12, 1],
      ]).sensor,
    ).toEqual({ id: 'shaft_speed', factor: expect.closeTo(0.8, 9), explains: expect.closeTo(1, 9) });
  });
  it('takes no heed of what is met exactly', () => {
    const nominal = [Float64Array.of(10, 20, 30, 40)];
    const column = {
      id: 'thrust' as const,
      at: Int32Array.of(0, 1, 2, 3),
      measured: Float64Array.of(10, 16, 24, 32),
      counts: [true, true, true, true],
    };
    const misfit = misfitOf([column], nominal);
    const moments = {
      watch: { candidate: 'A', ids: ['thrust' as const], times },
      columns: [column],
      nearJumps: 0,
      rowsWithin: 1,
      spanned: 1,
    };
    expect(sensorScale(moments, nominal, misfit.residuals(nominal), misfit.begins)).toEqual({
      id: 'thrust',
      factor: expect.closeTo(0.8, 9),
      explains: expect.closeTo(1, 9),
    });
  });
  it('is spoken of by the first of its columns, or by none', () => {
    const nominal = [Float64Array.of(10, 20), Float64Array.of(120, 240, 360)];
    const columns = (['battery_current', 'battery_power'] as const).map((id, k) => ({
      id,
      at: Int32Array.from(nominal[k], (_, i) => i),
      measured: nominal[k].map((each) => 0.8 * each),
      counts: [...nominal[k]].map(() => true),
    }));
    const misfit = misfitOf(columns, nominal);
    const moments = {
      watch: { candidate: 'A', ids: columns.map(({ id }) => id), times },
      columns,
      nearJumps: 0,
      rowsWithin: 1,
      spanned: 1,
    };
    expect(sensorScale(moments, nominal, misfit.residuals(nominal), misfit.begins)).toBeUndefined();
  });
  it('is that of amps, watts and amp-hours together, which one sensor reads', () => {
    const { sensor } = scaled([
      ['voltage', 1, 1.001],
      ['battery_current', 1, 0.8],
      ['battery_power', 12, 0.8],
      ['charge_used', 3, 0.8],
    ]);
    expect(sensor).toEqual({ id: 'battery_current', factor: expect.closeTo(0.8, 9), explains: expect.closeTo(1, 2) });
    // of two sensors that are off none takes half of the squares of both, or the one that takes more is told
    const two = scaled([
      ['thrust', 1, 0.7],
      ['battery_current', 1, 0.6],
      ['battery_power', 12, 0.6],
    ]);
    const squares = dot(two.r, two.r);
    const amps = two.r.subarray(two.begins[1]);
    expect(two.sensor?.id).toBe(dot(amps, amps) > 0.5 * squares ? 'battery_current' : undefined);
    const ends = dot(amps, amps) / squares;
    if (two.sensor !== undefined) expect(two.sensor.explains).toBeCloseTo(ends, 9);
  });
});
