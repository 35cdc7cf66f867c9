/** Ratings of drives that are rated in no time: each is held against the limit that it names, found anew on the held drive itself. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { HEAT_LIMITS, type HeatLimitId } from '@shaftwork/sim-core/drive/heat-limits';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { lossTorque, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { continuousTorque, motorEquilibria, runawayTorque } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { equilibriumAt, firstLimit, runsAway } from '@shaftwork/sim-core/questions/rate/equilibrium';
import { type HeldDrive, holdDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { sweepThrottle } from '@shaftwork/sim-core/questions/rate/part-throttle';
import { type RateAsk, rate } from '@shaftwork/sim-core/questions/rate/rate';
import { continuousCurrent, ratedHeating } from '@shaftwork/sim-core/questions/rate/rated-current';
import { settleCycle } from '@shaftwork/sim-core/questions/rate/settled-cycle';
import type { Rating } from '@shaftwork/sim-core/results/rating-result';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, OUTRUNNER, type Section } from '../../provenance/drives.js';

const of = (more: Section = {}): DriveSystem => realise(dataOf(more));
/** The bench with a winding limit that full throttle passes. */
const limited = (winding = '60 °C'): DriveSystem => of({ limits: { winding } });
const CAR: Section = {
  propeller: 'none',
  wheel: { radius: '40 mm', rolling_resistance: 0.03 },
  gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
  vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
};
const rated = (system: DriveSystem, more: Partial<RateAsk> = {}) => rate(system, { charge: 0.5, cycle: 60, ...more }).rating;
/** Least room to any limit where a throttle settles [K]. */
const roomAt = (system: DriveSystem, throttle: number): number => {
  const drive = holdDrive(system, 0.5);
  drive.hold(throttle);
  return drive.settle() ? Math.min(...HEAT_LIMITS.map((id) => drive.bounds[id] - drive.temperature(id))) : Number.NEGATIVE_INFINITY;
};
const pointOf = (rating: Rating) => {
  if (rating.kind === 'none') throw new Error('no rating');
  return rating.point;
};

describe('for ever', () => {
  it('is the throttle that settles on the limit and no further', () => {
    const system = limited();
    const { continuous, charge } = rated(system);
    expect([continuous.kind, charge]).toEqual(['limited', 0.5]);
    const { throttle, temperatures } = pointOf(continuous);
    expect(continuous.kind === 'limited' && continuous.binding).toBe('windingTemperature');
    expect(temperatures.windingTemperature).toBeLessThanOrEqual(333.15);
    expect(temperatures.windingTemperature).toBeGreaterThan(333);
    expect(roomAt(system, throttle)).toBeGreaterThanOrEqual(0);
    expect(roomAt(system, throttle + 0.002)).toBeLessThan(0);
  });

  it('is full throttle where nothing limits, and none where the least throttle passes a limit', () => {
    expect(rated(of({ limits: { winding: '250 °C', magnets: '250 °C', controller: '250 °C', cells: '250 °C' } })).continuous).toMatchObject(
      {
        kind: 'full-throttle',
        point: { throttle: 1 },
      },
    );
    expect(rated(of({ limits: { controller: '15.2 °C' } })).continuous).toEqual({ kind: 'none', binding: 'controllerTemperature' });
  });

  it('of the motor alone does not ask controller and pack', () => {
    const { continuous, motorAlone } = rated(of({ limits: { winding: '60 °C', cells: '16 °C' } }));
    expect(continuous).toMatchObject({ kind: 'limited', binding: 'cellTemperature' });
    const alone = pointOf(motorAlone);
    expect(alone.throttle).toBeCloseTo(pointOf(rated(limited()).continuous).throttle, 3);
    expect(alone.throttle).toBeGreaterThan(pointOf(continuous).throttle + 0.05);
  });

  it('is told at the speed of the hardest step too, with what the screw takes there', () => {
    const aboard = of(boat({ motor: { ...INRUNNER, kv: '500 rpm/V' }, limits: { winding: '90 °C' } }));
    const drive = holdDrive(aboard, 0.5);
    drive.hold(1);
    drive.settle();
    const settled = drive.state[drive.kernel.at.speed];
    const current = drive.kernel.point.current;
    const slow = rated(aboard, { hardest: { label: 'pull', vehicleSpeed: 0.5 * settled } }).hardest;
    expect([slow?.label, slow?.vehicleSpeed]).toEqual(['pull', 0.5 * settled]);
    // the slower, the more the screw takes
    expect(slow?.fullThrottle.motorCurrent).toBeGreaterThan(current);
    expect([slow?.continuous.kind, slow?.motorAlone.kind]).toEqual(['limited', 'limited']);
  });

  it.each([1.04, 0.96])(
    'is told once where the hardest step is driven as fast as full throttle drives, but for a twentieth: %d',
    (share) => {
      const aboard = of(boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }));
      const drive = holdDrive(aboard, 0.5);
      drive.hold(1);
      drive.settle();
      expect(rated(aboard, { hardest: { label: 'pull', vehicleSpeed: share * drive.state[drive.kernel.at.speed] } })).not.toHaveProperty(
        'hardest',
      );
    },
  );

  it('is told once on a bench and on wheels', () => {
    expect(rated(limited(), { hardest: { label: 'pull', vehicleSpeed: 1 } })).not.toHaveProperty('hardest');
    expect(rated(of(CAR), { hardest: { label: 'pull', vehicleSpeed: 1 } })).not.toHaveProperty('hardest');
  });

  it('is asked at a charge that a pack has, in a cycle that takes some time', () => {
    const system = limited();
    for (const charge of [0, -0.1, 1.001, Number.NaN])
      expect(() => rate(system, { charge, cycle: 60 })).toThrow(`at most 100 %, not ${charge}.`);
    for (const cycle of [0, -1, Number.NaN])
      expect(() => rate(system, { charge: 1, cycle })).toThrow(`A cycle takes some time, not ${cycle} s.`);
  });
});

