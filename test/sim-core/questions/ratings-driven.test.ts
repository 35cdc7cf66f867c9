/** Ratings against the run itself: cycles driven one after the other, bursts with the rest that was found, a climb held. */

import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities/constants';
import { holdDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { rate } from '@shaftwork/sim-core/questions/rate/rate';
import { settleCycle } from '@shaftwork/sim-core/questions/rate/settled-cycle';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const LAUNCH = `
title: Stout motor in a harbour launch
ambient: { air: 22 °C, water: 16 °C, water_kind: sea, compartment: 34 °C }
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5.0 Ah, cell_resistance: 2.2 mohm, discharge_rating: 50 C, mass: 520 g }
controller: { path_resistance: 2.5 mohm, motor_current_limit: 90 A, pwm_frequency: 12 kHz }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.3, blades: 3, area_ratio: 0.65, shaft_efficiency: 93 % }
vehicle: { mass: 3.1 kg, added_mass: 7 %, drag: [ { speed: 2 m/s, force: 4 N }, { speed: 4 m/s, force: 11 N }, { speed: 6 m/s, force: 15 N }, { speed: 9 m/s, force: 24 N }, { speed: 13 m/s, force: 42 N } ] }
limits: { winding: 130 °C, magnets: 100 °C, controller: 95 °C, cells: 60 °C }
profile: [{ for: 1 min, throttle: 100 % }]
candidates:
  - name: Stout
    motor: { layout: inrunner, kv: 1400 rpm/V, resistance: 12 mohm, no_load: { current: 2.1 A, voltage: 10 V }, poles: 4, mass: 229 g, can: { diameter: 38 mm, length: 50 mm }, maker_limits: { current: 60 A, voltage: 30 V, input_power: 1750 W, shaft_speed: 50000 rpm } }
`;
const preparation = prepareScenario(new Map([['launch.yaml', LAUNCH]]), 'launch.yaml');
if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
const system = realise(preparation.prepared.candidates[0].data);
const { rating } = rate(system, { charge: 0.5, cycle: 600 });

/** Least room under any temperature limit over `cycles` of throttle and rest at `restSpeed`, from a pack too large to be emptied [K]. */
function roomDriven(driven: DriveSystem, throttle: number, on: number, off: number, cycles: number, restSpeed = 0): number {
  const { battery, start, limits } = driven;
  const held = { ...driven, battery: { ...battery, capacity: 1e9 }, start: { ...start, charge: 0.5 }, limits: { ...limits, reserve: 0 } };
  const steps = [
    {
      duration: on,
      hold: 'throttle' as const,
      value: { from: throttle, to: throttle },
    },
    { duration: off, hold: 'throttle' as const, value: { from: 0, to: 0 }, vehicleSpeed: { from: restSpeed, to: restSpeed } },
  ];
  const { highest } = simulate(held, Array.from({ length: cycles }, () => steps).flat(), {
    method: 'dormand-prince',
    relative: 1e-5,
    record: false,
  });
  return Math.min(
    limits.windingTemperature - highest.windingTemperature.value,
    limits.magnetTemperature - highest.magnetTemperature.value,
    limits.controllerTemperature - highest.controllerTemperature.value,
    limits.cellTemperature - highest.cellTemperature.value,
  );
}

describe('ratings, driven', () => {
  it('S3: twenty cycles at the throttle told come to the limit and no further', () => {
    for (const { duty, rating: each } of rating.intermittent.duties) {
      if (each.kind !== 'limited') continue;
      expect(Math.abs(roomDriven(system, each.point.throttle, duty * 600, (1 - duty) * 600, 20))).toBeLessThan(2);
    }
  });

  it('S3: the more rest, the more throttle, and never less than for ever', () => {
    const throttle = (each: (typeof rating)['continuous']): number => (each.kind === 'none' ? 0 : each.point.throttle);
    const told = rating.intermittent.duties.map(({ rating: each }) => throttle(each));
    for (let k = 1; k < told.length; k++) expect(told[k]).toBeLessThanOrEqual(told[k - 1]);
    expect(told.at(-1)).toBeGreaterThan(throttle(rating.continuous));
  });

  it('S3: its currents and watts are those that the burst comes to, not those of its first moment', () => {
    if (rating.continuous.kind === 'none') throw new Error();
    const { vehicleSpeed, shaftPower } = rating.continuous.point;
    for (const { rating: each } of rating.intermittent.duties) {
      if (each.kind === 'none') throw new Error();
      // more throttle than for ever: faster, and more power at the shaft
      expect(each.point.vehicleSpeed).toBeGreaterThan(vehicleSpeed);
      expect(each.point.shaftPower).toBeGreaterThan(shaftPower);
    }
  });

  it('the motor alone lasts at least as well as with controller and pack', () => {
    if (rating.motorAlone.kind === 'none' || rating.continuous.kind === 'none') throw new Error();
    expect(rating.motorAlone.point.throttle).toBeGreaterThanOrEqual(rating.continuous.point.throttle - 1e-3);
    const { temperatures } = rating.motorAlone.point;
    expect(temperatures.windingTemperature - ZERO_CELSIUS).toBeLessThanOrEqual(130.1);
  });

  it('bursts: the rest found keeps every limit of the settled cycle, a twentieth less does not', () => {
    const drive = holdDrive(system, 0.5);
    const peaks = new Float64Array(HEAT_LIMITS.length);
    const keeps = (on: number, rest: number): boolean => {
      drive.cold();
      return settleCycle(drive, 1, on, rest, peaks) && HEAT_LIMITS.every((id, k) => peaks[k] <= drive.bounds[id]);
    };
    const found = rating.bursts.leastRest.filter(({ rest }) => rest !== undefined && rest > 5);
    expect(found.length).toBeGreaterThan(2);
    for (const { on, rest } of found) expect([keeps(on, rest!), keeps(on, 0.95 * rest!)]).toEqual([true, false]);
  });
});

describe('bursts, driven', () => {
  const aboard = (name: Parameters<typeof demo>[0], candidate: string) => {
    const found = demo(name).candidates.find((each) => each.name === candidate);
    if (found === undefined) throw new Error(`${name} has no ${candidate}`);
    return realise(found.data);
  };
  it.each([
    ['launch', system],
    ['survey boat', aboard('survey-boat', 'Small')],
    ['mapper', aboard('hot-day-mapper', 'Cruiser')],
    ['car', aboard('grass-car', 'Short, 7.4 to 1')],
  ] as const)('the %s, driven burst after burst with the rest told, comes to the limit and no further', (_, driven) => {
    const { bursts } = rate(driven, { charge: 0.5, cycle: 600 }).rating;
    const drive = holdDrive(driven, 0.5);
    const peaks = new Float64Array(HEAT_LIMITS.length);
    // a rest of five seconds is the shortest asked for, and may leave room
    const searched = bursts.leastRest.filter(({ rest }) => rest !== undefined && rest > 5);
    expect(searched.length).toBeGreaterThan(0);
    for (const { on, rest } of searched) {
      // hull and wheels stand between bursts; a wing glides on at the speed that full throttle has in the settled cycle
      drive.cold();
      settleCycle(drive, 1, on, rest!, peaks);
      const restSpeed = driven.vehicle.carriedBy === 'wing' ? drive.state[drive.kernel.at.speed] : 0;
      const cycles = Math.max(20, Math.ceil(9000 / (on + rest!)));
      expect(Math.abs(roomDriven(driven, 1, on, rest!, cycles, restSpeed)), `${on} s, ${rest} s off`).toBeLessThan(2);
    }
  });
});

describe('a climb', () => {
  it('is rated at its own speed beside the level one, which flatters', () => {
    const { candidates } = demo('burst-glider');
    const glider = realise(candidates[0].data);
    const { rating: found } = rate(glider, { charge: 0.5, cycle: 600, hardest: { label: 'climb', vehicleSpeed: 12 } });
    expect(found.hardest!.fullThrottle.motorCurrent).toBeGreaterThan(1.2 * found.fullThrottle.motorCurrent);
    const run = simulate(
      { ...glider, battery: { ...glider.battery, capacity: 1e9 }, start: { ...glider.start, charge: 0.5 } },
      [{ duration: 600, hold: 'throttle', value: { from: 1, to: 1 }, vehicleSpeed: { from: 12, to: 12 } }],
      { method: 'dormand-prince', relative: 1e-5, record: false },
    );
    const soonest = Math.min(...Object.values(found.hardest!.fullThrottle.timeToLimit));
    const driven = Math.min(...HEAT_LIMITS.map((id) => run.passed.get(id) ?? 9e9));
    expect(Math.abs(soonest - driven)).toBeLessThan(0.02 * driven + 0.2);
  });
});
