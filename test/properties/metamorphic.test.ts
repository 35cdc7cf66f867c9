/**
 * Laws between two runs of drawn drives, whatever their numbers: what is the same thing written otherwise gives the same numbers, and more of what cools,
 * carries or lasts never the contrary. Each follows from the meaning of its words or from a symmetry of the equations; no published source.
 */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type SimulateOptions, type Simulation, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const [boat, glider, car] = (['survey-boat', 'burst-glider', 'grass-car'] as const).map((name) => realise(demo(name).candidates[0].data));
const MANY: SimulateOptions = { method: 'dormand-prince', relative: 1e-7, record: false };
const run = (system: DriveSystem, profile: readonly ProfileStep[]): Simulation => simulate(system, profile, MANY);

const held = (value: number) => ({ from: value, to: value });
const throttle = (duration: number, from: number, to = from): ProfileStep => ({ duration, hold: 'throttle', value: { from, to } });
const speed = (duration: number, value: number): ProfileStep => ({ duration, hold: 'vehicleSpeed', value: held(value) });

/** The glider flies at a speed of its own; the others go as fast as they are driven. */
const drives: readonly (readonly [string, DriveSystem, (duty: number) => ProfileStep[]])[] = [
  ['boat', boat, (duty) => [throttle(40, duty), throttle(30, 0.6 * duty)]],
  [
    'glider',
    glider,
    (duty) => [
      stepOfParts({ ...throttle(30, duty), vehicleSpeed: held(10) }),
      stepOfParts({ ...throttle(40, 0.5 * duty), vehicleSpeed: held(10) }),
    ],
  ],
  ['car', car, (duty) => [throttle(20, duty), throttle(30, 0.6 * duty)]],
];
const duty = fc.double({ min: 0.3, max: 1, noNaN: true });
const more = fc.double({ min: 1.05, max: 3, noNaN: true });
/** Draws `law` a few times, the same ones each time. */
const always = <T>(drawn: fc.Arbitrary<T>, law: (value: T) => void, numRuns = 4): void =>
  fc.assert(fc.property(drawn, law), { numRuns, seed: 18 });

const winding = ({ highest }: Simulation): number => highest.windingTemperature.value;
const charge = ({ state, kernel }: Simulation): number => state[kernel.at.charge];
/** Tolerance of the runs themselves [K, 1]. */
const [KELVIN, SHARE] = [2e-3, 1e-6];

function same(a: Simulation, b: Simulation, kelvin = KELVIN): void {
  expect(a.end).toBe(b.end);
  expect(Math.abs(a.time - b.time)).toBeLessThan(1e-3);
  for (const body of BODIES) expect(Math.abs(a.state[a.kernel.at[body]] - b.state[b.kernel.at[body]])).toBeLessThan(kelvin);
  expect(Math.abs(charge(a) - charge(b))).toBeLessThan(SHARE);
  expect(Math.abs(winding(a) - winding(b))).toBeLessThan(kelvin);
}
const notAbove = (a: number, b: number, rounding: number): void => expect(a).toBeLessThanOrEqual(b + rounding);