describe('short times', () => {
  it('are from what lasts for ever up to full throttle, each until the held drive passes its limit', () => {
    const system = limited();
    const { continuous, shortTime } = rated(system);
    const s1 = pointOf(continuous).throttle;
    const throttles = shortTime.fromCold.map(({ throttle }) => throttle);
    expect(throttles).toHaveLength(9);
    expect(throttles[8]).toBe(1);
    expect((throttles[0] - s1) / (1 - s1)).toBeCloseTo(0.015, 9);
    expect(shortTime.longest).toBe(7200);
    for (const each of shortTime.fromCold) {
      const drive = holdDrive(system, 0.5);
      drive.hold(each.throttle);
      drive.settleSpeed();
      const passed = firstLimit(drive, 7200);
      expect((each.kind === 'until' ? each.time : 0) / (passed?.time ?? Number.NaN)).toBeCloseTo(1, 2);
      expect(each.kind === 'until' && each.binding).toBe(passed?.limit);
      expect(each.motorCurrent).toBeGreaterThan(0);
      expect(each.shaftPower).toBeLessThan(each.inputPower);
    }
    // nothing is warm unless it is said
    shortTime.fromWarm.forEach((each, k) => {
      const cold = shortTime.fromCold[k];
      expect([each.throttle, each.kind]).toEqual([cold.throttle, cold.kind]);
      expect(each.kind === 'until' && cold.kind === 'until' && each.time / cold.time).toBeCloseTo(1, 2);
    });
  });

  it('from warm are shorter, and told with what warm is', () => {
    const warm = { winding: 320, stator: 315, can: 310, magnets: 309, controller: 305, cells: 300 };
    const { shortTime } = rated(limited(), { warm });
    expect(shortTime.warm).toEqual({ windingTemperature: 320, magnetTemperature: 309, controllerTemperature: 305, cellTemperature: 300 });
    shortTime.fromWarm.forEach((each, k) => {
      const cold = shortTime.fromCold[k];
      expect(each.kind === 'until' && cold.kind === 'until' && each.time < 0.9 * cold.time).toBe(true);
    });
  });

  it('are one, for ever, where full throttle lasts', () => {
    const { shortTime } = rated(of({ limits: { winding: '250 °C', magnets: '250 °C', controller: '250 °C', cells: '250 °C' } }));
    expect(shortTime.fromCold).toEqual([expect.objectContaining({ throttle: 1, kind: 'for-ever' })]);
    expect(shortTime.fromCold[0]).not.toHaveProperty('time');
  });
});

