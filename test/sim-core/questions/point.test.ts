/** A steady point: forces in balance, what is asked for reached or told as out of reach, and bands counted from the draws. */
import { realise, realiser } from '@shaftwork/sim-core/provenance/realise';
import { deviatesOf, planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import { type PointAsk, pointOf, pointWithBands, steadyPoint } from '@shaftwork/sim-core/questions/point';
import { equilibriumAt } from '@shaftwork/sim-core/questions/rate/equilibrium';
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, preparedOf, type Section, TABLE_SCREW } from '../provenance/drives.js';

const input = (more: Section = {}) => preparedOf(more).candidates[0];
const of = (more: Section, ask: PointAsk) => pointOf(realise(input(more).data), ask);
const CAR: Section = {
  propeller: 'none',
  wheel: { radius: '40 mm', rolling_resistance: 0.03 },
  gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
  vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
};

describe('a steady point', () => {
  it('on a bench stands still, with what is held', () => {
    const { channels, reached, stalled } = of({}, { hold: 'motorCurrent', value: 5 });
    expect(channels.motorCurrent).toBeCloseTo(5, 6);
    expect([channels.vehicleSpeed, reached, stalled]).toEqual([0, true, false]);
    expect(of({}, { hold: 'throttle', value: 0.4 }).channels.throttle).toBe(0.4);
  });

  it('of a boat is where the screw pulls as much as the hull drags, 12 N at 3 m/s and beyond as the square', () => {
    // nothing lost between screw and hull
    const system = realise(input(boat()).data);
    if (system.load.kind !== 'propeller') throw new Error('a boat has a screw');
    const plain = { ...system, load: { ...system.load, wakeFraction: 0, thrustDeduction: 0 } };
    const { channels } = pointOf(plain, { hold: 'throttle', value: 1 });
    expect(channels.vehicleSpeed).toBeGreaterThan(3);
    expect(channels.thrust).toBeCloseTo((12 / 9) * channels.vehicleSpeed ** 2, 6);
  });

  it('at a speed that is set has that speed, and one that is held has it too', () => {
    expect(of(boat(), { hold: 'throttle', value: 0.8, vehicleSpeed: 1.5 }).channels.vehicleSpeed).toBe(1.5);
    const held = of(boat(), { hold: 'vehicleSpeed', value: 2, vehicleSpeed: 2 });
    expect(held.channels.vehicleSpeed).toBeCloseTo(2, 6);
    expect(held.reached).toBe(true);
  });

  it('out of reach is full throttle instead, at the speed that this gives', () => {
    const full = of(boat(), { hold: 'throttle', value: 1 });
    const fast = of(boat(), { hold: 'vehicleSpeed', value: 60, vehicleSpeed: 60 });
    expect(fast.reached).toBe(false);
    expect(fast.channels.throttle).toBe(1);
    expect(fast.channels.vehicleSpeed).toBeCloseTo(full.channels.vehicleSpeed, 6);
    const bench = of({}, { hold: 'motorCurrent', value: 500 });
    expect([bench.reached, bench.channels.throttle, bench.channels.vehicleSpeed]).toEqual([false, 1, 0]);
    // a throttle is always reached
    expect(full.reached).toBe(true);
  });

  it('moves with a screw whose speed is held, until thrust and drag are equal, and not at all where nothing drives it', () => {
    const system = realise(input(boat()).data);
    if (system.load.kind !== 'propeller') throw new Error('a boat has a screw');
    const plain = { ...system, load: { ...system.load, wakeFraction: 0, thrustDeduction: 0 } };
    const { channels } = pointOf(plain, { hold: 'shaftSpeed', value: 970 });
    expect(channels.shaftSpeed).toBeCloseTo(970, 6);
    expect(channels.vehicleSpeed).toBeGreaterThan(3);
    expect(channels.thrust).toBeCloseTo((12 / 9) * channels.vehicleSpeed ** 2, 6);
    // off, or too weak to roll: it stands, to the last digit
    expect(of(boat(), { hold: 'throttle', value: 0 }).channels.vehicleSpeed).toBe(0);
    const stuck = of({ ...CAR, wheel: { radius: '40 mm', rolling_resistance: 0.5 } }, { hold: 'throttle', value: 0.02 });
    expect(stuck.channels.vehicleSpeed).toBe(0);
    expect(stuck.channels.motorCurrent).toBeGreaterThan(0);
  });

  it('out of reach at a speed that is set is full throttle at that speed', () => {
    const { channels, reached } = of(boat(), { hold: 'thrust', value: 500, vehicleSpeed: 1 });
    expect([reached, channels.vehicleSpeed]).toEqual([false, 1]);
    const full = of(boat(), { hold: 'throttle', value: 1, vehicleSpeed: 1 }).channels;
    expect([channels.throttle, channels.thrust]).toEqual([1, expect.closeTo(full.thrust, 6)]);
  });

  it('on wheels has the speed of the motor’s that is held, whatever else is said of it', () => {
    const { mass } = realise(input(CAR).data).vehicle;
    // 600/6 rad/s at 40 mm
    for (const beside of [{}, { vehicleSpeed: 0 }, { vehicleSpeed: 9 }]) {
      const { channels, reached } = of(CAR, { hold: 'shaftSpeed', value: 600, ...beside });
      expect([channels.vehicleSpeed, channels.shaftSpeed, reached]).toEqual([expect.closeTo(4, 9), expect.closeTo(600, 6), true]);
      // rolling resistance and drag of the air
      expect(channels.thrust).toBeCloseTo(0.03 * mass * 9.80665 + 0.5 * 1.225 * 0.02 * 16, 3);
    }
    const { channels: rolling } = of(CAR, { hold: 'throttle', value: 0.5 });
    expect(rolling.vehicleSpeed).toBeCloseTo((rolling.shaftSpeed / 6) * 0.04, 6);
    // faster than full throttle turns it: the speed that this gives
    const full = of(CAR, { hold: 'throttle', value: 1 }).channels;
    const fast = of(CAR, { hold: 'shaftSpeed', value: 9000 });
    expect([fast.reached, fast.channels.throttle]).toEqual([false, 1]);
    expect(fast.channels.vehicleSpeed).toBeCloseTo(full.vehicleSpeed, 6);
  });

  it('says when it stands', () => {
    for (const load of [{}, CAR]) {
      const held = of(load, { hold: 'shaftSpeed', value: 0 });
      expect([held.stalled, held.channels.vehicleSpeed]).toEqual([true, 0]);
    }
  });
});

