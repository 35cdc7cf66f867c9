/** Whether blades have the area that Keller's rule asks for: worked out by hand on thrusts drawn by hand, and in a run at full throttle. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { bladeAreaSmall } from '@shaftwork/sim-core/questions/judge/blade-area';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, preparedOf } from '../../provenance/drives.js';
import { simulated, withTrace } from './simulated.js';

const screw = { kind: 'marine-series', diameter: '45 mm', pitch_ratio: 1.1, blades: 3, area_ratio: 0.35, immersion: '50 mm' };
const data = dataOf(boat({ propeller: screw, ambient: { water: '20 °C' } }));
const system = realise(data);
const run = simulated(data);
const { load } = system;
if (load.kind !== 'propeller' || load.screw === undefined) throw new Error('the boat has a screw');
const known = load.screw;

/** Air at sea level (ISO 2533) and 50 mm of water of 20 °C: 998.2 kg/m³, vapour pressure 2339 Pa (IAPWS). */
const PRESSED = 101_325 + 998.2 * 9.80665 * 0.05 - 2339;
/** Thrust that asks for an area ratio: T = (a − k)·(p − p_v)·D²/(1.3 + 0.3·Z) with k = 0.2 of one shaft (Keller 1966, from memory). */
const thrustFor = (ratio: number): number => ((ratio - 0.2) * PRESSED * 0.045 ** 2) / (1.3 + 0.3 * 3);
const found = (time: readonly number[], ratios: readonly number[], of = system) =>
  bladeAreaSmall(of, withTrace(run, time, { thrust: ratios.map(thrustFor) }));

describe('the blades of a screw', () => {
  it('are too small where more is asked for, for as long as that is, at its greatest', () => {
    expect(found([0, 2, 5, 9, 10, 12], [0.3, 0.4, 0.5, 0.45, 0.3, 0.4])).toEqual({
      kind: 'blade-area-small',
      value: 0.35,
      time: 5,
      bound: expect.closeTo(0.5, 4),
      thrust: thrustFor(0.5),
      lasting: 8,
    });
    // to the end of the run; of equals the first
    expect(found([0, 3, 7], [0.4, 0.4, 0.4])).toMatchObject({ time: 0, lasting: 7 });
  });
  it('are large enough where it is asked for no longer than a spurt, or is just what there is', () => {
    expect(found([0, 5, 6], [0.4, 0.3, 0.3])).toBeUndefined();
    expect(found([0, 5.1, 6], [0.4, 0.3, 0.3])?.lasting).toBe(5.1);
    expect(found([0, 9], [0.34, 0.34])).toBeUndefined();
    const asked = found([0, 9], [0.4, 0.4])?.bound ?? Number.NaN;
    const just = { ...system, load: { ...load, screw: { ...known, areaRatio: asked } } };
    expect(found([0, 9], [0.4, 0.4], just)).toBeUndefined();
  });
  it('need a tenth less on two shafts, and more where the air presses less', () => {
    expect(found([0, 9], [0.5, 0.5], { ...system, drives: 2 })?.bound).toBeCloseTo(0.4, 4);
    // 2500 m: 74.7 kPa (ISO 2533)
    const high = { ...system, surroundings: { ...system.surroundings, airPressure: 74_700 } };
    expect((found([0, 9], [0.4, 0.4], high)?.bound ?? 0) - 0.2).toBeCloseTo((0.2 * PRESSED) / (PRESSED - 101_325 + 74_700), 4);
  });
  it('are not judged where they are not known, or nothing was recorded', () => {
    const { screw: _, ...unknown } = load;
    expect(found([0, 9], [0.5, 0.5], { ...system, load: unknown })).toBeUndefined();
    expect(bladeAreaSmall(system, { recorded: undefined })).toBeUndefined();
    const wheels = { propeller: 'none', wheel: { radius: '40 mm' }, vehicle: { mass: '2 kg' } };
    expect(found([0, 9], [0.5, 0.5], realise(dataOf(wheels)))).toBeUndefined();
  });
  it('are told of in a run', () => {
    const { candidates, scenario } = preparedOf(
      boat({
        propeller: { ...screw, area_ratio: 0.3 },
        battery: { cells: { series: 4 }, capacity: '5 Ah' },
        profile: [{ for: '7 s', throttle: '100 %' }],
      }),
    );
    const { findings, trace } = runCandidate(candidates[0], scenario.profile);
    const small = findings.find(({ kind }) => kind === 'blade-area-small');
    expect(small).toMatchObject({ candidate: 'A', value: 0.3, thrust: Math.max(...trace.thrust) });
  });
});
