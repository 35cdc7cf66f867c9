/**
 * Vehicle along its path: m_e·dv/dt = F − D(v) − m·g·sin γ.
 *
 *   (1) D = f·[D_table(v) + ½ρ·A_D·v² + c_rr·m·g·cos γ + k_i·(m·g·cos γ)²/(½ρv²)]          (2) k_i = 1/(π·Λ·e·S)
 *
 * *Holds for* steady or slowly changing flight, planing and rolling. *Leaves out* waves, wind, turns.
 * *Sign* drag is positive against forward motion. *Source* J. D. Anderson, Introduction to Flight, 5th ed., ch. 6 (from memory).
 *
 * @module
 */

import { STANDARD_GRAVITY } from '../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** Drag force [N] at given speeds [m/s], the first at rest; read by `dragFromTable`. */
export interface DragTable {
  readonly speed: Float64Array;
  readonly force: Float64Array;
  readonly slope: Float64Array;
}

/** A vehicle. */
export interface Vehicle<N extends Quantities = PlainNumbers> {
  /** Everything that moves: vehicle, pack, motors, gearboxes [kg]. */
  readonly mass: N['mass'];
  /** Added mass of water, or the turning parts' share, over `mass` [1]. */
  readonly addedMass: N['fraction'];
  /** f — factor on all drag, nominally 1 [1]. */
  readonly dragFactor: N['ratio'];
  /** A_D — drag area C_D·A, or C_D0·S of a wing [m²]. */
  readonly dragArea: N['area'];
  /** k_i — induced drag per lift squared over dynamic pressure, 1/(π·Λ·e·S); 0 without a wing [1/m²]. */
  readonly inducedFactor: N['ratio'];
  /** Most lift over dynamic pressure, C_Lmax·S; Infinity without a wing [m²]. */
  readonly liftArea: N['area'];
  /** Density of the medium that drags [kg/m³]. */
  readonly density: N['density'];
  /** Rolling drag over weight [1]. */
  readonly rollingResistance: N['ratio'];
  readonly dragTable: DragTable | undefined;
  /** What carries the vehicle: a wing's climb is a result, a hull or car stays on its ground. */
  readonly carriedBy: 'bench' | 'water' | 'wheels' | 'wing';
}

/** D_table [N] at speed [m/s]: cubic Hermite between rows; beyond the last row it grows with v² (reported as a finding by the run). */
export function dragFromTable(table: DragTable, speed: number): number {
  const { speed: v, force, slope } = table;
  const last = v.length - 1;
  if (speed < 0) return -dragFromTable(table, -speed);
  if (speed >= v[last]) return force[last] * (speed / v[last]) ** 2;
  let k = 0;
  while (speed >= v[k + 1]) k++;
  const h = v[k + 1] - v[k];
  const u = (speed - v[k]) / h;
  const f0 = force[k];
  const f1 = force[k + 1];
  const m0 = slope[k] * h;
  const m1 = slope[k + 1] * h;
  return f0 + u * (m0 + u * (3 * (f1 - f0) - 2 * m0 - m1 + u * (2 * (f0 - f1) + m0 + m1)));
}

/**
 * Slowest speed [m/s] at which a wing carries the vehicle on a path that climbs with sine `climb` [1]: √(2·m·g·cos γ/(ρ·C_Lmax·S)); 0 for
 * what no wing carries.
 */
export const stallSpeed = (vehicle: Vehicle, climb: number): number =>
  vehicle.carriedBy === 'wing'
    ? Math.sqrt((2 * vehicle.mass * STANDARD_GRAVITY * Math.sqrt(Math.max(0, 1 - climb * climb))) / (vehicle.density * vehicle.liftArea))
    : 0;

/** (1) Drag [N] at speed [m/s] on a path that climbs with sine `climb` [1]. */
export function dragForce(vehicle: Vehicle, speed: number, climb: number): number {
  const pressure = 0.5 * vehicle.density * speed * Math.abs(speed);
  let drag = vehicle.dragArea * pressure;
  if (vehicle.dragTable !== undefined) drag += dragFromTable(vehicle.dragTable, speed);
  if (vehicle.rollingResistance !== 0 || vehicle.inducedFactor !== 0) {
    const carried = vehicle.mass * STANDARD_GRAVITY * Math.sqrt(Math.max(0, 1 - climb * climb));
    if (speed > 0) drag += vehicle.rollingResistance * carried;
    if (vehicle.inducedFactor !== 0 && speed > 0) {
      // a wing carries no more than its lift limit; what is missing then is a finding of the run
      const lift = Math.min(carried, vehicle.liftArea * pressure);
      drag += (vehicle.inducedFactor * lift * lift) / pressure;
    }
  }
  return vehicle.dragFactor * drag;
}
