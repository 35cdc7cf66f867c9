/** Energy balances of thousands of random systems: every power by its own law, the sum closes to 1e-9; closed forms of the drive. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { emptyChainPoint, solveForCurrent } from '@shaftwork/sim-core/drive/electrical-chain';
import type { PowerAccount } from '@shaftwork/sim-core/drive/power-terms';
import { type Held, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { lossTorque } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const { candidates } = demo('survey-boat');
const random = seededRandom(3, 1);
const draw = (low: number, high: number): number => low + (high - low) * random.fraction();

/** The demo's drive with every parameter moved at random. */
function randomSystem(trial: number): DriveSystem {
  const deviates = new Map<string, number>();
  const system = realise(candidates[trial % 3].data, (key) => {
    const known = deviates.get(key) ?? draw(-2, 2);
    deviates.set(key, known);
    return known;
  });
  return {
    ...system,
    otherLoads: trial % 4 === 0 ? draw(0, 15) : 0,
    drives: 1 + (trial % 2),
    gearbox: { ratio: draw(1, 3), efficiency: draw(0.85, 1), mass: 0 },
    controller: {
      ...system.controller,
      diodeDrop: trial % 5 === 0 ? draw(0.3, 1) : 0,
      motorCurrentLimit: trial % 3 === 0 ? draw(5, 30) : 200,
      batteryCurrentLimit: trial % 11 === 0 ? draw(5, 20) : Number.POSITIVE_INFINITY,
      braking: trial % 2 === 0 ? 'none' : 'regenerative',
    },
  };
}

/** The greatest power of all [W], and what is missing between what leaves the cells and where it goes [W]. */
function accountOf(powers: PowerAccount) {
  const { batteryChemical, ...spent } = powers;
  const scale = Math.max(1, ...Object.values(powers).map(Math.abs));
  return { scale, open: Math.abs(batteryChemical - Object.values(spent).reduce((sum, each) => sum + each, 0)) };
}

