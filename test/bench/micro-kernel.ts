/**
 * The reference case's steady point with every law written out on local numbers: what the kernel's generality is measured against. Cold motor,
 * no inductance, no limiter, motor driving; warm Newton to the same tolerance as the kernel's.
 */
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import { openCircuitVoltage } from '../../packages/sim-core/src/parts/battery/battery.js';
import { pathResistanceAt, switchingShare } from '../../packages/sim-core/src/parts/controller.js';
import { fluxRatio, windingResistance } from '../../packages/sim-core/src/parts/motor.js';

interface Coefficients {
  readonly thrust: readonly number[];
  readonly power: readonly number[];
}

/** Solves at (duty, vehicle speed [m/s]) and answers the shaft's speed [rad/s]; thrust, current and bus voltage are left in `out`. */
export function microKernel(system: DriveSystem, { thrust: [t0, t1, t2], power: [p0, p1, p2] }: Coefficients) {
  const { battery, motor, controller, load, gearbox, start } = system;
  if (load.kind !== 'propeller') throw new RangeError('the micro-kernel turns a propeller');
  const flux = fluxRatio(motor, start.motorTemperature);
  const kt = motor.torqueConstant * flux;
  const constantLoss = motor.hysteresisTorque * flux * flux + motor.frictionTorque;
  const lossPerSpeed = motor.eddyTorque * flux * flux;
  const resistance = windingResistance(motor, start.motorTemperature) + pathResistanceAt(controller, start.controllerTemperature);
  const emf = battery.cellsInSeries * openCircuitVoltage(battery.openCircuit, start.charge);
  const source = (battery.cellsInSeries * battery.cellResistance) / battery.cellsInParallel;
  const { idleCurrent } = controller;
  const switching = switchingShare(controller);
  const { diameter, density } = load;
  const turn = 2 * Math.PI * gearbox.ratio;
  const thrustScale = density * diameter ** 4;
  const torqueScale = (density * diameter ** 5) / (2 * Math.PI * gearbox.ratio * gearbox.efficiency);
  const out = { thrust: 0, current: 0, busVoltage: 0 };
  let speed = 500;
  return {
    out,
    solve(duty: number, vehicleSpeed: number): number {
      const share = duty + switching;
      const coupling = (source * share) / resistance;
      const a = 1 / (1 + coupling * duty);
      const start = emf - source * idleCurrent;
      const slope = (duty * coupling * a - 1) / resistance;
      for (let k = 0; k < 50; k++) {
        const n = speed / turn;
        const j = vehicleSpeed / (n * diameter);
        const cp = p0 + j * (p1 + j * p2);
        const torque = torqueScale * n * n * cp;
        const torqueSlope = (torqueScale * n * (2 * cp - j * (p1 + 2 * j * p2))) / turn;
        const bus = (start + coupling * kt * speed) * a;
        const current = (duty * bus - kt * speed) / resistance;
        const value = kt * current - constantLoss - lossPerSpeed * speed - torque;
        const step = -value / (kt * kt * slope - lossPerSpeed - torqueSlope);
        out.thrust = thrustScale * n * n * (t0 + j * (t1 + j * t2));
        out.current = current;
        out.busVoltage = bus;
        if (Math.abs(step) <= 1e-13 * speed + 1e-12) break;
        speed += step;
      }
      return speed;
    },
  };
}
