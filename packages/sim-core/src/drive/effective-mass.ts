/** What the vehicle's acceleration has to move. @module */

import { turningMass } from '../parts/wheel.js';
import type { DriveSystem } from './drive-system.js';

/** Mass of vehicle, water carried along, and what wheels and rotors that turn with its speed add [kg]. */
export function effectiveMass({ vehicle, load, motor, gearbox, drives }: DriveSystem): number {
  const turning = load.kind === 'wheel' ? drives * turningMass(load.inertia, motor.rotorInertia, gearbox.ratio, load.radius) : 0;
  return vehicle.mass * (1 + vehicle.addedMass) + turning;
}
