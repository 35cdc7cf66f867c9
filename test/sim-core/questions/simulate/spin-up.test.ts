/** The shaft's speed as a state: closed forms of a run-up and a run-out, what it agrees with, and its line in the energy account. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { HeldDrive, ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { createCoefficientTable } from '@shaftwork/sim-core/parts/propeller/coefficient-table';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type Simulation, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { mechanicalTime } from '@shaftwork/sim-core/questions/simulate/spin-up';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';

const boat = demo('survey-boat');
const glider = demo('burst-glider');
const free = (system: DriveSystem): DriveSystem => ({ ...system, shaftSpeed: 'with-inertia' });
const throttle = (duration: number, value: number): HeldDrive => ({ duration, hold: 'throttle', value: { from: value, to: value } });
const shaftAt = (run: Simulation, k: number): number => run.kept[k][run.kernel.at.shaft];

/** A motor without losses on a stiff pack, held on a bench with a propeller whose coefficients do not change. */
const base = realise(boat.candidates[0].data);
if (base.load.kind !== 'propeller') throw new Error('the boat has a screw');
const bare: DriveSystem = free({
  ...base,
  wiring: { resistance: 1e-9 },
  controller: {
    ...base.controller,
    pathResistance: 0,
    idleCurrent: 0,
    rippleConstant: 0,
    switchingTime: 0,
    deadTime: 0,
    motorCurrentLimit: Number.POSITIVE_INFINITY,
    batteryCurrentLimit: Number.POSITIVE_INFINITY,
  },
  battery: { ...base.battery, cellResistance: 1e-9, polarisationResistance: 1e-9, capacity: 1e9 },
  motor: { ...base.motor, inductance: 0, hysteresisTorque: 0, eddyTorque: 0, frictionTorque: 0, windageTorque: 0, rotorInertia: 6e-6 },
  vehicle: { ...base.vehicle, carriedBy: 'bench' },
  load: {
    ...base.load,
    inertia: 4e-6,
    shaftEfficiency: 1,
    table: createCoefficientTable([
      { advanceRatio: 0, thrustCoefficient: 0.1, powerCoefficient: 0.05 },
      { advanceRatio: 1, thrustCoefficient: 0.1, powerCoefficient: 0.05 },
    ]),
  },
  heat: {
    ...base.heat,
    capacity: { winding: Infinity, stator: Infinity, can: Infinity, magnets: Infinity, controller: Infinity, cells: Infinity },
  },
  start: { ...base.start, motorTemperature: 293.15 },
});
const unloaded: DriveSystem = { ...bare, load: { ...(bare.load as Extract<DriveSystem['load'], { kind: 'propeller' }>), diameter: 1e-6 } };
const J = 6e-6 + 4e-6;

describe('closed forms of the shaft alone', () => {
  it.each(['odex', 'dormand-prince'] as const)('an unloaded motor comes to speed as 1 − exp(−t/τ), τ = J·R/k_t² (%s)', (method) => {
    const { resistance, torqueConstant } = bare.motor;
    const tau = (J * resistance) / torqueConstant ** 2;
    const kernel = createKernel(unloaded);
    expect(mechanicalTime(kernel, unloaded) / tau).toBeCloseTo(1, 6);
    const times = [0.3, 1, 2, 4, 8].map((n) => n * tau);
    const run = simulate(unloaded, [throttle(1, 1)], { method, relative: 1e-8, record: false, keepAt: Float64Array.from(times) });
    kernel.begin(throttle(1, 1), 0, false);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    kernel.solve(0, y);
    const steady = kernel.point.speed;
    times.forEach((t, k) => {
      expect(shaftAt(run, k) / steady, `${t / tau} τ`).toBeCloseTo(1 - Math.exp(-t / tau), 5);
    });
  });

  it('a constant current against a square load comes to speed as tanh(t·√(M·k)/J)', () => {
    const current = 3;
    const kernel = createKernel(bare);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    const held: ProfileStep = { duration: 2, hold: 'motorCurrent', value: { from: current, to: current } };
    kernel.begin(held, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.dutyAsked).toBeLessThan(0.99);
    const steady = kernel.point.speed;
    const square = kernel.point.loadTorque / steady ** 2;
    const tau = J / Math.sqrt(bare.motor.torqueConstant * current * square);
    const times = [0.2, 0.5, 1, 2, 3].map((n) => n * tau);
    expect(times[4]).toBeLessThan(2);
    const run = simulate(bare, [held], { relative: 1e-8, record: false, keepAt: Float64Array.from(times) });
    times.forEach((t, k) => {
      expect(shaftAt(run, k) / steady, `${t / tau} τ`).toBeCloseTo(Math.tanh(t / tau), 5);
    });
  });

  it('runs out evenly under friction alone, comes to rest and stays there', () => {
    const friction = 2e-3;
    const braked: DriveSystem = { ...unloaded, motor: { ...unloaded.motor, frictionTorque: friction } };
    const times = [0.999, 1.4, 1.8, 5, 9];
    const run = simulate(braked, [throttle(1, 0.5), throttle(9, 0)], { relative: 1e-8, record: false, keepAt: Float64Array.from(times) });
    const top = shaftAt(run, 0);
    const rest = 1 + (top * J) / friction;
    expect(rest).toBeGreaterThan(2);
    expect(rest).toBeLessThan(5);
    for (const k of [1, 2]) expect(shaftAt(run, k)).toBeCloseTo(top - (friction / J) * (times[k] - 1), 3);
    for (const k of [3, 4]) expect(shaftAt(run, k)).toBe(0);
  });

  it('takes what a gear costs by the way power passes it', () => {
    const ratio = 4;
    const efficiency = 0.8;
    const geared = { ...unloaded, gearbox: { ratio, efficiency, mass: 0 } };
    const load = 4e-6;
    const rate = (duty: number, speed: number): { rate: number; torque: number } => {
      const kernel = createKernel({ ...geared, controller: { ...geared.controller, braking: 'regenerative' } });
      kernel.begin(throttle(1, duty), 0, false);
      kernel.turnFreely(true);
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      y[kernel.at.shaft] = speed;
      kernel.solve(0, y);
      return { rate: kernel.shaftAcceleration(), torque: kernel.point.current * kernel.point.torqueConstant };
    };
    const up = rate(1, 100);
    expect(up.rate).toBeCloseTo(up.torque / (6e-6 + load / (ratio ** 2 * efficiency)), 2);
    // braked into the pack, the load gives and the gear takes its share of that
    const down = rate(0.1, 600);
    expect(down.torque).toBeLessThan(0);
    expect(down.rate).toBeCloseTo(down.torque / (6e-6 + (load * efficiency) / ratio ** 2), 2);
  });
});

