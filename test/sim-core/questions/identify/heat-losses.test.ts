import { deadTimeDrop, switchingShare } from '@shaftwork/sim-core/parts/controller';
import { fluxRatio, ironTorque, lossTorque, torqueConstantAt, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { deviationOf } from '@shaftwork/sim-core/quantities';
import { currentAtRest, type HeatRows, thinned } from '@shaftwork/sim-core/questions/identify/heat-model';
import { describe, expect, it } from 'vitest';
import { AIR, type Columns, deviates, heatLog, INRUNNER, model, OUTRUNNER, sum } from './heat-bench.js';

/** Heat [W] that each body takes in the first instant of a log that begins as cool as the air, where nothing flows yet. */
function losses(of: typeof OUTRUNNER, more: Columns, some = {}, change: Partial<HeatRows> = {}): number[] {
  const dt = 1e-5;
  const made = model(of, { ...heatLog([0, dt], more), ...change });
  const { winding, stator, can, magnets } = of.system.heat.capacity;
  return made.bodies(deviates(made.unknowns, some)).map((body, b) => ((body[1] - body[0]) * [winding, stator, can, magnets][b]) / dt);
}
describe('the current at rest', () => {
  it('is the median of three rows or more in which nothing turns', () => {
    const of = (speed: readonly number[], current: readonly number[]) =>
      currentAtRest({ speed: Float64Array.from(speed), current: Float64Array.from(current) });
    expect(of([0, 0, 0, 0, 5, -1], [0.9, 0.1, 0.2, Number.NaN, 30, 40])).toBe(0.2);
    expect(of([0, 0, 0, 0, 0], [10, 9, 0.3, 0.1, 0.2])).toBe(0.3);
    expect(of([0, 0, 700, 700], [0.1, 0.2, 9, 9])).toBeUndefined();
  });

  it('is found in the log where nobody says it', () => {
    const { atRest: _, ...unsaid } = heatLog([0, 1, 2, 3], { speed: [700, 0, 0, 0], current: [20, 0.1, 0.4, 0.3] });
    expect(model(OUTRUNNER, unsaid).rows.atRest).toBe(0.3);
    expect(model(OUTRUNNER, { ...unsaid, atRest: 0.7 }).rows.atRest).toBe(0.7);
    expect('atRest' in model(OUTRUNNER, { ...unsaid, speed: Float64Array.of(700, 1, 0, 0) }).rows).toBe(false);
  });
});

describe('rows', () => {
  const many = (n: number): HeatRows => {
    const time = Array.from({ length: n }, (_, k) => k);
    return heatLog(time, {
      probe: time.map((k) => 300 + k),
      voltage: time.map((k) => 2 * k),
      current: time.map((k) => 3 * k),
      speed: time.map((k) => 4 * k),
      air: time.map((k) => 5 * k),
    });
  };
  it('are left alone up to 120, then put together by neighbours', () => {
    const few = many(120);
    expect(thinned(few)).toBe(few);
    const { time, voltage, current, speed, air, probe, ...rest } = thinned(many(121));
    expect(Array.from([time, voltage, current, speed, air, probe], (each) => [each.length, each[0], each[1], each[60]])).toEqual([
      [61, 0.5, 2.5, 120],
      [61, 1, 5, 240],
      [61, 1.5, 7.5, 360],
      [61, 2, 10, 480],
      [61, 2.5, 12.5, 600],
      [61, 300.5, 302.5, 420],
    ]);
    expect(rest).toEqual({ place: 'in-slot', atRest: 0.25 });
  });
  it('keep torque and thrust where they were read', () => {
    const read = thinned({ ...many(240), torque: many(240).time, thrust: many(240).voltage });
    expect([read.torque?.[1], read.thrust?.[1], read.time.length]).toEqual([2.5, 5, 120]);
    const { atRest: _, ...unsaid } = many(240);
    expect('atRest' in thinned(unsaid)).toBe(false);
  });
  it('in which nothing turns are no warming run', () => {
    expect(() => model(OUTRUNNER, heatLog([0, 1], { speed: 0 }))).toThrow(
      new RangeError('Nothing turns in this log: a warming run is needed.'),
    );
    expect(() => model(OUTRUNNER, heatLog([0, 1], { speed: [0, 1e-3] }))).not.toThrow();
  });
});

describe('losses', () => {
  const { motor, controller } = OUTRUNNER.system;
  const flux = fluxRatio(motor, AIR);
  const resistance = windingResistance(motor, AIR);
  const iron = ironTorque(motor, 700, flux) * 700;
  const friction = motor.frictionTorque * 700;
  /** What the controller takes of a motor current [W]. */
  const taken = (i: number) => controller.pathResistance * i * i + (deadTimeDrop(controller) + switchingShare(controller) * 11) * i;

  it('follow from the balance of power where no torque was read', () => {
    const [copper = 0, ...others] = losses(OUTRUNNER, {});
    const i = Math.sqrt(copper / resistance);
    // what the pack gives is what copper and controller take and what the turning takes
    expect(copper + taken(i) + torqueConstantAt(motor, AIR) * 700 * i).toBeCloseTo(11 * (20 - 0.25), 3);
    expect(others[0]).toBeCloseTo(iron * (1 - motor.magnetLossShare) + friction, 3);
    expect(others[1]).toBeCloseTo(0, 5);
    expect(others[2]).toBeCloseTo(iron * motor.magnetLossShare, 3);
    expect(losses(OUTRUNNER, { torque: Number.NaN })).toEqual([copper, ...others]);
  });

  it('are what the pack gave and the shaft did not, where the torque was read', () => {
    for (const [torque, current] of [
      [0.15, 20],
      [0.05, 12],
    ] as const) {
      const [copper = 0, ...others] = losses(OUTRUNNER, { torque, current });
      const i = (torque + lossTorque(motor, 700, flux)) / torqueConstantAt(motor, AIR);
      const scale = sum(others) / (iron + friction);
      expect(copper).toBeCloseTo(scale * resistance * i * i, 3);
      expect(sum([copper, ...others]) + scale * taken(i)).toBeCloseTo(11 * (current - 0.25) - torque * 700, 3);
      expect(others[2] / sum(others)).toBeCloseTo((iron * motor.magnetLossShare) / (iron + friction), 6);
    }
    // a shaft that gives more than it got loses nothing, and one that is driven hard takes no current
    expect(losses(OUTRUNNER, { torque: 0.5 }).map((each) => each + 0)).toEqual([0, 0, 0, 0]);
    expect(losses(OUTRUNNER, { torque: -9 })[0]).toBeCloseTo(0, 1);
  });

  it('take the controller’s own current where none was seen at rest', () => {
    const { atRest: _, ...unsaid } = heatLog([0, 1e-5]);
    const made = model(OUTRUNNER, unsaid);
    const rise = made.bodies(deviates(made.unknowns))[0];
    const i = Math.sqrt(((rise[1] - rise[0]) * OUTRUNNER.system.heat.capacity.winding * 1e5) / resistance);
    expect(resistance * i * i + taken(i) + torqueConstantAt(motor, AIR) * 700 * i).toBeCloseTo(11 * (20 - controller.idleCurrent), 3);
  });

  it('have no copper where no current flows, and nothing at all at rest', () => {
    expect(losses(OUTRUNNER, { current: 0.2 })[0]).toBeCloseTo(0, 5);
    expect(losses(OUTRUNNER, { speed: [700, 0] })).toEqual([0, 0, 0, 0]);
    expect(losses(OUTRUNNER, { speed: [700, -700] })).toEqual([0, 0, 0, 0]);
  });

  it('of an inrunner leave its friction in the can', () => {
    const inside = INRUNNER.system.motor;
    const [, stator, can, magnets] = losses(INRUNNER, {});
    const own = ironTorque(inside, 700, fluxRatio(inside, AIR)) * 700;
    expect(
      [stator, can, magnets].map(
        (each, k) => each - [own * (1 - inside.magnetLossShare), inside.frictionTorque * 700, own * inside.magnetLossShare][k],
      ),
    ).toEqual([expect.closeTo(0, 3), expect.closeTo(0, 3), expect.closeTo(0, 3)]);
    const [, , read] = losses(INRUNNER, { torque: 0.15 });
    expect(read / can).toBeGreaterThan(0);
    expect(read / can).not.toBeCloseTo(1, 2);
  });

  it('of the copper are off by 5 % and what the resistance’s own ± says, one deviation', () => {
    const [nominal = 0, ...others] = losses(OUTRUNNER, {});
    const [more = 0, ...same] = losses(OUTRUNNER, {}, { [model(OUTRUNNER, heatLog([0, 1])).ways.length]: 1 });
    expect(Math.log(more / nominal)).toBeCloseTo(Math.hypot(0.05, deviationOf(OUTRUNNER.data.motor.resistance.unknown.spread)), 6);
    expect(same.map((each, k) => each - others[k])).toEqual([expect.closeTo(0, 5), expect.closeTo(0, 5), expect.closeTo(0, 5)]);
  });
});
