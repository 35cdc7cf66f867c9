/** What is said of families of shapes and of windings, every sentence; and the search for the best of a family. Members are made up. */

import { refined } from '@shaftwork/sim-core/questions/shape/reshape';
import { stepsNotHeld, whyNot, windingSentences } from '@shaftwork/sim-core/questions/shape/rewind';
import { howFlat, shapeSentences } from '@shaftwork/sim-core/questions/shape/shape-sentences';
import type { ShapePoint } from '@shaftwork/sim-core/results/shape-result';
import type { WindingPoint } from '@shaftwork/sim-core/results/winding-result';
import { describe, expect, it } from 'vitest';

const plain = (sentences: readonly string[]): string[] => sentences.map((each) => each.replace(/[\u00a0\u202f]/g, ' '));
const shape = (diameter: number, celsius: number, more: Partial<ShapePoint> = {}): ShapePoint => ({
  ratio: diameter / 0.04,
  diameter,
  length: 0.04,
  stackLength: 0.03,
  mass: 0.2,
  sideArea: 1,
  endArea: 1,
  resistance: 0.1,
  noLoadCurrent: 1,
  motorConstant: 0.02,
  shearStress: 1e4,
  rotorSurfaceSpeed: 30,
  peakWindingTemperature: 273.15 + celsius,
  peakCanTemperature: 320,
  peakMotorCurrent: 20,
  meetsLimits: true,
  fits: true,
  ...more,
});
const driver = (words: string, change: number) => ({ id: 'copper' as const, words, change });

describe('of shapes is said', () => {
  const best = shape(0.04, 80);
  const own = shape(0.03, 91.6);
  const said = (...[b, unbounded, drivers = []]: readonly [ShapePoint?, ShapePoint?, Parameters<typeof shapeSentences>[3]?]) =>
    plain(shapeSentences(own, b, unbounded, drivers));
  const FIRST =
    'At the mass and Kv of the reference the best shape within limits and space is a can of 40.0 mm × 40.0 mm (diameter : length 1.0): its winding peaks at 80 °C, the reference’s, 30.0 mm × 40.0 mm (diameter : length 0.75), at 92 °C.';
  it('which is the best, and what each property alone does, the greatest first', () => {
    expect(said(best)).toEqual([FIRST]);
    expect(
      said(best, undefined, [
        driver('copper', -1.4),
        driver('iron', 0.99),
        driver('surface', 12.6),
        driver('paths', -1),
        driver('x', -0.9),
      ]),
    ).toEqual([FIRST, 'Each alone: surface +13 K, copper −1 K, paths −1 K.']);
    expect(said(best, undefined, [driver('iron', 0.99)])).toEqual([FIRST]);
  });
  it('what it would be without the space, where that is another', () => {
    expect(said(best, shape(0.0405, 79))).toEqual([FIRST]);
    expect(said(best, shape(0.0395, 79))).toEqual([FIRST]);
    expect(said(best, shape(0.041, 79))).toEqual([
      FIRST,
      'Without the space it would be a can of 41.0 mm × 40.0 mm (diameter : length 1.0) at 79 °C.',
    ]);
    expect(said(best, shape(0.039, 79))).toHaveLength(2);
  });
  it('that none meets limits and space, and which would with more room', () => {
    expect(said()).toEqual(['No shape of this mass and Kv meets every limit in the space.']);
    expect(said(undefined, shape(0.05, 99))).toEqual([
      'No shape of this mass and Kv meets every limit in the space.',
      'With more room a can of 50.0 mm × 40.0 mm (diameter : length 1.3) would, at 99 °C.',
    ]);
  });
  it('over which diameters it hardly matters, and whether the best stands at the end', () => {
    const ends = [shape(0.02, 200), shape(0.08, 200)];
    const flat = (...more: readonly ShapePoint[]) => plain(howFlat(best, [...ends, ...more]));
    expect(flat()).toEqual([]);
    expect(flat(shape(0.036, 81.9), shape(0.045, 81))).toEqual([
      'From 36.0 mm to 45.0 mm across it changes by less than 2 K: the shape hardly matters there.',
    ]);
    // not by two kelvins, nor where it does not fit or passes a limit
    expect(flat(shape(0.03, 82), shape(0.05, 81, { fits: false }), shape(0.05, 81, { meetsLimits: false }))).toEqual([]);
    // a tenth is another shape
    expect(flat(shape(0.044, 81))).toEqual([]);
    expect(flat(shape(0.0441, 81))).toHaveLength(1);
    expect(flat(shape(0.0363, 81))).toHaveLength(1);
    expect(howFlat(shape(0.02, 80), ends)).toEqual(['It is the longest shape that was looked at.']);
    expect(howFlat(shape(0.08, 80), ends)).toEqual(['It is the widest shape that was looked at.']);
    expect([howFlat(shape(0.0203, 80), ends), howFlat(shape(0.0791, 80), ends)]).toEqual([[], []]);
  });
});

