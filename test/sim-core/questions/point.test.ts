/** A steady point: forces in balance, what is asked for reached or told as out of reach, and bands counted from the draws. */
import { realise, realiser } from '@shaftwork/sim-core/provenance/realise';
import { deviatesOf, planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import { type PointAsk, pointOf, pointWithBands, steadyPoint } from '@shaftwork/sim-core/questions/point';
import { describe, expect, it } from 'vitest';
import { boat, OUTRUNNER, preparedOf, type Section, TABLE_SCREW } from '../provenance/drives.js';

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
    const { channels, reached, moves, stalled } = of({}, { hold: 'motorCurrent', value: 5 });
    expect(channels.motorCurrent).toBeCloseTo(5, 6);
    expect([channels.vehicleSpeed, reached, moves, stalled]).toEqual([0, true, false, false]);
    expect(of({}, { hold: 'throttle', value: 0.4 }).channels.throttle).toBe(0.4);
  });

  it('of a boat is where the screw pulls as much as the hull drags, 12 N at 3 m/s and beyond as the square', () => {
    // nothing lost between screw and hull
    const system = realise(input(boat()).data);
    if (system.load.kind !== 'propeller') throw new Error('a boat has a screw');
    const plain = { ...system, load: { ...system.load, wakeFraction: 0, thrustDeduction: 0 } };
    const { channels, moves } = pointOf(plain, { hold: 'throttle', value: 1 });
    expect(channels.vehicleSpeed).toBeGreaterThan(3);
    expect(channels.thrust).toBeCloseTo((12 / 9) * channels.vehicleSpeed ** 2, 6);
    expect(moves).toBe(true);
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

  it('on wheels takes the speed of the road from the motor’s, and says when it stands', () => {
    const { channels, moves } = of(CAR, { hold: 'shaftSpeed', value: 600 });
    expect(channels.vehicleSpeed).toBe(0);
    expect(moves).toBe(false);
    const { channels: rolling } = of(CAR, { hold: 'throttle', value: 0.5 });
    expect(rolling.vehicleSpeed).toBeCloseTo((rolling.shaftSpeed / 6) * 0.04, 6);
    expect(of({}, { hold: 'shaftSpeed', value: 0 }).stalled).toBe(true);
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
});