describe('in turns', () => {
  it('each duty’s throttle just keeps the limit over its settled cycle', () => {
    const system = limited();
    const { intermittent, continuous } = rated(system, { cycle: 100 });
    expect(intermittent.cycle).toBe(100);
    expect(intermittent.duties.map(({ duty }) => duty)).toEqual([0.15, 0.25, 0.4, 0.6]);
    const peaks = new Float64Array(HEAT_LIMITS.length);
    const room = (throttle: number, duty: number): number => {
      const drive = holdDrive(system, 0.5);
      return settleCycle(drive, throttle, duty * 100, (1 - duty) * 100, peaks)
        ? Math.min(...HEAT_LIMITS.map((id, k) => drive.bounds[id] - peaks[k]))
        : Number.NEGATIVE_INFINITY;
    };
    for (const { duty, rating } of intermittent.duties) {
      const { throttle, temperatures } = pointOf(rating);
      expect(throttle).toBeGreaterThan(pointOf(continuous).throttle);
      if (rating.kind === 'full-throttle') expect(room(1, duty)).toBeGreaterThanOrEqual(0);
      else {
        expect(room(throttle, duty)).toBeGreaterThan(-0.2);
        expect(room(Math.min(1, throttle + 0.01), duty)).toBeLessThan(0.2);
        expect(temperatures.windingTemperature).toBeGreaterThan(332);
      }
    }
    expect(intermittent.duties.some(({ rating }) => rating.kind === 'limited')).toBe(true);
  });
  it('has none where the least throttle passes a limit all the same', () => {
    const { intermittent } = rated(of({ limits: { controller: '15.01 °C' } }));
    expect(intermittent.duties[3].rating).toEqual({ kind: 'none', binding: 'controllerTemperature' });
  });
});

describe('over speed', () => {
  it('torque is asked for from rest to 1.15 times the speed of full throttle', () => {
    const { continuousTorque: found, runaway } = rated(limited());
    expect(found.shaftSpeed).toHaveLength(13);
    expect(found.shaftSpeed[0]).toBe(0);
    expect(found.shaftSpeed[12] / runaway.shaftSpeed).toBeCloseTo(1.15, 9);
    expect(found.vehicleSpeed).toBe(0);
    const { torque, current, binding } = continuousTorque(limited(), 0, found.shaftSpeed);
    expect(found).toMatchObject({ torque, current, binding });
  });

  it('a motor that iron alone takes past its limit has no torque there', () => {
    const system = of({ limits: { winding: '20 °C' }, ambient: { air: '15 °C' } });
    const { torque, current, binding } = continuousTorque(system, 0, [0, 3000]);
    expect(current[0]).toBeGreaterThan(0);
    expect([torque[1], current[1], binding[1]]).toEqual([0, 0, 'windingTemperature']);
  });

  it('the nearer of winding and magnets binds', () => {
    const system = of({ limits: { winding: '200 °C', magnets: '40 °C' } });
    const { current, binding } = continuousTorque(system, 0, [300]);
    expect(binding).toEqual(['magnetTemperature']);
    const found = motorEquilibria(system, 0).at(300, { current: current[0] });
    expect(Math.abs((found?.temperature[3] ?? 0) - 313.15)).toBeLessThan(0.02);
  });

  it('a torque asked for is met by the current that gives it, loss and warm magnets counted', () => {
    const system = of();
    const found = motorEquilibria(system, 0).at(500, { torque: 0.03 });
    const flux = 1 + system.motor.fluxCoefficient * ((found?.temperature[3] ?? 0) - 293.15);
    const asked = 0.03 + lossTorque(system.motor, 500, flux);
    expect(found?.current).toBeCloseTo(asked / (system.motor.torqueConstant * flux), 9);
    const { torque } = runawayTorque(system, 0, 500);
    expect(motorEquilibria(system, 0).at(500, { torque: 0.999 * torque }, true)).toBeDefined();
    expect(motorEquilibria(system, 0).at(500, { torque: 1.001 * torque }, true)).toBeUndefined();
  });
});