describe.each([
  ['burst-glider', glider],
  ['survey-boat', boat],
] as const)('%s', (_, { candidates, scenario }) => {
  const { profile } = scenario;
  const ends = profile.map((_, k) => profile.slice(0, k + 1).reduce((sum, step) => sum + step.duration, 0));

  it.each(candidates.map(({ name, data }) => [name, realise(data)] as const))(
    '%s: at the end of every step the shaft has its quasi-steady speed, to 5e-4 (it lags as the pack sags); ramps lag by their slope times the time constant',
    (_, system) => {
      const run = simulate(free(system), profile, { keepAt: Float64Array.from(ends) });
      expect(run.end).toBe('finished');
      expect(run.kept).toHaveLength(ends.length);
      const kernel = createKernel(system);
      const { shaft } = run.kernel.at;
      run.kept.forEach((row, k) => {
        const step = profile[k];
        const y = Float64Array.from([...row.subarray(0, shaft), ...row.subarray(shaft + 1)]);
        kernel.begin(step, ends[k] - step.duration, false);
        kernel.solve(ends[k], y);
        const ramp =
          step.hold === 'throttle' && step.value.to > 0 ? Math.abs(step.value.to - step.value.from) / step.value.to / step.duration : 0;
        const bound = 5e-4 + 2 * ramp * mechanicalTime(run.kernel, system);
        expect(Math.abs(row[shaft] - kernel.point.speed), `step ${k}`).toBeLessThanOrEqual(bound * kernel.point.speed);
      });
    },
  );

  it.each(candidates.map(({ name, data }) => [name, realise(data)] as const))(
    '%s: charge, and temperatures but for the heat of the run-ups, are those of the quasi-steady run; the account closes',
    (_, system) => {
      const quasi = simulate(system, profile);
      const spun = simulate(free(system), profile);
      expect(Math.abs(spun.state[spun.kernel.at.polarisation] - quasi.state[quasi.kernel.at.polarisation])).toBeLessThan(5e-3);
      const rise = spun.highest.windingTemperature.value - quasi.highest.windingTemperature.value;
      expect(rise).toBeGreaterThan(-0.01);
      expect(rise).toBeLessThan(4);
      const { energy } = spun.recorded!;
      expect(Math.abs(energy.residual)).toBeLessThan(1e-9);
      expect(quasi.recorded!.energy.terms.shaftStored).toBe(0);
      expect(quasi.recorded!.energy.shaftFollowed).toBe(0);
    },
  );
});

