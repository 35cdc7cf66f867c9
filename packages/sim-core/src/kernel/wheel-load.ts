/** What a wheel ties together: the vehicle's speed and the shaft's, a current and the force at the ground. @module */

import { isRotorHeld } from '../drive/profile.js';
import { torqueBeforeGear } from '../parts/gearbox.js';
import { lossTorque } from '../parts/motor.js';
import type { KernelMemory } from './kernel-memory.js';

/** Motor shaft speed [rad/s] that a wheel has at the vehicle's speed, which a trial state may take a little below rest; NaN for a propeller. */
export const wheelShaft = ({ system, vehicleSpeed }: KernelMemory): number =>
  system.load.kind === 'wheel' ? (Math.max(0, vehicleSpeed) / system.load.radius) * system.gearbox.ratio : Number.NaN;

/** Force at the wheels that the present current gives. */
export function wheelForce(memory: KernelMemory): void {
  const { system, point, flux, gearEfficiency } = memory;
  const { load, gearbox, motor } = system;
  if (load.kind !== 'wheel') return;
  const shaft = point.speed;
  const given = point.torqueConstant * point.current;
  const loss = lossTorque(motor, shaft, flux);
  // a motor at rest must overcome its own friction before it pushes; what holds a rotor fast feels all of it
  const rests = shaft === 0 && !isRotorHeld(memory.step);
  const torque = rests ? Math.sign(given) * Math.max(0, Math.abs(given) - loss) : given - (shaft > 0 ? loss : 0);
  point.loadTorque = torque;
  point.driverTorque = torque >= 0 ? torque * gearbox.ratio * gearEfficiency : (torque * gearbox.ratio) / gearEfficiency;
  point.driverSpeed = shaft / gearbox.ratio;
  point.force = point.thrust = point.driverTorque / load.radius;
}

/** The torque that a wheel must take for `force` [N] at the ground. */
export function wheelLoad({ system, point, gearEfficiency }: KernelMemory, force: number, shaft: number): void {
  const { load, gearbox } = system;
  if (load.kind !== 'wheel') return;
  point.force = point.thrust = force;
  point.driverTorque = force * load.radius;
  point.driverSpeed = shaft / gearbox.ratio;
  point.loadTorque = torqueBeforeGear(point.driverTorque, gearbox.ratio, gearEfficiency);
}

/** Share of grip that `force` [N] leaves, into the point; it stays 1 where no ground limits. */
export function noteGrip({ point, gripForward, gripBackward }: KernelMemory, force: number): void {
  if (gripForward < Number.POSITIVE_INFINITY) point.gripLeft = (2 * (gripForward - force)) / (gripForward - gripBackward);
}