describe('a held drive', () => {
  const bodies = ({ state, kernel }: HeldDrive) => BODIES.map((body) => state[kernel.at[body]]);
  it('settles where no temperature and no speed changes any more', () => {
    for (const more of [{}, boat(), CAR]) {
      const drive = holdDrive(of(more), 0.7);
      drive.hold(0.5);
      expect(drive.settle()).toBe(true);
      const rates = new Float64Array(drive.kernel.dimension);
      drive.kernel.derivative(0, drive.state, rates);
      for (const place of drive.live) expect(Math.abs(rates[place])).toBeLessThan(1e-5);
      expect(drive.state[drive.kernel.at.charge]).toBe(0.7);
    }
  });

  it('comes there in time, from cold', () => {
    const drive = holdDrive(of(), 0.5);
    drive.hold(0.5);
    drive.settle();
    const there = bodies(drive);
    drive.cold();
    expect(bodies(drive)).not.toEqual(there);
    drive.hold(0.5);
    drive.advance(1e6);
    bodies(drive).forEach((each, k) => {
      expect(Math.abs(each - there[k])).toBeLessThan(0.05);
    });
  });

  it('moves as fast as it no longer accelerates, keeps a speed that is set, and stands with the rotor held', () => {
    const drive = holdDrive(of(boat()), 0.5);
    drive.hold(0.6);
    expect(drive.settleSpeed()).toBe(true);
    const { speed } = drive.kernel.at;
    const free = drive.state[speed];
    expect(free).toBeGreaterThan(1);
    expect(Math.abs(drive.kernel.point.acceleration)).toBeLessThan(1e-5);
    // asked again, from where it is and at another throttle
    drive.hold(0.9);
    drive.settleSpeed();
    expect(drive.state[speed]).toBeGreaterThan(free);
    drive.hold(0.6);
    drive.settleSpeed();
    expect(drive.state[speed]).toBeCloseTo(free, 4);
    const kept = holdDrive(of(boat()), 0.5, 1.25);
    kept.hold(0.6);
    expect(kept.settle()).toBe(true);
    expect(kept.state[speed]).toBe(1.25);
    drive.holdStill();
    drive.settleSpeed();
    expect(drive.state[speed]).toBe(0);
    expect(drive.kernel.point.speed).toBe(0);
    expect(drive.kernel.point.current).toBeGreaterThan(50);
  });

  it('that is off glides on at the speed it has', () => {
    const drive = holdDrive(of(boat()), 0.5);
    drive.state[drive.kernel.at.speed] = 2;
    drive.hold(0);
    drive.advance(100);
    expect(drive.state[drive.kernel.at.speed]).toBe(2);
    drive.cold();
    expect(drive.state[drive.kernel.at.speed]).toBe(2);
  });

  it('does not settle where the copper feeds itself', () => {
    const hot = of({ motor: { ...OUTRUNNER, kv: '2500 rpm/V', thermal: { winding_to_stator: '0.05 W/K' } } });
    const drive = holdDrive(hot, 0.9);
    drive.hold(1);
    expect(drive.settle()).toBe(false);
    expect(equilibriumAt(hot, 1, 0.9)).toBeUndefined();
    const away = runsAway(hot, 0.9);
    expect(away?.current).toBeGreaterThan(away?.bound ?? Number.POSITIVE_INFINITY);
    expect(runsAway(of(), 0.9)).toBeUndefined();
    const { settled } = { settled: rated(hot).fullThrottle };
    expect(settled.kind).toBe('runaway');
    expect(settled.motorCurrent).toBeCloseTo(away?.current ?? 0, -1);
  });

  it('has bounds and temperatures by limit', () => {
    const drive = holdDrive(of({ limits: { winding: '91 °C', cells: '51 °C' } }), 0.5);
    expect([drive.bounds.windingTemperature, drive.bounds.cellTemperature]).toEqual([364.15, 324.15]);
    const at: Record<HeatLimitId, (typeof BODIES)[number]> = {
      windingTemperature: 'winding',
      magnetTemperature: 'magnets',
      controllerTemperature: 'controller',
      cellTemperature: 'cells',
    };
    for (const id of HEAT_LIMITS) {
      drive.state[drive.kernel.at[at[id]]] = 333;
      expect(drive.temperature(id)).toBe(333);
    }
  });
});

it('a sweep loses more in the controller where it chops', () => {
  const lossy = of({ controller: { voltage_loss: '4 W' } });
  const chopping = { ...lossy, controller: { ...lossy.controller, rippleInMotor: 0 } };
  const { partThrottle, swept } = sweepThrottle(holdDrive(chopping, 0.5));
  expect(partThrottle.points).toHaveLength(19);
  expect(swept.at(-1)?.throttle).toBe(1);
  const [half, full] = [partThrottle.points[8], partThrottle.points[18]];
  expect(half.throttle).toBe(0.5);
  expect(half.controllerLoss - full.controllerLoss).toBeGreaterThan(0);
});

