import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { plainDerivative } from '../../twin/plain-derivative.js';

const { candidates } = demo('survey-boat');

/** The boat with a strap, a pumped coil in place of its jacket, fins on its controller and a draught in the hull. */
const cooled = (system: DriveSystem): DriveSystem => ({
  ...system,
  heat: {
    ...system.heat,
    jacket: undefined,
    coil: { bore: 0.003, length: 0.6, speedShare: 0.2, pumpSpeed: 0.7, contact: 3, water: 'fresh', covers: 'can' },
    strap: { conductance: 0.4, covers: 'can' },
    sink: {
      fins: { fins: 9, finHeight: 0.008, finThickness: 0.001, length: 0.04, breadth: 0.06, conductivity: 200 },
      contact: 5,
      covers: 'controller',
    },
    compartmentAirSpeed: 0.4,
    compartmentSpeedShare: 0.3,
  },
});

describe('the kernel against the plain right-hand side', () => {
  // both solve the torque balance to rounding; the can's convection is fitted
  it.each([
    [40, 3],
    [3000, 11],
  ])('agrees at %d random states to 1e-9 of each rate, the can’s to 1e-7 of its flows', (trials, seed) => {
    const random = seededRandom(seed, 1);
    const draw = (low: number, high: number): number => low + (high - low) * random.fraction();
    const systems = candidates.flatMap(({ data }) => {
      const system = realise(data);
      return [system, cooled(system)];
    });
    let compared = 0;
    const off: string[] = [];
    for (let trial = 0; trial < trials; trial++) {
      const system = systems[trial % systems.length];
      const kernel = createKernel(system);
      const throttle = draw(0.35, 1);
      const state = {
        winding: draw(280, 450),
        stator: draw(280, 400),
        can: draw(280, 380),
        magnets: draw(280, 380),
        controller: draw(280, 360),
        cells: draw(280, 330),
        charge: draw(0.1, 1),
        polarisation: draw(0, 0.05),
        speed: draw(0, 2.5),
      };
      const y = Float64Array.from(Object.values(state));
      const dy = new Float64Array(9);
      kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
      kernel.derivative(0, y, dy);
      const plain = Object.values(plainDerivative(system, throttle, state));
      if (!(kernel.point.current > 0 && kernel.point.current < system.controller.motorCurrentLimit)) continue;
      compared++;
      plain.forEach((rate, k) => {
        const bound = k === 2 ? 1e-7 * (Math.abs(rate) + 0.2) : 1e-9 * (Math.abs(rate) + 1e-2);
        if (!(Math.abs(dy[k] - rate) <= bound)) off.push(`trial ${trial}: ${Object.keys(state)[k]} ${dy[k]}, plain ${rate}`);
      });
    }
    expect(off).toEqual([]);
    expect(compared / trials).toBeGreaterThan(2900 / 3000);
  });

  it('lets a propeller come to rest that nothing but the air slows down', () => {
    const system = realise(demo('burst-glider').candidates[0].data);
    const free = { ...system.motor, hysteresisTorque: 0, frictionTorque: 0, eddyTorque: 0, windageTorque: 0 };
    if (system.load.kind !== 'propeller') throw new Error('a propeller');
    const kernel = createKernel({ ...system, motor: free, load: { ...system.load, folding: false } });
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.speed).toBeGreaterThan(100);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0, to: 0 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.speed).toBe(0);
  });

  it.each(['throttle', 'batteryPower'] as const)('is not moved by looking aside: %s', (hold) => {
    const value = hold === 'throttle' ? 0.7 : 60;
    const speeds = (looks: boolean): number[] => {
      const kernel = createKernel(realise(candidates[0].data));
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      kernel.begin({ duration: 9, hold, value: { from: value, to: value } }, 0, false);
      return [1, 1.5, 2].map((t) => {
        if (looks)
          kernel.aside(() => {
            for (const speed of [4.5, 0]) {
              y[kernel.at.speed] = speed;
              kernel.solve(t, y);
            }
          });
        y[kernel.at.speed] = t;
        kernel.solve(t, y);
        return kernel.point.speed;
      });
    };
    expect(speeds(true)).toEqual(speeds(false));
  });

  it('joins bodies that an infinite conductance makes one', () => {
    const system = realise(candidates[0].data);
    const kernel = createKernel({ ...system, heat: { ...system.heat, statorToCan: Number.POSITIVE_INFINITY } });
    expect(kernel.dimension).toBe(8);
    expect(kernel.at.stator).toBe(kernel.at.can);
  });

  it('keeps a wing’s speed and gives up climb where full throttle does not give both, and says what it climbs', () => {
    const { candidates: mappers, scenario } = demo('hot-day-mapper');
    const climbOut = stepOfParts({ ...scenario.profile[0], duration: 10, climb: { from: 30, to: 30 } });
    const run = simulate(realise(mappers[0].data), [climbOut], { record: false });
    expect(run.state[run.kernel.at.speed]).toBe(17);
    expect(run.lost).toHaveLength(1);
    const [{ wanted, reached, climb }] = run.lost;
    expect(climb).toBe(true);
    expect(wanted).toBe(30);
    // power to spare over weight: some hundred watts of thrust power on 6 kg, common practice
    expect(reached).toBeGreaterThan(2);
    expect(reached).toBeLessThan(12);
    expect(run.kernel.point.duty).toBe(1);
  });

  it('lets no current flow back when the load drives the motor, and off draws the idle current only', () => {
    const system = realise(candidates[0].data);
    const kernel = createKernel(system);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.speed] = 6;
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.1, to: 0.1 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.current).toBe(0);
    expect(kernel.point.force).toBeLessThan(0);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0, to: 0 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.packCurrent).toBe(system.controller.idleCurrent);
    const braking = { ...system, controller: { ...system.controller, braking: 'regenerative' as const } };
    kernel.load(braking);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.02, to: 0.02 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.point.current).toBeLessThanOrEqual(0);
  });

  it('holds a wheel’s motor at a speed by holding the vehicle at the speed that goes with it', () => {
    const system = realise(demo('grass-car').candidates[0].data);
    const { load, gearbox } = system;
    if (load.kind !== 'wheel') throw new Error('the car has wheels');
    const held = (hold: 'shaftSpeed' | 'vehicleSpeed', from: number, to: number) => {
      const kernel = createKernel(system);
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      kernel.begin(stepOfParts({ duration: 2, hold, value: { from, to } }), 0, false);
      y[kernel.at.speed] = kernel.heldSpeed(1);
      kernel.solve(1, y);
      return { ...kernel.point };
    };
    const turns = gearbox.ratio / load.radius;
    const [shaft, vehicle] = [held('shaftSpeed', 5 * turns, 7 * turns), held('vehicleSpeed', 5, 7)];
    // the same but for the rounding of one multiplication
    for (const [key, value] of Object.entries(vehicle)) {
      const other = shaft[key as keyof typeof shaft];
      if (typeof value === 'number' && Number.isFinite(value))
        expect(Math.abs((other as number) - value), key).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(value)));
      else expect(other, key).toBe(value);
    }
    expect(held('vehicleSpeed', 5, 7).current).toBeGreaterThan(0);
  });
});