describe('power balance', () => {
  it('closes to 1e-9 at 6000 random systems, states and holds, and no loss is negative', () => {
    let solved = 0;
    let atMotorLimit = 0;
    let atBatteryLimit = 0;
    for (let trial = 0; trial < 6000; trial++) {
      const system = randomSystem(trial);
      const kernel = createKernel(system);
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      for (let k = 0; k < 6; k++) y[k] = draw(285, 400);
      y[kernel.at.charge] = draw(0.1, 1);
      y[kernel.at.polarisation] = draw(0, 0.03);
      y[kernel.at.speed] = draw(0, 4);
      const [hold, value] = (
        [
          ['throttle', draw(0.05, 1)],
          ['throttle', 1],
          ['throttle', draw(0.98, 1)],
          ['vehicleSpeed', draw(1, 3)],
          ['shaftSpeed', draw(200, 900)],
          ['motorCurrent', draw(2, 20)],
          ['thrust', draw(2, 20)],
        ] as [Held, number][]
      )[trial % 7];
      if (hold === 'vehicleSpeed') y[kernel.at.speed] = value;
      kernel.begin(stepOfParts({ duration: 1, hold, value: { from: value, to: value } }), 0, false);
      kernel.solve(0, y);
      const { point } = kernel;
      if (!(point.dutyAsked <= 1) || point.stalled) continue;
      solved++;
      const powers = kernel.powers(y);
      const { scale, open } = accountOf(powers);
      expect(open, `${trial} ${hold}`).toBeLessThan(1e-9 * scale);
      for (const term of [
        'batteryLoss',
        'wiringLoss',
        'controllerIdle',
        'controllerConduction',
        'controllerSwitching',
        'copperLoss',
        'ironLoss',
        'frictionLoss',
        'gearLoss',
      ] as const) {
        expect(powers[term], term).toBeGreaterThanOrEqual(0);
      }
      if (system.controller.braking === 'none') expect(point.current).toBeGreaterThanOrEqual(0);
      if (hold === 'throttle') {
        const { motorCurrentLimit, batteryCurrentLimit } = system.controller;
        if (Math.abs(point.current) >= motorCurrentLimit * (1 - 1e-9)) atMotorLimit++;
        if (point.busCurrent >= batteryCurrentLimit * (1 - 1e-9)) atBatteryLimit++;
        expect(Math.abs(point.current)).toBeLessThanOrEqual(motorCurrentLimit * (1 + 1e-9));
        expect(point.busCurrent).toBeLessThanOrEqual(batteryCurrentLimit * (1 + 1e-9));
      }
      expect(point.duty).toBeGreaterThanOrEqual(0);
      expect(point.duty).toBeLessThanOrEqual(1);
      // torque balance at the shaft
      const flux = point.torqueConstant / system.motor.torqueConstant;
      const miss = point.torqueConstant * point.current - lossTorque(system.motor, point.speed, flux) - point.loadTorque;
      expect(Math.abs(miss)).toBeLessThan(1e-9 * (1 + Math.abs(point.loadTorque)));
    }
    expect(solved).toBeGreaterThan(4000);
    expect(atMotorLimit).toBeGreaterThan(30);
    expect(atBatteryLimit).toBeGreaterThan(30);
  });

  it('closes to 1e-9 on wheels for every hold, driving, braking into the pack and at the edge of grip', () => {
    const car = demo('grass-car').candidates;
    const solved = new Map<Held, number>();
    let intoPack = 0;
    let atGrip = 0;
    for (let trial = 0; trial < 3500; trial++) {
      const base = realise(car[trial % car.length].data);
      if (base.load.kind !== 'wheel') throw new Error('the car runs on wheels');
      const ratio = draw(3, 9);
      const kernel = createKernel({
        ...base,
        otherLoads: trial % 4 === 0 ? draw(0, 15) : 0,
        gearbox: { ratio, efficiency: draw(0.85, 1), mass: 0 },
        load: { ...base.load, grip: draw(0.3, 1.2) },
        controller: {
          ...base.controller,
          braking: trial % 6 === 0 ? 'none' : 'regenerative',
          diodeDrop: trial % 7 === 0 ? draw(0.3, 1) : 0,
        },
      });
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      for (let k = 0; k < 6; k++) y[k] = draw(285, 380);
      y[kernel.at.charge] = draw(0.2, 0.95);
      y[kernel.at.polarisation] = draw(0, 0.03);
      const speed = draw(0.5, 12);
      y[kernel.at.speed] = speed;
      const [hold, value, change] = (
        [
          ['throttle', draw(0.05, 1), 0],
          ['throttle', 0, 0],
          ['vehicleSpeed', speed, 0],
          ['vehicleSpeed', speed, draw(-7, 7)],
          ['motorCurrent', draw(2, 50), 0],
          ['thrust', draw(-12, 20), 0],
          ['batteryPower', draw(20, 300), 0],
          ['batteryCurrent', draw(3, 30), 0],
          ['shaftSpeed', (speed / base.load.radius) * ratio, 0],
        ] as [Held, number, number][]
      )[trial % 9];
      kernel.begin(stepOfParts({ duration: 1, hold, value: { from: value, to: value + change } }), 0, false);
      kernel.solve(0, y);
      const { point } = kernel;
      if (hold === 'shaftSpeed') expect(point.speed).toBeCloseTo(value, 6);
      if (!(point.dutyAsked <= 1)) continue;
      // what the pack gives, all drives and other loads counted
      if (hold === 'batteryPower') expect(Math.abs(point.busVoltage * point.packCurrent - value)).toBeLessThan(1e-6 * value);
      if (hold === 'batteryCurrent') expect(Math.abs(point.packCurrent - value)).toBeLessThan(1e-6 * value);
      solved.set(hold, (solved.get(hold) ?? 0) + 1);
      if (point.busCurrent < 0) intoPack++;
      if (point.spinning) atGrip++;
      const powers = kernel.powers(y);
      const { scale, open } = accountOf(powers);
      expect(open, `${trial} ${hold}`).toBeLessThan(1e-9 * scale);
    }
    for (const hold of ['throttle', 'vehicleSpeed', 'motorCurrent', 'thrust', 'batteryPower', 'batteryCurrent', 'shaftSpeed'] as const)
      expect(solved.get(hold) ?? 0, hold).toBeGreaterThan(100);
    expect(intoPack).toBeGreaterThan(100);
    expect(atGrip).toBeGreaterThan(20);
  });

  it('closes to 1e-9 at 4000 random speeds of a shaft that turns by its inertia, faster, slower and braked into the pack', () => {
    const seen = { faster: 0, slower: 0, intoPack: 0, backwards: 0 };
    for (let trial = 0; trial < 4000; trial++) {
      const system: DriveSystem = { ...randomSystem(trial), shaftSpeed: 'with-inertia' };
      if (system.load.kind !== 'propeller') throw new Error('the boat has a screw');
      const load = { ...system.load, inertia: system.motor.rotorInertia * draw(0.1, 20) };
      const kernel = createKernel({ ...system, load });
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      for (let k = 0; k < 6; k++) y[k] = draw(285, 400);
      y[kernel.at.charge] = draw(0.1, 1);
      y[kernel.at.speed] = draw(0, 4);
      y[kernel.at.shaft] = draw(0, 1200);
      const [hold, value] = (
        [
          ['throttle', draw(0, 1)],
          ['throttle', 0],
          ['motorCurrent', draw(0, 20)],
        ] as [Held, number][]
      )[trial % 3];
      kernel.begin(stepOfParts({ duration: 1, hold, value: { from: value, to: value } }), 0, false);
      kernel.turnFreely(true);
      kernel.solve(0, y);
      const { point } = kernel;
      if (!(point.dutyAsked <= 1)) continue;
      expect(point.speed).toBe(y[kernel.at.shaft]);
      const powers = kernel.powers(y);
      const { scale, open } = accountOf(powers);
      expect(open, `${trial} ${hold}`).toBeLessThan(1e-9 * scale);
      expect(powers.gearLoss).toBeGreaterThanOrEqual(-1e-12 * scale);
      if (powers.shaftStored > 1) seen.faster++;
      if (powers.shaftStored < -1) seen.slower++;
      if (point.busCurrent < 0) seen.intoPack++;
      if (point.loadTorque < 0) seen.backwards++;
    }
    for (const [way, count] of Object.entries(seen)) expect(count, way).toBeGreaterThan(50);
  });

  it('the two solutions of the chain undo one another', () => {
    const [a, b] = [emptyChainPoint(), emptyChainPoint()];
    let counted = 0;
    for (let trial = 0; trial < 3000; trial++) {
      const chain = {
        emf: draw(6, 30),
        sourceResistance: draw(0.005, 0.05),
        idleCurrent: draw(0, 0.2),
        otherPower: trial % 3 === 0 ? draw(0, 20) : 0,
        pathResistance: draw(0.001, 0.01),
        windingResistance: draw(0.02, 0.2),
        reactiveShare: draw(0, 0.01),
        sinusoidal: trial % 5 === 0,
        switchingShare: draw(0, 0.01),
        rippleLoss: draw(0, 1),
        diodeDrop: trial % 4 === 0 ? draw(0.2, 0.8) : 0,
        deadTimeDrop: trial % 2 === 0 ? draw(0, 0.1) : 0,
        regenerative: true,
      };
      const duty = draw(0.1, 1);
      const [kt, speed] = [0.01, draw(0, 600)];
      solveAtDuty(chain, duty, kt * speed, a);
      // past the pack's power maximum a current has a second voltage; there the high-voltage root is another point
      if (!(Math.abs(a.current) > 1e-3) || a.busVoltage < 0.55 * chain.emf) continue;
      // a sinusoidal drive that cannot brake as gently as its duty says brakes as if shorted, at no duty of its own
      const resistance = chain.windingResistance + chain.pathResistance * (chain.diodeDrop > 0 ? 0.5 * (1 + duty) : 1);
      const opposing = kt * speed - (1 - duty) * chain.diodeDrop - chain.deadTimeDrop;
      const shorted = (-resistance * opposing) / (resistance ** 2 + (chain.reactiveShare * kt * speed) ** 2);
      if (chain.sinusoidal && Math.abs(a.current / shorted - 1) < 1e-9) continue;
      counted++;
      expect(Math.abs(solveForCurrent(chain, a.current, kt * speed, b) - duty)).toBeLessThan(1e-9);
      expect(Math.abs(b.busVoltage - a.busVoltage)).toBeLessThan(1e-9 * chain.emf);
      expect(Math.abs(b.busCurrent - a.busCurrent)).toBeLessThan(1e-8 * (1 + Math.abs(a.busCurrent)));
    }
    expect(counted).toBeGreaterThan(1500);
  });
});

