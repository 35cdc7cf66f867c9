/**
 * Where a motor's losses turn into heat: copper in the winding, bearing friction in the part that holds them, the ripple's share in the iron of the
 * stator, and the iron loss in stator and magnets.
 *
 *   (1) winding i²·R     (2) stator (1 − m)·P_iron + P_ripple [+ P_friction of an outrunner]     (3) can [P_friction of an inrunner]     (4) magnets m·P_iron
 *
 * Windage is no heat of any of them: it is stirred into the air. *Sign* heat is positive. *Source* parts/motor.ts; bearings of an outrunner stand in the
 * tube of its stator, those of an inrunner in its housing.
 *
 * @module
 */

import { ironTorque, type Motor } from '../parts/motor.js';

/** (1)–(4) [W] for `copper` loss and the motor's part of the `ripple` [W], at `speed` [rad/s] and flux ratio [1], into the first four of `loss`. Allocates nothing. */
export function motorHeat(
  motor: Motor,
  layout: Motor['layout'],
  speed: number,
  flux: number,
  copper: number,
  ripple: number,
  loss: Float64Array,
): void {
  const iron = ironTorque(motor, speed, flux) * speed;
  const friction = motor.frictionTorque * speed;
  const outrunner = layout === 'outrunner';
  loss[0] = copper;
  loss[1] = iron * (1 - motor.magnetLossShare) + (outrunner ? friction : 0) + ripple;
  loss[2] = outrunner ? 0 : friction;
  loss[3] = iron * motor.magnetLossShare;
}
