import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { infraredReading, surfaceOfInfrared } from '@shaftwork/sim-core/heat/thermometer';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { reading } from '@shaftwork/sim-core/questions/readings/reading';
import { afterStop, coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';

const { candidates, scenario } = demo('survey-boat');
const system: DriveSystem = realise(candidates[2].data);
// the last four minutes alone: what is asked here is what follows the stop
const profile = scenario.profile.slice(-1);
const run = simulate(system, profile);

describe('after the stop', () => {
  const stop = afterStop(system, run)!;

  it('reads at 0, 30, 60, 120 and 300 s, beginning where the run ended', () => {
    expect(stop.readings.map(({ after }) => after)).toEqual([0, 30, 60, 120, 300]);
    expect(stop.readings[0].winding).toBe(run.state[0]);
    expect(stop.readings[0].cells).toBe(run.state[5]);
    expect(stop.hiddenPeak.value).toBe(run.highest.windingTemperature.value);
  });

  it('lets the can go on warming while the winding cools: the jacket is dry at rest', () => {
    expect(stop.later.can.value).toBeGreaterThan(stop.readings[0].can + 5);
    expect(stop.later.can.after).toBeGreaterThan(0);
    for (let k = 1; k < stop.readings.length; k++) expect(stop.readings[k].winding).toBeLessThan(stop.readings[k - 1].winding);
  });

  it('is the same at a time whether others are asked for too or not', () => {
    const many = coolDown(system, run.state, [0, 10, 30, 55, 300, 600])!;
    expect(many.map(({ after }) => after)).toEqual([0, 10, 30, 55, 300, 600]);
    for (const { after, bodies } of many.slice(1)) {
      const [alone] = coolDown(system, run.state, [after])!;
      for (const body of ['winding', 'stator', 'can', 'end', 'magnets', 'controller', 'cells'] as const)
        expect(Math.abs(alone.bodies[body] - bodies[body])).toBeLessThan(1e-4);
    }
    expect(coolDown(system, run.state, [])).toEqual([]);
  });

  it('keeps heat in the motor: nothing is lost but what mount, air and jacket take', () => {
    // with all ways out shut the stored heat stays
    const shut: DriveSystem = {
      ...system,
      heat: { ...system.heat, toMount: 0, sideArea: 0, endArea: 0, jacket: undefined, throughFlow: 0 },
    };
    const stored = (bodies: { winding: number; stator: number; can: number; magnets: number }): number => {
      const { capacity } = system.heat;
      return (
        capacity.winding * bodies.winding + capacity.stator * bodies.stator + capacity.can * bodies.can + capacity.magnets * bodies.magnets
      );
    };
    const [first, last] = coolDown(shut, run.state, [0, 600]) ?? [];
    expect(stored(last.bodies)).toBeCloseTo(stored(first.bodies), 1);
    expect(last.bodies.winding - last.bodies.can).toBeLessThan(first.bodies.winding - first.bodies.can);
  });
});

describe('reading', () => {
  const ask = { place: 'on-can', after: 60, samples: 32, seed: 3 } as const;
  const truth = afterStop(system, run)!.readings.find(({ after }) => after === 60)!;

  it('finds the peak again from what the model itself would read', () => {
    // held to the can it shows 95 % of the excess, some seconds late while the can still warms
    const air = system.surroundings.motorAirTemperature;
    const shown = air + 0.95 * (truth.can - air);
    let drawn = 0;
    const found = reading(candidates, [], 'Small', profile, { ...ask, reading: shown, onDraw: () => drawn++ });
    expect(drawn).toBe(ask.samples);
    expect(Math.abs(found.expected.nominal - shown)).toBeLessThan(1);
    expect(found.hiddenPeak.low).toBeLessThan(run.highest.windingTemperature.value);
    expect(found.hiddenPeak.high).toBeGreaterThan(run.highest.windingTemperature.value);
    expect(found.surprise).toBeLessThan(2);
  });

  it('moves up with the reading, narrower than before it, and is surprised by what cannot be', () => {
    const at = (kelvin: number) => reading(candidates, [], 'Small', profile, { ...ask, reading: truth.can + kelvin });
    const [cool, hot] = [at(-8), at(8)];
    expect(hot.hiddenPeak.nominal).toBeGreaterThan(cool.hiddenPeak.nominal);
    const far = at(300);
    expect(far.surprise).toBeGreaterThan(3);
    expect(far.contradicts).toBe(true);
    expect(hot.contradicts).toBe(false);
  });

  it('a probe beside the coils reads a third of what the copper has, and says so', () => {
    const air = system.surroundings.motorAirTemperature;
    const beside = reading(candidates, [], 'Small', profile, { ...ask, place: 'beside-coils', reading: air + 15 });
    expect(beside.copperAt60.nominal - air).toBeGreaterThan(2 * (333.15 - air));
    expect(beside.copperAt60.high - beside.copperAt60.low).toBeGreaterThan(0.5 * (beside.copperAt60.nominal - air));
    const slot = reading(candidates, [], 'Small', profile, { ...ask, place: 'in-slot', reading: air + 30 });
    expect(Math.abs(slot.copperAt60.nominal - 333.15)).toBeLessThan(5);
  });

  it('an infrared thermometer on bare metal reads far too little: grey body, T⁴', () => {
    const air = system.surroundings.motorAirTemperature;
    const shown = infraredReading(truth.can, 0.2, air);
    expect(surfaceOfInfrared(shown, 0.2, air)).toBeCloseTo(truth.can, 9);
    expect(shown - air).toBeLessThan(0.3 * (truth.can - air));
    const found = reading(candidates, [], 'Small', profile, { ...ask, emissivity: 0.2, reading: shown });
    expect(Math.abs(found.expected.nominal - shown)).toBeLessThan(0.3);
    expect(() => reading(candidates, [], 'Small', profile, { ...ask, place: 'in-slot', emissivity: 0.2, reading: shown })).toThrow(
      /sees a surface/,
    );
  });

  it('refuses a reading that tells nothing', () => {
    expect(() => reading(candidates, [], 'Small', profile, { ...ask, reading: 290 })).toThrow(/not above the air/);
  });
});
