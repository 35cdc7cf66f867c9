/**
 * Given heat data win, for both layouts: steady temperatures against the closed form of resistances in series, and whole profiles against a general-purpose
 * Runge–Kutta integrator from the registry (ode-rk4) over a network written apart.
 */
import { createKernel, type Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { motorEquilibria } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import rk4 from 'ode-rk4';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';
import { canLoss, mountLoss } from '../twin/plain-boat.js';

const scenario = (layout: string, thermal: string, cooling: string, profile = '[{ for: 1 min, throttle: 50 % }]'): PreparedScenario => {
  const text = `title: Given heat
ambient: { air: 21 °C }
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5 Ah, cell_resistance: 2.5 mohm, mass: 480 g }
propeller: { kind: blade-element, family: thin, diameter: 11 in, pitch: 5.5 in, blades: 2 }
cooling: ${cooling}
profile: ${profile}
candidates:
  - name: Given
    motor: { layout: ${layout}, kv: 800 rpm/V, resistance: 45 mohm, no_load: [{ current: 0.9 A, voltage: 12 V }], poles: 14, mass: 140 g, can: { diameter: 38 mm, length: 36 mm }, thermal: ${thermal} }
`;
  const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

describe('a current through a motor that stands, heat data given', () => {
  const shut = '{ mount: { conductance: 0 W/K }, air: { openness: 0 % } }';
  it.each([
    [
      'outrunner',
      'three conductances',
      '{ winding_to_stator: 0.9 W/K, stator_to_can: 0.4 W/K, can_to_air: 0.25 W/K }',
      shut,
      1 / 0.9 + 1 / 0.4 + 1 / 0.25,
    ],
    [
      'outrunner',
      'air through it',
      '{ winding_to_stator: 0.9 W/K, stator_to_air: { conductance: 0.3 W/K }, stator_to_can: 0.4 W/K, can_to_air: 0.25 W/K }',
      shut,
      1 / 0.9 + 1 / (0.3 + 1 / (1 / 0.4 + 1 / 0.25)),
    ],
    ['outrunner', 'a printed pair', '{ winding_to_housing: 3.2 K/W, housing_to_ambient: 1.6 K/W }', '{}', 3.2 + 1.6],
    ['inrunner', 'a printed pair', '{ winding_to_housing: 3.2 K/W, housing_to_ambient: 6.1 K/W }', '{}', 3.2 + 6.1],
  ])('%s, %s', (layout, _, thermal, cooling, resistance) => {
    const system = realise(scenario(layout, thermal, cooling).candidates[0].data);
    const { motor } = system;
    const current = 4;
    const found = motorEquilibria(system, 0).at(0, { current }, true)!;
    // ΔT = P·ΣR with P = i²·R₂₀·(1 + α·(T − 20 °C)), solved for T
    const heat = current ** 2 * motor.resistance * resistance;
    const air = 294.15;
    const expected = (air + heat * (1 - 293.15 * motor.resistanceCoefficient)) / (1 - heat * motor.resistanceCoefficient);
    expect(Math.abs(found.temperature[0] - expected)).toBeLessThan(1e-6 * (expected - air));
  });

  it('given air through an outrunner grows with the speed of its bell, from the speed at which it holds', () => {
    const system = realise(
      scenario('outrunner', '{ winding_to_stator: 0.9 W/K, stator_to_air: { conductance: 0.3 W/K, at_speed: 6000 rpm } }', '{}')
        .candidates[0].data,
    );
    const kernel = createKernel(system);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.stator] += 10;
    const given = (rpm: number): number => {
      const speed = (rpm * Math.PI) / 30;
      kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: speed, to: speed } }, 0, false);
      kernel.solve(0, y);
      const still = { ...system.heat, slipstreamShare: 0 };
      kernel.load({ ...system, heat: still });
      kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: speed, to: speed } }, 0, false);
      kernel.solve(0, y);
      return kernel.heatOutlets(y).throughFlow;
    };
    expect(given(6000)).toBeCloseTo(3, 9);
    expect(given(3000)).toBeCloseTo(1.5, 9);
  });

  it('the bell’s given capacity holds the magnets', () => {
    const { capacity } = realise(scenario('outrunner', '{ can_capacity: 40 J/K }', '{}').candidates[0].data).heat;
    expect(capacity.can + capacity.magnets).toBeCloseTo(40, 12);
  });
});

