/** Whole profiles by a general-purpose Runge–Kutta integrator from the registry (ode-rk4): the program's own right-hand side, and networks written apart. @module */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { createKernel, type Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import rk4 from 'ode-rk4';
import { demo } from '../demo.js';
import { canLoss, mountLoss } from '../twin/plain-heat.js';
import { scenario } from './given-heat.js';
import type { Point } from './outside/check.js';

/** Rates of the six bodies [K/s] from what each loses [W], the network typed anew; indices as in the kernel's state. */
type Network = (y: Float64Array, loss: readonly number[], kernel: Kernel) => number[];

/** What changes the program's own rates, in place; the state stands in `y`. */
type Instead = (rate: Float64Array, y: Float64Array, kernel: Kernel) => void;

/** State at the end of a profile by fixed steps [s] of Runge and Kutta, beside the program's own. */
function bothWays(system: DriveSystem, profile: readonly ProfileStep[], step: number, instead: Instead = () => {}) {
  const kernel = createKernel(system);
  const theirs = new Float64Array(kernel.dimension);
  const rate = new Float64Array(kernel.dimension);
  const buffer = new Float64Array(kernel.dimension);
  kernel.initial(theirs);
  let time = 0;
  for (const each of profile) {
    kernel.begin(each, time, false);
    const held = kernel.heldSpeed(time);
    if (!Number.isNaN(held)) theirs[kernel.at.speed] = held;
    const solver = rk4(
      [...theirs],
      (dy: number[], now: number[], t: number) => {
        buffer.set(now);
        kernel.derivative(t, buffer, rate);
        instead(rate, buffer, kernel);
        for (let k = 0; k < dy.length; k++) dy[k] = rate[k];
      },
      time,
      step,
    );
    solver.steps(Math.round(each.duration / step));
    theirs.set(solver.y);
    time += each.duration;
  }
  const ours = simulate(system, profile, { relative: 1e-9 }).state;
  return { kernel, theirs, ours, bodies: BODIES.map((body, k): Point => ({ at: body, theirs: theirs[k], ours: ours[k] })) };
}

function follow(prepared: PreparedScenario, network: Network, seconds: number): readonly Point[] {
  const [{ data }] = prepared.candidates;
  const system = realise(data);
  const profile = prepared.scenario.profile.filter(
    (_, k, all) => all.slice(0, k).reduce((sum, { duration }) => sum + duration, 0) < seconds,
  );
  const { ours, bodies } = bothWays(system, profile, 0.05, (rate, y, kernel) => {
    const power = kernel.powers(y);
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
    rate.set(network(y, loss, kernel));
  });
  if (ours.slice(0, 6).some((temperature) => !(temperature > 290))) throw new Error(`a body is at ${ours.join(', ')} K`);
  return bodies;
}

/** An inrunner with jacket, flange and plate behind it: the survey boat for 200 s [K]. */
export function boatByNetwork(): readonly Point[] {
  const prepared = demo('survey-boat');
  const system = realise(prepared.candidates[0].data);
  const { heat, surroundings } = system;
  const c = heat.capacity;
  return follow(
    prepared,
    (y, loss) => {
      const [tw, ts, tc, tm, tk, tb] = y;
      const { motorAirTemperature: air, airPressure, waterTemperature, compartmentTemperature } = surroundings;
      // a closed compartment: still air, whose convection goes with the square root of its density
      const bay = (convection: number): number => 1 - convection + convection * Math.sqrt(airPressure / 101325);
      const { jacket } = heat;
      if (jacket === undefined) throw new Error('it has a jacket');
      const v = y[y.length - 1];
      const wet = jacket.conductance * (jacket.restShare + (1 - jacket.restShare) * (v / jacket.speed) ** 0.6) * (tc - waterTemperature);
      const ws = heat.windingToStator * (tw - ts);
      const sc = heat.statorToCan * (ts - tc);
      const sm = heat.statorToMagnets * (ts - tm);
      const mc = heat.magnetsToCan * (tm - tc);
      return [
        (loss[0] - ws) / c.winding,
        (loss[1] + ws - sc - sm) / c.stator,
        (loss[2] + sc + mc - wet - canLoss(heat, tc, air, airPressure, 0, 0) - mountLoss(heat, tc, air, airPressure, 0)) / c.can,
        (loss[3] + sm - mc) / c.magnets,
        (loss[4] - heat.controllerToAir * bay(heat.controllerConvection) * (tk - compartmentTemperature)) / c.controller,
        (loss[5] - heat.cellsToAir * bay(heat.cellsConvection) * (tb - compartmentTemperature)) / c.cells,
      ];
    },
    200,
  );
}

/** An outrunner whose ways were given, on a plate in its own slipstream. */
export const givenOutrunner = (): PreparedScenario =>
  scenario(
    'outrunner',
    '{ winding_to_stator: 1.1 W/K, stator_to_can: 0.3 W/K, can_to_air: 0.7 W/K, stator_to_air: { conductance: 0.6 W/K, at_speed: 8000 rpm }, winding_capacity: 12 J/K, stator_capacity: 20 J/K, can_capacity: 36 J/K }',
    '{ mount: { plate: 30 cm2 }, air: { share_of_slipstream: 30 % } }',
    '[{ for: 40 s, throttle: 80 % }, { for: 60 s, throttle: 30 % }, { for: 20 s, throttle: 100 % }, { for: 60 s, throttle: 0 % }]',
  );

/** It for 180 s [K]. */
export function outrunnerByNetwork(): readonly Point[] {
  const prepared = givenOutrunner();
  const system = realise(prepared.candidates[0].data);
  const { heat, surroundings, load } = system;
  const c = heat.capacity;
  if (load.kind !== 'propeller') throw new Error('it turns a propeller');
  return follow(
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
}

/** The survey boat's own right-hand side over two minutes and a sprint, in steps of 10 ms: bodies [K], then charge [1]. */
export function boatByRungeKutta(): { readonly bodies: readonly Point[]; readonly charge: readonly Point[] } {
  const { candidates, scenario: boat } = demo('survey-boat');
  const { kernel, theirs, ours, bodies } = bothWays(realise(candidates[0].data), boat.profile.slice(0, 3), 0.01);
  const { charge } = kernel.at;
  return { bodies, charge: [{ at: '', theirs: theirs[charge], ours: ours[charge] }] };
}