describe('where quasi-steady does not hold', () => {
  const disc = realise(glider.candidates[0].data);
  const burst = (duration: number): ProfileStep => ({ ...throttle(duration, 1), vehicleSpeed: { from: 12, to: 12 } });

  it('a run-up of an unloaded motor costs its winding what it stores in the shaft, whatever its resistance', () => {
    for (const resistance of [0.03, 0.1]) {
      const run = simulate({ ...unloaded, motor: { ...unloaded.motor, resistance } }, [throttle(3, 1)], { relative: 1e-8 });
      const { copperLoss, shaftStored } = run.recorded!.energy.terms;
      expect(copperLoss / shaftStored).toBeCloseTo(1, 3);
    }
  });

  it('short bursts give less than it says, by the share that the theory page tells', () => {
    for (const [duration, share] of [
      [0.5, 0.278],
      [1, 0.617],
      [2, 0.806],
      [5, 0.92],
      [25, 0.98],
    ]) {
      const [quasi, spun] = [disc, free(disc)].map((system) => simulate(system, [burst(duration)]).recorded!.energy.terms.useful);
      expect(spun / quasi, `${duration} s`).toBeCloseTo(share, 2);
    }
  });

  it('the start draws up to the controller’s limit, and bursts of a second every ten heat the winding more', () => {
    const profile = Array.from({ length: 30 }, () => [burst(1), { ...burst(9), value: { from: 0, to: 0 } }]).flat();
    const [quasi, spun] = [disc, free(disc)].map((system) => simulate(system, profile));
    expect(quasi.highest.motorCurrent.value).toBeLessThan(40);
    expect(spun.highest.motorCurrent.value).toBeCloseTo(disc.controller.motorCurrentLimit, 6);
    const rise = ({ highest }: Simulation): number => highest.windingTemperature.value - disc.start.motorTemperature;
    expect(rise(spun) / rise(quasi)).toBeCloseTo(1.29, 1);
  });
});

describe('the energy account', () => {
  it('what a run-up stores in the shaft is ½·J·ω², by the integral of its power', () => {
    const system = free(realise(glider.candidates[1].data));
    const run = simulate(
      system,
      [throttle(0.4, 1)].map((step) => ({ ...step, vehicleSpeed: { from: 12, to: 12 } })),
    );
    const { kernel, state } = run;
    const gained = 0.5 * kernel.turningInertia() * state[kernel.at.shaft] ** 2;
    expect(gained).toBeGreaterThan(10);
    const { energy } = run.recorded!;
    expect(energy.terms.shaftStored / gained).toBeCloseTo(1, 4);
    expect(Math.abs(energy.shaftFollowed)).toBeLessThan(1e-4 * gained);
    expect(Math.abs(energy.residual)).toBeLessThan(1e-9);
  });

  it('a jump of a held speed has its own line, also that of a shaft that follows', () => {
    const system = free(realise(boat.candidates[0].data));
    const held = (speed: number): ProfileStep => ({ duration: 20, hold: 'vehicleSpeed', value: { from: speed, to: speed } });
    const run = simulate(system, [held(1), held(2)]);
    const { energy } = run.recorded!;
    const mass = system.vehicle.mass * (1 + system.vehicle.addedMass);
    expect(energy.jumps).toBeCloseTo(0.5 * mass * 4, 9);
    expect(energy.kinetic).toBeCloseTo(0.5 * mass * 4, 9);
    expect(Math.abs(energy.imposed)).toBeLessThan(1e-6);
    expect(energy.terms.shaftStored).toBe(0);
    expect(energy.shaftFollowed).toBeCloseTo(0.5 * run.kernel.turningInertia() * run.state[run.kernel.at.shaft] ** 2, 9);
  });

  it('counts what wheels and rotors turn as speed gained, and imposes nothing on a car that drives itself', () => {
    const system = realise(demo('grass-car').candidates[0].data);
    const run = simulate(system, [throttle(1.5, 0.5)]);
    const { energy } = run.recorded!;
    const speed = run.state[run.state.length - 1];
    expect(speed).toBeGreaterThan(3);
    expect(energy.kinetic).toBeGreaterThan(1.05 * 0.5 * system.vehicle.mass * speed ** 2);
    expect(Math.abs(energy.imposed)).toBeLessThan(1e-6 * energy.kinetic);
    expect(energy.jumps).toBe(0);
  });
});

it('on wheels the option changes nothing: the shaft is tied to the vehicle', () => {
  const { candidates, scenario } = demo('grass-car');
  const system = realise(candidates[0].data);
  const [a, b] = [system, free(system)].map((each) => simulate(each, scenario.profile.slice(0, 7), { record: false }));
  expect(b.state).toEqual(a.state);
});

describe('the scenario’s option', () => {
  const text = (solver: string): string => `
title: Will this motor stay cool?
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 s, throttle: 80 % }]
solver: { shaft_speed: ${solver} }
candidates:
  - name: "27-32"
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;
  const read = (solver: string) => prepareScenario(new Map([['a.yaml', text(solver)]]), 'a.yaml');

  it('reaches the run, whose start draws more current than the steady point does', () => {
    const [slow, quick] = ['with-inertia', 'quasi-steady'].map((solver) => {
      const made = read(solver);
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      return runScenario(made.prepared).candidates[0];
    });
    expect(quick.energy.terms.shaftStored).toBe(0);
    expect(slow.energy.terms.shaftStored).toBeGreaterThan(1);
    expect(slow.headline.peakMotorCurrent.nominal).toBeGreaterThan(1.5 * quick.headline.peakMotorCurrent.nominal);
    expect(slow.trace.shaftSpeed[0]).toBe(0);
    expect(slow.trace.shaftSpeed.at(-1)! / quick.trace.shaftSpeed.at(-1)! - 1).toBeCloseTo(0, 2);
  });

  it('is refused where it is neither', () => {
    const made = read('inertial');
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems[0]).toMatchObject({ kind: 'unknown-choice', place: { path: 'solver.shaft_speed' } });
  });
});