describe('the current of a sheet', () => {
  /** From winding to air through stator, can and mount [W/K]. */
  const G = 1 / (1 / 20 + 1 / 0.9);
  /** A row of conductances to air at 20 °C, copper its only loss. */
  const oneBody = (): DriveSystem => {
    const base = of({ limits: { winding: '100 °C' } });
    return {
      ...base,
      surroundings: { ...base.surroundings, motorAirTemperature: 293.15 },
      start: { ...base.start, motorTemperature: 293.15 },
      motor: { ...base.motor, fluxCoefficient: 0, hysteresisTorque: 0, eddyTorque: 0, frictionTorque: 0, windageTorque: 0 },
      heat: {
        ...base.heat,
        windingToStator: 20,
        statorToCan: 20,
        statorToMagnets: 20,
        magnetsToCan: 20,
        sideArea: 0,
        endArea: 0,
        toMount: 0.9,
        mount: undefined,
        jacket: undefined,
        throughFlow: 0,
      },
    };
  };
  const still = { vehicleSpeed: 0, thrust: 0 };

  it('that holds the winding at its limit is √(G·θ/R)', () => {
    const system = oneBody();
    const exact = Math.sqrt((G * 80) / windingResistance(system.motor, 373.15));
    expect((continuousCurrent(system, 300, still) ?? 0) / exact).toBeCloseTo(1, 2);
  });

  it('settles at G·θ = i²·R(θ), and passes its limit when one body does', () => {
    const system = oneBody();
    const { resistance, resistanceCoefficient: alpha } = system.motor;
    const theta = (i: number): number => (i * i * resistance) / (G - alpha * i * i * resistance);
    const cool = ratedHeating(system, 15, 12, still);
    expect(cool.settles ?? 0).toBeCloseTo(293.15 + theta(15), 0);
    expect(cool).not.toHaveProperty('limitAfter');
    const warm = ratedHeating(system, 27, 12, still);
    expect(293.15 + theta(27)).toBeGreaterThan(373.15);
    // C·dθ/dt = i²R₂₀ + (α·i²R₂₀ − G)·θ
    const capacity = system.heat.capacity.winding + system.heat.capacity.stator + system.heat.capacity.can + system.heat.capacity.magnets;
    const rate = (G - alpha * 27 ** 2 * resistance) / capacity;
    // as one body, but for what the winding is ahead of the rest
    expect(Math.abs((warm.limitAfter ?? 0) / (-Math.log(1 - 80 / theta(27)) / rate) - 1)).toBeLessThan(0.1);
  });

  it('beyond any insulation settles nowhere, and one that the voltage does not drive is refused', () => {
    const found = ratedHeating(oneBody(), 60, 12, still);
    expect(found).not.toHaveProperty('settles');
    expect(found.limitAfter).toBeGreaterThan(0);
    expect(() => ratedHeating(oneBody(), 200, 12, still)).toThrow(/12 V do not drive 200 A/);
  });

  it('is none where iron alone is too much, and any current warms as its square', () => {
    expect(continuousCurrent(of({ limits: { winding: '20 °C' } }), 4000, still)).toBeUndefined();
    expect(continuousCurrent(oneBody(), 300, still)).toBeGreaterThan(5);
  });

  it('is cooled by water that the vehicle’s speed brings', () => {
    const scooped = of(boat({ cooling: { water_coil: { bore: '3 mm', length: '60 cm' } }, limits: { winding: '100 °C' } }));
    const [slow, fast] = [1, 6].map((vehicleSpeed) => ({ vehicleSpeed, thrust: 0 }));
    expect(continuousCurrent(scooped, 500, fast)).toBeGreaterThan(1.03 * (continuousCurrent(scooped, 500, slow) ?? Number.NaN));
    expect(ratedHeating(scooped, 10, 8, fast).settles).toBeLessThan((ratedHeating(scooped, 10, 8, slow).settles ?? 0) - 0.5);
  });

  it('is cooled by the vehicle’s speed and the slipstream', () => {
    const flown = of({ cooling: { air: { share_of_vehicle_speed: '60 %' } }, limits: { winding: '100 °C' } });
    const at = (vehicleSpeed: number): number => continuousCurrent(flown, 500, { vehicleSpeed, thrust: 0 }) ?? 0;
    expect(at(15)).toBeGreaterThan(1.03 * at(0));
  });
});