/** Rates of the six bodies [K/s] from what each loses [W], the network typed anew; indices as in the kernel's state. */
type Network = (y: Float64Array, loss: readonly number[], kernel: Kernel) => number[];

function follow(prepared: PreparedScenario, network: Network, seconds: number) {
  const [{ data }] = prepared.candidates;
  const system = realise(data);
  const profile = prepared.scenario.profile.filter(
    (_, k, all) => all.slice(0, k).reduce((sum, { duration }) => sum + duration, 0) < seconds,
  );
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const rate = new Float64Array(kernel.dimension);
  let time = 0;
  for (const step of profile) {
    kernel.begin(step, time, false);
    const held = kernel.heldSpeed(time);
    if (!Number.isNaN(held)) y[kernel.at.speed] = held;
    const buffer = new Float64Array(kernel.dimension);
    const solver = rk4(
      [...y],
      (dy: number[], now: number[], t: number) => {
        buffer.set(now);
        kernel.derivative(t, buffer, rate);
        const power = kernel.powers(buffer);
        const friction = system.motor.frictionTorque * kernel.point.speed;
        // ripple heats the stator's iron; the rotor's share of the loss is that of its turning alone
        const ripple = system.controller.rippleInMotor * kernel.point.rippleLoss;
        const iron = power.ironLoss - ripple;
        const inMagnets = iron * system.motor.magnetLossShare;
        const outrunner = system.heat.layout === 'outrunner';
        const loss = [
          power.copperLoss,
          iron - inMagnets + ripple + (outrunner ? friction : 0),
          outrunner ? 0 : friction,
          inMagnets,
          power.controllerIdle + power.controllerConduction + power.controllerSwitching,
          power.batteryLoss * system.drives,
        ];
        const bodies = network(buffer, loss, kernel);
        for (let k = 0; k < dy.length; k++) dy[k] = k < 6 ? bodies[k] : rate[k];
      },
      time,
      0.05,
    );
    solver.steps(Math.round(step.duration / 0.05));
    y.set(solver.y);
    time += step.duration;
  }
  const { state } = simulate(system, profile, { relative: 1e-9 });
  for (let k = 0; k < 6; k++) {
    expect(state[k]).toBeGreaterThan(290);
    expect(Math.abs(state[k] - y[k])).toBeLessThan(1e-3);
  }
  return state;
}