describe('the best of a family', () => {
  const member = (ratio: number) => ({ point: { ratio } });
  /** The nearer to `to` on a scale of factors, the better. */
  const search = (to: number, ratios: readonly number[], missing: (ratio: number) => boolean = () => false) => {
    const tried: number[] = [];
    const found = refined(
      ratios.map(member),
      (ratio) => {
        tried.push(ratio);
        return missing(ratio) ? undefined : member(ratio);
      },
      (a, b) => Math.abs(Math.log(a.point.ratio / to)) - Math.abs(Math.log(b.point.ratio / to)),
    );
    return { ratio: found?.point.ratio, tried };
  };
  it('is sought between its neighbours, three times in thirds', () => {
    // from 1, between 0.5 and 2: √2 is better, then between 1 and 2, then between √2 and 2, or 1
    const { ratio, tried } = search(1.3, [2, 0.5, 1, 4, 0.25]);
    expect(tried.slice(0, 2)).toEqual([expect.closeTo(Math.SQRT1_2, 12), expect.closeTo(Math.SQRT2, 12)]);
    expect(tried.slice(2, 4)).toEqual([expect.closeTo(2 ** 0.25, 12), expect.closeTo(2 ** 0.75, 12)]);
    expect(tried).toHaveLength(6);
    expect(Math.abs(Math.log((ratio ?? 0) / 1.3))).toBeLessThan(Math.log(2) / 8);
    const down = search(0.75, [2, 0.5, 1, 4, 0.25]);
    expect(Math.abs(Math.log((down.ratio ?? 0) / 0.75))).toBeLessThan(Math.log(2) / 8);
    // where the member is the best of its neighbourhood the stretch halves about it
    const stay = search(1, [2, 0.5, 1, 4, 0.25]);
    expect([stay.ratio, stay.tried[2], stay.tried[3], stay.tried[5]]).toEqual([
      1,
      expect.closeTo(2 ** -0.25, 12),
      expect.closeTo(2 ** 0.25, 12),
      expect.closeTo(2 ** 0.125, 12),
    ]);
  });
  it('may stand at an end, or beside shapes that cannot be made', () => {
    expect(search(8, [2, 0.5, 1]).ratio).toBe(2);
    expect(search(0.1, [2, 0.5, 1]).ratio).toBe(0.5);
    expect(search(1.5, [2, 0.5, 1], () => true).ratio).toBe(2);
    expect(search(1.5, []).ratio).toBeUndefined();
  });
});

