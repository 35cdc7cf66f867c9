/**
 * Speed of the air at the motor, its own fan not counted.
 *
 *   (1) v = v_own + max(a·V, b·V_a) + b·2·v_i     (2) v_i = −½·V_a + √(¼·V_a² + thrust/(2·ρ·A))
 *
 * V — vehicle speed, V_a — speed of advance of the propeller, A — its disc; V_a + 2·v_i — speed of the fully drawn-in slipstream, of which the
 * share b reaches the motor; a — share of the vehicle's own speed, where that brings more of it.
 * *Holds for* an air propeller, (2) where it thrusts; one in water moves no air. *Leaves out* the dead air behind a hub.
 * *Source* (2) W.J.M. Rankine and W. Froude's momentum theory, in H. Glauert, The Elements of Aerofoil and Airscrew Theory, 2nd ed., ch. 15.
 *
 * @module
 */

import type { HeatPaths } from '../heat/heat-paths.js';
import { LIQUID } from '../media/water.js';
import type { Load } from './drive-system.js';

/** (1) Air speed [m/s] at vehicle `speed` [m/s] and `thrust` [N] of the propeller. */
export function airAtMotor(
  heat: Pick<HeatPaths, 'airSpeed' | 'vehicleSpeedShare' | 'slipstreamShare'>,
  load: Load,
  speed: number,
  thrust: number,
): number {
  const { airSpeed, vehicleSpeedShare, slipstreamShare } = heat;
  const own = vehicleSpeedShare * speed;
  if (!(slipstreamShare > 0) || load.kind !== 'propeller' || load.density > LIQUID) return airSpeed + own;
  const advance = speed * (1 - load.wakeFraction);
  const disc = 0.25 * Math.PI * load.diameter * load.diameter;
  const gained = thrust > 0 ? 2 * (-0.5 * advance + Math.sqrt(0.25 * advance * advance + thrust / (2 * load.density * disc))) : 0;
  return airSpeed + Math.max(own, slipstreamShare * advance) + slipstreamShare * gained;
}
