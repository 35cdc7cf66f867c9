import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type SimulateOptions, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';

const { candidates, scenario } = demo('survey-boat');
const system = realise(candidates[0].data);
const MANY = { method: 'dormand-prince', relative: 2e-4, record: false } as const;

/** The same drive with a winding whose time constant to the stator is `seconds`. */
const quickWinding = (seconds: number): DriveSystem => ({
  ...system,
  heat: { ...system.heat, capacity: { ...system.heat.capacity, winding: seconds * system.heat.windingToStator } },
});

describe('one of many', () => {
  /** How far off temperatures [K] at the end, the winding first, and the peak of the winding are, against a tight run. */
  const misses = (seconds: number, relative: number) => {
    const quick = quickWinding(seconds);
    const profile = scenario.profile.slice(0, 6);
    const tight = simulate(quick, profile, { method: 'odex', relative: 1e-9, record: false });
    const many = simulate(quick, profile, { ...MANY, relative });
    expect(many.end).toBe('finished');
    const [winding, ...others] = BODIES.map((body) => Math.abs(many.state[many.kernel.at[body]] - tight.state[tight.kernel.at[body]]));
    const charge = many.kernel.at.charge;
    return {
      winding,
      others: Math.max(...others),
      peak: Math.abs(many.highest.windingTemperature.value - tight.highest.windingTemperature.value),
      charge: Math.abs(many.state[charge] - tight.state[charge]),
    };
  };

  // a winding that forgets within 0.1 s has the error of the steps last taken, to which the control allows 10 K × the tolerance; slower ones average it out
  it.each([
    [30, 1e-3],
    [1, 1e-3],
    [0.1, 2e-3],
  ])('is near a tight run in temperatures and within 1e-6 of charge, with a winding as quick as %d s', (seconds, ofWinding) => {
    const { winding, others, peak, charge } = misses(seconds, MANY.relative);
    expect(winding).toBeLessThan(ofWinding);
    expect(others).toBeLessThan(1e-3);
    expect(peak).toBeLessThan(2e-3);
    expect(charge).toBeLessThan(1e-6);
  });

  it.each([2e-5, 2e-6])('leaves the quickest winding no error but that of the step: it falls with the tolerance, at %d too', (relative) => {
    const { winding, others, peak } = misses(0.1, relative);
    for (const miss of [winding, others, peak]) expect(miss).toBeLessThan(10 * relative);
  });

  it('keeps the states it is asked for', () => {
    const keepAt = Float64Array.of(0, 10, 60, 119.5);
    const { kept, kernel } = simulate(system, scenario.profile.slice(0, 1), { ...MANY, keepAt });
    expect(kept).toHaveLength(4);
    expect(kept[0][kernel.at.winding]).toBe(system.start.motorTemperature);
    const charges = kept.map((state) => state[kernel.at.charge]);
    expect(charges).toEqual([...charges].sort((a, b) => b - a));
    expect(charges[0]).toBeGreaterThan(charges[3]);
  });
});

describe('what a run may cost', () => {
  const idle = (duration: number) => [stepOfParts({ duration, hold: 'throttle', value: { from: 0, to: 0 } })];
  const outlasting: DriveSystem = { ...system, battery: { ...system.battery, capacity: 1e6 * system.battery.capacity } };
  const again = { ...MANY, again: true } as const;

  it('a profile is driven again and again for a day, or for as long as it must last', () => {
    expect(simulate(outlasting, idle(7200), again)).toMatchObject({ end: 'finished', time: 24 * 3600 });
    const longer: DriveSystem = { ...outlasting, limits: { ...outlasting.limits, runTime: 31 * 3600 } };
    expect(simulate(longer, idle(7200), again)).toMatchObject({ end: 'finished', time: 32 * 3600 });
  });

  it('a short one only as far as that needs no more work than many runs', () => {
    const run = simulate(outlasting, idle(0.5), again);
    expect(run.end).toBe('finished');
    expect(run.time).toBeGreaterThan(3600);
    expect(run.time).toBeLessThan(24 * 3600);
    expect(run.evaluations).toBeLessThan(500_000);
    expect(Array.from(run.state).every(Number.isFinite)).toBe(true);
  });

  it('a run that needs more is given up where it is, with what was driven until then', () => {
    // a tolerance that rounding alone uses up
    const run = simulate(
      outlasting,
      [1, 2, 3].flatMap(() => scenario.profile),
      { ...MANY, relative: 2e-16 },
    );
    expect(run.end).toBe('failed');
    expect(run.end === 'failed' && run.failure.why).toMatch(/given up/);
    expect(run.time).toBeGreaterThan(0);
    expect(run.evaluations).toBeLessThan(200_000);
  });
});

const car = realise(demo('grass-car').candidates[0].data);
if (car.load.kind !== 'wheel') throw new Error('wheels');
const { load: wheel } = car;

it('follows a vehicle of 6 mm/s as well as one of 20 m/s: what is allowed to its speed goes with that of its motor', () => {
  const { motor } = car;
  const crawler = { ...car, motor: { ...motor, torqueConstant: 3000 * motor.torqueConstant, resistance: 3000 * motor.resistance } };
  const profile = [stepOfParts({ duration: 20, hold: 'throttle', value: { from: 1, to: 1 } })];
  const drawn = (options: SimulateOptions) => {
    const { state, kernel, highest, steps } = simulate(crawler, profile, options);
    return { charge: 1 - state[kernel.at.charge], speed: highest.vehicleSpeed.value, steps };
  };
  const [many, tight] = [drawn(MANY), drawn({ method: 'odex', relative: 1e-9, record: false })];
  expect(tight.speed).toBeLessThan(0.01);
  expect(many.charge / tight.charge).toBeCloseTo(1, 4);
  expect(many.speed / tight.speed).toBeCloseTo(1, 2);
  expect(many.steps).toBeLessThan(200);
});

describe('peaks', () => {
  // the power rises while the throttle is eased to the ground and falls once it no longer is
  const slippery: DriveSystem = { ...car, load: { ...wheel, grip: 0.6 } };
  const away: ProfileStep = { duration: 8, hold: 'throttle', value: { from: 0.6, to: 0.6 } };

  it('do not hang on where the steps of the integration end: a corner within a step', () => {
    const [one, other] = [1e-8, 5e-8].map((relative) => simulate(slippery, [away], { relative }));
    expect(one.steps).not.toBe(other.steps);
    const { time } = one.highest.inputPower;
    expect(time).toBeGreaterThan(0.1);
    expect(time).toBeLessThan(away.duration);
    expect(other.highest.inputPower.time).toBeCloseTo(time, 4);
    for (const id of ['inputPower', 'batteryPower', 'batteryCurrent'] as const)
      expect(other.highest[id].value / one.highest[id].value).toBeCloseTo(1, 6);
  });
});