describe('of windings is said', () => {
  const RPM = (2 * Math.PI) / 60;
  const wind = (rpmPerVolt: number, objective: number, more: Partial<WindingPoint> = {}): WindingPoint => ({
    speedConstant: rpmPerVolt * RPM,
    resistance: 0.1,
    noLoadCurrent: 1,
    peakWindingTemperature: 350,
    peakMotorCurrent: 20,
    peakBatteryCurrent: 18,
    topSpeed: 0,
    chargeLeft: 0.3,
    runTime: 60,
    objective,
    meetsLimits: true,
    stepsNotHeld: 0,
    ...more,
  });
  const K = { words: 'peak winding temperature', unit: 'K' };
  const range = { from: 800 * RPM, to: 1000 * RPM };
  const said = (own: WindingPoint, best: WindingPoint | undefined, figure = K, edges: Partial<Record<'below' | 'above', string>> = {}) =>
    plain(windingSentences('Disc', own, best, { ...range, ...edges }, figure));
  const FIRST =
    'Disc: 800 rpm/V to 1000 rpm/V meet every limit, hold every step and give the present winding’s thrust and speed to a twentieth';
  it('which serve, what bounds them, and which is the best', () => {
    expect(said(wind(900, 350), wind(850, 340))).toEqual([
      `${FIRST}.`,
      '850 rpm/V serve best: peak winding temperature 67 °C, now 77 °C at 900 rpm/V.',
    ]);
    expect(said(wind(900, 350), wind(850, 340), K, { below: 'a', above: 'b' })[0]).toBe(`${FIRST}; below it a, above it b.`);
    expect(said(wind(900, 350), wind(850, 340), K, { above: 'b' })[0]).toBe(`${FIRST}; above it b.`);
    expect(said(wind(900, 350, { topSpeed: 5 }), wind(850, 340, { topSpeed: 4.9 }))[1]).toBe(
      '850 rpm/V serve best: peak winding temperature 67 °C, now 77 °C at 900 rpm/V; top speed 4.90 m/s, now 5.00 m/s.',
    );
  });
  it('that the present one serves as well, where nothing is gained', () => {
    const same = 'The present 900 rpm/V serve as well as any.';
    expect(said(wind(900, 350), wind(850, 349.51))[1]).toBe(same);
    expect(said(wind(900, 350), wind(850, 349.5))[1]).not.toBe(same);
    const time = { words: 'time', unit: 's' };
    expect(said(wind(900, 600), wind(850, 602.9), time)[1]).toBe(same);
    expect(said(wind(900, 600), wind(850, 603.1), time)[1]).toBe('850 rpm/V serve best: time 10:03, now 10:00 at 900 rpm/V.');
  });
  it('what the present one does not do', () => {
    expect(said(wind(900, 350, { stepsNotHeld: 2, meetsLimits: false }), wind(850, 350))[1]).toMatch(
      /now 77 °C at 900 rpm\/V, which does not hold every step\.$/,
    );
    expect(said(wind(900, 350, { meetsLimits: false }), wind(850, 350))[1]).toMatch(/at 900 rpm\/V, which passes a limit\.$/);
  });
  it('speeds and masses as such', () => {
    expect(said(wind(900, 4), wind(850, 5), { words: 'top speed', unit: 'm/s' })[1]).toBe(
      '850 rpm/V serve best: top speed 5.00 m/s, now 4.00 m/s at 900 rpm/V.',
    );
    expect(said(wind(900, 0.2), wind(850, 0.1), { words: 'mass', unit: 'kg' })[1]).toBe(
      '850 rpm/V serve best: mass 100 g, now 200 g at 900 rpm/V.',
    );
  });
  it('that none serves', () => {
    const none = ['No winding of Disc meets every limit, holds every step and gives the thrust and speed of the present one.'];
    expect(said(wind(900, 350), undefined)).toEqual(none);
    expect(windingSentences('Disc', wind(900, 350), wind(850, 340), undefined, K)).toEqual(none);
  });
});

describe('a wind that does not serve', () => {
  const step = (duration: number, label?: string) => ({
    duration,
    hold: 'thrust' as const,
    value: { from: 1, to: 1 },
    ...(label === undefined ? {} : { label }),
  });
  const profile = [step(10, 'climb'), step(20), step(30)];
  type Simulation = Parameters<typeof stepsNotHeld>[0]['simulation'];
  const run = (more: Partial<Simulation> = {}): Simulation => ({ lost: [], time: 60, end: 'finished', ...more });
  const lostAt = (place: number, reached = 0.5) => ({ step: place, wanted: 1, reached });
  it('falls short in steps, or never drives them', () => {
    expect(stepsNotHeld({ simulation: run() }, profile)).toEqual([]);
    expect(stepsNotHeld({ simulation: run({ end: 'cut-off', time: 30 }) }, profile)).toEqual([2]);
    expect(stepsNotHeld({ simulation: run({ end: 'empty', time: 29 }) }, profile)).toEqual([1, 2]);
    expect(stepsNotHeld({ simulation: run({ time: 5 }) }, profile)).toEqual([]);
    // a hundredth is no lack
    expect(stepsNotHeld({ simulation: run({ lost: [lostAt(1), lostAt(0, 0.991), lostAt(1, 0.4)] }) }, profile)).toEqual([1]);
    expect(stepsNotHeld({ simulation: run({ lost: [lostAt(2)], end: 'cut-off', time: 10 }) }, profile)).toEqual([1, 2]);
  });
  it('is told why', () => {
    const why = (simulation: Simulation, point: Parameters<typeof whyNot>[0]['point'] = {}) =>
      whyNot({ outcome: { simulation }, point }, profile);
    expect(why(run({ end: 'cut-off' }))).toBe('the cells reach their cut-off');
    expect(why(run({ end: 'empty' }))).toBe('the cells are empty before the end');
    expect(why(run({ end: 'burnt' }))).toBe('it burns out');
    expect(why(run({ end: 'failed' }))).toBe('there is no operating point');
    expect(why(run(), { less: 'thrust' })).toBe('its thrust falls off by more than a twentieth');
    expect(why(run(), { binding: { limit: 'windingTemperature', words: 'winding temperature', marginShare: -0.1 } })).toBe(
      'winding temperature binds',
    );
    expect(why(run())).toBe('a limit binds');
    expect(why(run({ lost: [lostAt(0, 0.995), lostAt(1)] }))).toBe('full throttle no longer holds step 2');
    expect(why(run({ lost: [lostAt(0)], end: 'cut-off' }))).toBe('full throttle no longer holds climb');
  });
});