describe.each(drives)('the same thing written otherwise: %s', (_, system, profile) => {
  it('two packs of half the size in parallel are one', () =>
    always(duty, (d) => {
      const { battery } = system;
      const halves: DriveSystem = {
        ...system,
        battery: {
          ...battery,
          cellsInParallel: 2 * battery.cellsInParallel,
          cellResistance: 2 * battery.cellResistance,
          polarisationResistance: 2 * battery.polarisationResistance,
        },
      };
      same(run(system, profile(d)), run(halves, profile(d)));
    }));

  it('a step in two is one, held or ramped', () =>
    always(fc.tuple(duty, duty, fc.double({ min: 0.1, max: 0.9, noNaN: true })), ([from, to, share]) => {
      const [first] = profile(from);
      const middle = from + share * (to - from);
      const part = (over: number, a: number, b: number): ProfileStep => ({ ...first, duration: over, value: { from: a, to: b } });
      same(run(system, [part(40, from, to)]), run(system, [part(40 * share, from, middle), part(40 * (1 - share), middle, to)]));
      same(run(system, [part(40, from, from)]), run(system, [part(40 * share, from, from), part(40 * (1 - share), from, from)]));
    }));

  it('limits that nothing reaches, or that only watch, change nothing', () =>
    always(duty, (d) => {
      const watched = { ...system.limits, windingTemperature: 300, batteryPower: 1, shaftSpeed: 10, reserve: 0.999 };
      const free = { ...system.controller, motorCurrentLimit: 1e6, batteryCurrentLimit: 1e6 };
      const [a, b] = [
        { ...system, controller: free, limits: watched },
        { ...system, controller: { ...free, motorCurrentLimit: 1e9 } },
      ];
      same(run(a, profile(d)), run(b, profile(d)));
    }));

  it('a run that is recorded, or whose states are kept, is the same run', () =>
    always(duty, (d) => {
      const plain = run(system, profile(d));
      const kept = simulate(system, profile(d), { ...MANY, keepAt: Float64Array.of(1, 10, 33.3) });
      expect([...kept.state]).toEqual([...plain.state]);
      same(plain, simulate(system, profile(d), { ...MANY, record: true }));
      same(plain, simulate(system, profile(d)));
    }));

  it('a profile written three times is one driven again and again', () =>
    always(
      duty,
      (d) => {
        const once = profile(0.6 * d);
        const times = [...once, ...once, ...once];
        const total = times.reduce((sum, { duration }) => sum + duration, 0);
        const endless = simulate(system, once, { ...MANY, again: true, keepAt: Float64Array.of(total - 1e-6) });
        const thrice = run(system, times);
        if (thrice.end !== 'finished') return;
        for (const body of BODIES)
          expect(Math.abs(endless.kept[0][endless.kernel.at[body]] - thrice.state[thrice.kernel.at[body]])).toBeLessThan(KELVIN);
      },
      2,
    ));

  it('two drives on a pack of twice the cells, moving twice as much, are each what one is', () =>
    always(duty, (d) => {
      const { battery, vehicle, heat } = system;
      const doubled: DriveSystem = {
        ...system,
        drives: 2 * system.drives,
        otherLoads: 2 * system.otherLoads,
        battery: { ...battery, cellsInParallel: 2 * battery.cellsInParallel, capacity: 2 * battery.capacity, mass: 2 * battery.mass },
        vehicle: { ...vehicle, mass: 2 * vehicle.mass, dragFactor: 2 * vehicle.dragFactor, liftArea: 2 * vehicle.liftArea },
        heat: {
          ...heat,
          capacity: { ...heat.capacity, cells: 2 * heat.capacity.cells },
          cellsToAir: 2 * heat.cellsToAir,
          cellsConvection: 2 * heat.cellsConvection,
        },
      };
      // rolling counts with mass and drag factor both; only air and water scale with the factor alone
      if (vehicle.carriedBy === 'wheels') {
        const half = { ...doubled.vehicle, rollingResistance: 0.5 * vehicle.rollingResistance };
        same(run(system, profile(d)), run({ ...doubled, vehicle: half }, profile(d)));
      } else if (vehicle.carriedBy === 'water') same(run(system, profile(d)), run(doubled, profile(d)));
    }));
});

describe.each(drives)('more never does the contrary: %s', (_, system, profile) => {
  const throughout = (law: (d: number, factor: number) => void): void => always(fc.tuple(duty, more), ([d, factor]) => law(d, factor));

  it('a longer run never has a lower peak, and never more charge left', () =>
    throughout((d, factor) => {
      const steps = profile(d);
      const [short, long] = [run(system, steps), run(system, [...steps, throttle(20, Math.min(1, 0.3 * factor))])];
      for (const id of ['windingTemperature', 'canTemperature', 'cellTemperature', 'motorCurrent', 'vehicleSpeed', 'batteryPower'] as const)
        notAbove(short.highest[id].value, long.highest[id].value, 1e-9);
      if (system.controller.braking === 'none') notAbove(charge(long), charge(short), SHARE);
    }));

  it('more room for heat in every body never makes the peak higher', () =>
    throughout((d, factor) => {
      const { capacity } = system.heat;
      const wide = Object.fromEntries(Object.entries(capacity).map(([body, value]) => [body, factor * value])) as typeof capacity;
      notAbove(winding(run({ ...system, heat: { ...system.heat, capacity: wide } }, profile(d))), winding(run(system, profile(d))), KELVIN);
    }));

  it('a start with warmer parts never ends with a cooler winding', () =>
    throughout((d, factor) => {
      const warm = { ...system.start, motorTemperature: system.start.motorTemperature + 10 * factor };
      notAbove(winding(run(system, profile(d))), winding(run({ ...system, start: warm }, profile(d))), KELVIN);
    }));

  it('a larger pack of the same resistance keeps a larger share of its charge', () =>
    throughout((d, factor) => {
      const large = { ...system, battery: { ...system.battery, capacity: factor * system.battery.capacity } };
      notAbove(charge(run(system, profile(d))), charge(run(large, profile(d))), SHARE);
    }));

  it('other loads never leave more charge, nor a higher voltage', () =>
    throughout((d, factor) => {
      const loaded = { ...system, otherLoads: system.otherLoads + 5 * factor };
      const [a, b] = [run(system, profile(d)), run(loaded, profile(d))];
      notAbove(charge(b), charge(a), SHARE);
      notAbove(b.lowest.busVoltage.value, a.lowest.busVoltage.value, 1e-6);
    }));

  it('a controller that lets less current pass never lets more pass', () =>
    throughout((d, factor) => {
      const open = run(system, profile(d));
      const limit = open.highest.motorCurrent.value / factor;
      const tight = run({ ...system, controller: { ...system.controller, motorCurrentLimit: limit } }, profile(d));
      notAbove(tight.highest.motorCurrent.value, limit, 1e-6 * limit);
    }));
});