describe('whole profiles by ode-rk4 over a network written apart: 1e-3 K', () => {
  it('an inrunner with jacket, flange and plate behind it', () => {
    const prepared = demo('survey-boat');
    const system = realise(prepared.candidates[0].data);
    const { heat, surroundings, battery } = system;
    const c = heat.capacity;
    expect(battery.cellsInSeries).toBeGreaterThan(1);
    follow(
      prepared,
      (y, loss) => {
        const [tw, ts, tc, tm, tk, tb] = y;
        const { motorAirTemperature: air, airPressure, waterTemperature, compartmentTemperature } = surroundings;
        // a closed compartment: still air, whose convection goes with the square root of its density
        const bay = (convection: number): number => 1 - convection + convection * Math.sqrt(airPressure / 101325);
        const jacket = heat.jacket!;
        const v = y[y.length - 1];
        const wet = jacket.conductance * (jacket.restShare + (1 - jacket.restShare) * (v / jacket.speed) ** 0.6) * (tc - waterTemperature);
        const ws = heat.windingToStator * (tw - ts);
        const sc = heat.statorToCan * (ts - tc);
        const sm = heat.statorToMagnets * (ts - tm);
        const mc = heat.magnetsToCan * (tm - tc);
        return [
          (loss[0] - ws) / c.winding,
          (loss[1] + ws - sc - sm) / c.stator,
          (loss[2] + sc + mc - wet - canLoss(heat, tc, air, airPressure) - mountLoss(heat, tc, air, airPressure)) / c.can,
          (loss[3] + sm - mc) / c.magnets,
          (loss[4] - heat.controllerToAir * bay(heat.controllerConvection) * (tk - compartmentTemperature)) / c.controller,
          (loss[5] - heat.cellsToAir * bay(heat.cellsConvection) * (tb - compartmentTemperature)) / c.cells,
        ];
      },
      200,
    );
  });

  it('an outrunner whose ways were given, on a plate in its own slipstream', () => {
    const prepared = scenario(
      'outrunner',
      '{ winding_to_stator: 1.1 W/K, stator_to_can: 0.3 W/K, can_to_air: 0.7 W/K, stator_to_air: { conductance: 0.6 W/K, at_speed: 8000 rpm }, winding_capacity: 12 J/K, stator_capacity: 20 J/K, can_capacity: 36 J/K }',
      '{ mount: { plate: 30 cm2 }, air: { share_of_slipstream: 30 % } }',
      '[{ for: 40 s, throttle: 80 % }, { for: 60 s, throttle: 30 % }, { for: 20 s, throttle: 100 % }, { for: 60 s, throttle: 0 % }]',
    );
    const system = realise(prepared.candidates[0].data);
    const { heat, surroundings, load } = system;
    const c = heat.capacity;
    // given data are in the system as they were written
    expect([heat.windingToStator, heat.statorToCan, heat.canToAir]).toEqual([1.1, 0.3, 0.7]);
    if (load.kind !== 'propeller') throw new Error('it turns a propeller');
    const state = follow(
      prepared,
      (y, loss, { point }) => {
        const [tw, ts, tc, tm, tk, tb] = y;
        const { motorAirTemperature: air, airPressure, compartmentTemperature } = surroundings;
        // a closed compartment: still air, whose convection goes with the square root of its density
        const bay = (convection: number): number => 1 - convection + convection * Math.sqrt(airPressure / 101325);
        // what the fully drawn-in slipstream of a propeller at rest gains: twice √(thrust/(2ρA))
        const stream = point.thrust > 0 ? 0.3 * 2 * Math.sqrt(point.thrust / (2 * load.density * 0.25 * Math.PI * load.diameter ** 2)) : 0;
        const film = (ts + air) / 2;
        const mu = (1.458e-6 * film ** 1.5) / (film + 110.4);
        const k = (2.648151e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
        const cp = 1034.09 - 0.284887 * film + 7.816818e-4 * film ** 2 - 4.970786e-7 * film ** 3 + 1.077024e-10 * film ** 4;
        const nu = (mu * 287.05287 * film) / airPressure;
        const pr = (mu * cp) / k;
        const edge = 0.003 ** 0.5;
        const ra = (9.80665 * Math.abs(ts - air) * edge ** 3 * pr) / (film * nu * nu);
        const still = (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
        const blown = 0.664 * ((stream * edge) / nu) ** 0.5 * pr ** (1 / 3);
        const h = ((still ** 3 + blown ** 3) ** (1 / 3) * k) / edge + 0.8 * 5.670374419e-8 * (ts + air) * (ts ** 2 + air ** 2);
        const mount = (ts - air) / (1 / heat.toMount + 1 / (h * 0.006));
        const rim = (8000 * Math.PI * 0.038) / 60;
        const through = 0.6 * ((point.speed * 0.019 + stream) / rim) * (ts - air);
        const ws = 1.1 * (tw - ts);
        const sc = 0.3 * (ts - tc);
        const mc = heat.magnetsToCan * (tm - tc);
        return [
          (loss[0] - ws) / 12,
          (loss[1] + ws - sc - mount - through) / 20,
          (loss[2] + sc + mc - 0.7 * (tc - air)) / c.can,
          (loss[3] - mc) / (36 - c.can),
          (loss[4] - heat.controllerToAir * bay(heat.controllerConvection) * (tk - compartmentTemperature)) / c.controller,
          (loss[5] - heat.cellsToAir * bay(heat.cellsConvection) * (tb - compartmentTemperature)) / c.cells,
        ];
      },
      180,
    );
    expect(state[0]).toBeGreaterThan(300);
  });
});
