/**
 * The state vector of one drive by name: which states there are, in which order, and where each one lies in the vector of a system. Nobody else
 * counts places.
 *
 * @module
 */

import type { DriveSystem } from '../drive/drive-system.js';
import { BODIES, type Body } from '../heat/heat-paths.js';

/** All states in the order of the vector: temperatures [K], shaft speed [rad/s], charge [1], voltage of one cell's RC pair [V], vehicle speed [m/s]. */
export const STATES = [...BODIES, 'shaft', 'charge', 'polarisation', 'speed'] as const;
/** The name of a state. */
export type StateName = (typeof STATES)[number];

/** Place of each state. Bodies that an infinite conductance joins have one place; the shaft −1 where its speed follows the torque balance at once. */
export type StatePlaces = { readonly [K in StateName]: number };
export type FilledPlaces = { -readonly [K in StateName]: number };

export const emptyStatePlaces = (): FilledPlaces => ({
  winding: 0,
  stator: 0,
  can: 0,
  magnets: 0,
  controller: 0,
  cells: 0,
  shaft: -1,
  charge: 0,
  polarisation: 0,
  speed: 0,
});

/** Writes the places of a system's states into `at` and returns their number. */
export function placeStates({ heat, load, motor, shaftSpeed }: DriveSystem, at: FilledPlaces): number {
  const root: Record<Body, Body> = {
    winding: 'winding',
    stator: 'stator',
    can: 'can',
    magnets: 'magnets',
    controller: 'controller',
    cells: 'cells',
  };
  const join = (a: Body, b: Body, conductance: number): void => {
    if (conductance !== Number.POSITIVE_INFINITY) return;
    const [from, to] = [root[b], root[a]];
    for (const body of BODIES) if (root[body] === from) root[body] = to;
  };
  join('winding', 'stator', heat.windingToStator);
  join('stator', 'can', heat.statorToCan);
  join('stator', 'magnets', heat.statorToMagnets);
  join('can', 'magnets', heat.magnetsToCan);
  // what has no inertia follows the balance at once
  const turns = load.kind === 'propeller' && motor.rotorInertia + load.inertia > 0;
  const placed = new Map<StateName, number>();
  for (const state of STATES) {
    if (state === 'shaft' && !(shaftSpeed === 'with-inertia' && turns)) {
      at.shaft = -1;
      continue;
    }
    const first = isBody(state) ? root[state] : state;
    const place = placed.get(first) ?? placed.size;
    placed.set(first, place);
    at[state] = place;
  }
  return placed.size;
}

const isBody = (state: StateName): state is Body => (BODIES as readonly StateName[]).includes(state);

/** Places of the bodies' temperatures, in the order of BODIES. */
export const bodyPlaces = (at: StatePlaces): Int32Array => Int32Array.from(BODIES, (body) => at[body]);

/** One value for each kind of state. */
export interface ByKind {
  readonly temperature: number;
  readonly shaft: number;
  readonly charge: number;
  readonly polarisation: number;
  readonly speed: number;
}

/** A vector of `dimension` states with each kind's value in its places. */
export function stateVector(dimension: number, at: StatePlaces, value: ByKind): Float64Array {
  const vector = new Float64Array(dimension);
  for (const state of STATES) if (at[state] >= 0) vector[at[state]] = isBody(state) ? value.temperature : value[state];
  return vector;
}