describe('for ever', () => {
  it('it settles somewhere, but not where it is off or held fast', () => {
    expect(steadyPoint(input(), { hold: 'throttle', value: 0.2 })).toMatchObject({
      name: 'A',
      reached: true,
      settled: { temperatures: {} },
    });
    expect(steadyPoint(input(), { hold: 'throttle', value: 0 })).not.toHaveProperty('settled');
    expect(steadyPoint(input(), { hold: 'shaftSpeed', value: 0 })).not.toHaveProperty('settled');
  });
  it('it has none where the copper feeds itself', () => {
    const hot = input({ motor: { ...OUTRUNNER, kv: '2500 rpm/V', thermal: { winding_to_stator: '0.05 W/K' } } });
    expect(steadyPoint(hot, { hold: 'throttle', value: 1 }).settled).toBe('none');
  });
  it('it keeps a speed that is set', () => {
    const winding = (ask: PointAsk): number => {
      const { settled } = steadyPoint(input(boat()), ask);
      return typeof settled === 'object' ? settled.temperatures.winding : Number.NaN;
    };
    const free = winding({ hold: 'throttle', value: 0.5 });
    expect(winding({ hold: 'throttle', value: 0.5, vehicleSpeed: 0.2 })).toBeGreaterThan(free + 1);
  });
});

describe('for ever, at its throttle, it is', () => {
  const settledOf = (more: Section, ask: PointAsk, kept?: number) => {
    const { settled, channels } = steadyPoint(input(more), ask);
    const system = realise(input(more).data);
    return { settled, expected: equilibriumAt(system, channels.throttle, system.start.charge, kept) };
  };
  it.each<readonly [words: string, more: Section, ask: PointAsk, kept: number | undefined]>([
    ['at the speed that it takes', boat(), { hold: 'throttle', value: 0.5 }, undefined],
    ['at rest where rest is set', boat(), { hold: 'throttle', value: 0.3, vehicleSpeed: 0 }, 0],
    [
      'in the wind of a bench that is set',
      { cooling: { air: { share_of_vehicle_speed: '60 %' } } },
      { hold: 'throttle', value: 0.4, vehicleSpeed: 9 },
      9,
    ],
    [
      'at its own speed where what was asked for is out of reach',
      boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }),
      { hold: 'thrust', value: 500, vehicleSpeed: 1 },
      undefined,
    ],
    ['rolling as fast as the motor’s speed has it', CAR, { hold: 'shaftSpeed', value: 600 }, 4],
    ['on a bench without wind where none is set', {}, { hold: 'throttle', value: 0.4, vehicleSpeed: 0 }, undefined],
  ])('%s', (_, more, ask, kept) => {
    const { settled, expected } = settledOf(more, ask, kept);
    expect(expected).toBeDefined();
    expect(settled).toEqual(expected);
  });
});