describe('closed forms', () => {
  const base = realise(candidates[0].data);
  const bare: DriveSystem = {
    ...base,
    wiring: { resistance: 1e-12 },
    controller: { ...base.controller, pathResistance: 0, idleCurrent: 0, rippleConstant: 0, switchingTime: 0, deadTime: 0 },
    battery: { ...base.battery, cellResistance: 1e-12, polarisationResistance: 1e-12 },
    motor: { ...base.motor, inductance: 0 },
    vehicle: { ...base.vehicle, carriedBy: 'bench' },
    heat: {
      ...base.heat,
      capacity: { winding: Infinity, stator: Infinity, can: Infinity, magnets: Infinity, controller: Infinity, cells: Infinity },
    },
    start: { ...base.start, motorTemperature: 293.15 },
  };

  it('stall current V/R and no-load speed (V − i0·R)/kt', () => {
    const kernel = createKernel(bare);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    const volts = 4 * kernelVolts(kernel, y);
    kernel.load({ ...bare, controller: { ...bare.controller, motorCurrentLimit: Infinity } });
    kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: 0, to: 0 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.current).toBeCloseTo(volts / bare.motor.resistance, 5);
    // a propeller of no size leaves the motor unloaded
    const free: DriveSystem = { ...bare, load: { ...(bare.load as Extract<DriveSystem['load'], { kind: 'propeller' }>), diameter: 1e-6 } };
    kernel.load(free);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
    kernel.solve(0, y);
    const { speed, current } = kernel.point;
    expect(speed).toBeCloseTo((volts - current * bare.motor.resistance) / bare.motor.torqueConstant, 6);
    expect(current * bare.motor.torqueConstant).toBeCloseTo(lossTorque(bare.motor, speed, 1), 9);
  });

  const kernelVolts = (kernel: ReturnType<typeof createKernel>, y: Float64Array): number => {
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0, to: 0 } }, 0, false);
    kernel.solve(0, y);
    return kernel.point.openCircuit;
  };

  it('a constant current of the whole pack empties it in Q/i', () => {
    const steady: DriveSystem = {
      ...bare,
      limits: { ...bare.limits, cellVoltage: 0 },
      battery: { ...bare.battery, surfaceLag: 0 },
      controller: { ...bare.controller, idleCurrent: 10 },
    };
    const run = simulate(steady, [{ duration: 3000, hold: 'throttle', value: { from: 0, to: 0 } }]);
    expect(run.end).toBe('empty');
    expect(run.time).toBeCloseTo(bare.battery.capacity / 10, 6);
  });
});