describe('at a held speed, whatever the drive', () => {
  const steps = [speed(60, 3)];
  const law = (change: (system: DriveSystem, factor: number) => DriveSystem, hold: (a: Simulation, b: Simulation) => void): void =>
    always(more, (factor) => {
      for (const system of [boat, car]) hold(run(system, steps), run(change(system, factor), steps));
    });

  it('more convection, a rougher surface and a better mount never make the winding hotter', () =>
    always(more, (factor) => {
      // at a held throttle a cooler motor may draw more; and air warms what starts cooler than it, or is kept so by water
      for (const each of [{ ...boat, heat: { ...boat.heat, jacket: undefined } }, car]) {
        const { motorTemperature } = each.start;
        const system = {
          ...each,
          surroundings: { ...each.surroundings, motorAirTemperature: motorTemperature, compartmentTemperature: motorTemperature },
        };
        const { heat } = system;
        const hot = winding(run(system, steps));
        for (const better of [
          { ...heat, convectionFactor: factor * heat.convectionFactor },
          { ...heat, toMount: factor * heat.toMount },
          { ...heat, emissivity: Math.min(1, factor * heat.emissivity) },
        ])
          notAbove(winding(run({ ...system, heat: better }, steps)), hot, KELVIN);
      }
    }));

  it('more resistance of the winding never cools it, and never saves charge', () =>
    law(
      (system, factor) => ({ ...system, motor: { ...system.motor, resistance: factor * system.motor.resistance } }),
      (a, b) => {
        notAbove(winding(a), winding(b), KELVIN);
        notAbove(charge(b), charge(a), SHARE);
      },
    ));

  it('cells of more resistance never save charge, and never stay cooler', () =>
    law(
      (system, factor) => ({ ...system, battery: { ...system.battery, cellResistance: factor * system.battery.cellResistance } }),
      (a, b) => {
        notAbove(charge(b), charge(a), SHARE);
        notAbove(a.highest.cellTemperature.value, b.highest.cellTemperature.value, KELVIN);
      },
    ));

  it('more drag never asks for less', () =>
    law(
      (system, factor) => ({ ...system, vehicle: { ...system.vehicle, dragFactor: factor * system.vehicle.dragFactor } }),
      (a, b) => {
        notAbove(a.highest.motorCurrent.value, b.highest.motorCurrent.value, 1e-6);
        notAbove(charge(b), charge(a), SHARE);
        notAbove(winding(a), winding(b), KELVIN);
      },
    ));

  it('hotter air, and hotter water, never have a cooler winding', () =>
    always(fc.double({ min: 1, max: 25, noNaN: true }), (warmer) => {
      const { surroundings } = boat;
      const air = {
        ...surroundings,
        airTemperature: surroundings.airTemperature + warmer,
        motorAirTemperature: surroundings.motorAirTemperature + warmer,
        compartmentTemperature: surroundings.compartmentTemperature + warmer,
      };
      const cool = winding(run(boat, steps));
      notAbove(cool, winding(run({ ...boat, surroundings: air }, steps)), KELVIN);
      notAbove(
        cool,
        winding(run({ ...boat, surroundings: { ...surroundings, waterTemperature: surroundings.waterTemperature + warmer } }, steps)),
        KELVIN,
      );
    }));

  it('a heavier boat is never faster before it has its speed', () =>
    law(
      (system, factor) => ({ ...system, vehicle: { ...system.vehicle, mass: factor * system.vehicle.mass } }),
      () => {
        always(
          more,
          (factor) => {
            const heavy = { ...boat, vehicle: { ...boat.vehicle, mass: factor * boat.vehicle.mass } };
            for (const seconds of [0.5, 1, 2]) {
              const at = ({ state, kernel }: Simulation): number => state[kernel.at.speed];
              notAbove(at(run(heavy, [throttle(seconds, 0.8)])), at(run(boat, [throttle(seconds, 0.8)])), 1e-6);
            }
          },
          1,
        );
      },
    ));
});