describe('bands', () => {
  const uncertain = input({ propeller: { ...TABLE_SCREW, thrust_factor: '1 ± 10 %' } });
  const plan = planDoubt([uncertain], [{ duration: 10, hold: 'throttle', value: { from: 0.5, to: 0.5 } }], 'coolest', {
    samples: 16,
    seed: 3,
  });
  const ask = { hold: 'throttle', value: 0.5 } as const;
  it('are the draws, each made and solved for itself', () => {
    const found = pointWithBands(uncertain, ask, plan);
    const thrusts = Array.from({ length: 16 }, (_, i) => {
      const deviates = deviatesOf(plan, i);
      return pointOf(
        realiser(uncertain.data)((key) => deviates.get(key) ?? 0),
        ask,
      ).channels.thrust;
    }).sort((a, b) => a - b);
    const { p05, p95, halfWidth } = found.bands?.channels.thrust ?? { p05: 0, p95: 0, halfWidth: 0 };
    // place 0.75 and 14.25 of sixteen, straight between neighbours
    expect(p05).toBeCloseTo(thrusts[0] + 0.75 * (thrusts[1] - thrusts[0]), 9);
    expect(p95).toBeCloseTo(thrusts[14] + 0.25 * (thrusts[15] - thrusts[14]), 9);
    const mean = thrusts.reduce((sum, each) => sum + each / 16, 0);
    const squares = thrusts.reduce((sum, each) => sum + (each - mean) ** 2, 0);
    expect(halfWidth).toBeCloseTo(1.959964 * Math.sqrt(squares / 15), 6);
    expect(found.channels.thrust).toBe(pointOf(realise(uncertain.data), ask).channels.thrust);
    expect(found.bands?.powers.useful).toEqual({ p05: 0, p95: 0, halfWidth: 0 });
    expect(found.bands?.figures.thrustCoefficient.p95).toBeGreaterThan(found.figures.thrustCoefficient);
    // a propeller at rest has no efficiency, and no band of one
    expect(found.bands?.figures.propellerEfficiency).toEqual({ p05: Number.NaN, p95: Number.NaN, halfWidth: Number.NaN });
  });

  it('are of the draws in which a figure has a meaning, two at least', () => {
    // about the speed at which the screw no longer pulls: in some draws it drives, in others it brakes
    const aboard = input(boat({ motor: { ...INRUNNER, kv: '500 rpm/V ± 10 %' } }));
    const drawn = planDoubt([aboard], [{ duration: 10, hold: 'throttle', value: { from: 0.5, to: 0.5 } }], 'coolest', {
      samples: 16,
      seed: 3,
    });
    const at: PointAsk = { hold: 'throttle', value: 0.5, vehicleSpeed: 2.3 };
    const values = Array.from({ length: 16 }, (_, k) => {
      const deviates = deviatesOf(drawn, k);
      return pointOf(
        realiser(aboard.data)((key) => deviates.get(key) ?? 0),
        at,
      ).figures.propellerEfficiency;
    });
    const known = values.filter((each) => !Number.isNaN(each)).sort((a, b) => a - b);
    expect(known.length).toBeGreaterThan(2);
    expect(known.length).toBeLessThan(14);
    const found = (samples: number) => pointWithBands(aboard, at, { ...drawn, samples }).bands?.figures.propellerEfficiency;
    const place = 0.95 * (known.length - 1);
    const below = Math.floor(place);
    expect(found(16)?.p95).toBeCloseTo(known[below] + (place - below) * (known[below + 1] - known[below]), 9);
    // of one there is no band, of two there is
    const [first, second] = values.flatMap((each, k) => (Number.isNaN(each) ? [] : [k]));
    expect(found(first + 1)).toEqual({ p05: Number.NaN, p95: Number.NaN, halfWidth: Number.NaN });
    expect(found(second + 1)?.halfWidth).toBeCloseTo((1.959964 * Math.abs(values[first] - values[second])) / Math.SQRT2, 5);
  });
});
