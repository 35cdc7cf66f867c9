/** Energies of a run: quadratures of every power on the integrator's own steps, and what is stored. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { effectiveMass } from '../../drive/effective-mass.js';
import { POWER_TERM_IDS, POWER_TERMS, type PowerAccount } from '../../drive/power-terms.js';
import { BODIES } from '../../heat/heat-paths.js';
import { HEAT_WAY_IDS, type HeatByWay, sharers } from '../../heat/heat-ways.js';
import type { Kernel } from '../../kernel/kernel.js';
import { bodyPlaces } from '../../kernel/state-places.js';
import type { StepView } from '../../numerics/ode-system.js';
import { addStepIntegrals, GAUSS_LEGENDRE_3, GAUSS_LEGENDRE_5, quadratureWorkspace } from '../../numerics/quadrature.js';
import { STANDARD_GRAVITY } from '../../quantities/constants.js';
import type { EnergyAccount } from '../../results/run-result.js';

const TERMS = POWER_TERM_IDS.length;
const DRAG = TERMS;
const CLIMB = TERMS + 1;
const KINETIC = TERMS + 2;
const STORED = TERMS + 3;
const CHARGE = TERMS + 4;
const WAYS = TERMS + 5;
/** What a step may leave open of charge or stored heat, as a share of what passed in it [1]: half of what a run is held to. */
const CLOSED = 5e-7;
/** What the relative tolerance leaves of each step besides: a share of a full pack, and of a temperature of some 300 K [1, K]. */
const LEFT = { charge: 1, temperature: 300 } as const;
/** The laws close the account of heat to rounding at every instant; more than this share [1], or this much [J], is a fault of the program. */
const OPEN = 1e-6;
const ROUNDING = 1e-9;
const QUANTITIES = WAYS + HEAT_WAY_IDS.length;

/** Energy at the pack's terminals of all drives and other loads. */
export interface PackMeter {
  add(step: StepView): void;
  /** [J] */
  readonly energy: number;
  /** When the cap was passed [s], straight between the ends of the step in which it was; absent where it was not. */
  readonly passedAt: number | undefined;
}

export function packMeter(kernel: Kernel, { battery, limits }: DriveSystem): PackMeter {
  const sum = new Float64Array(1);
  const workspace = quadratureWorkspace(kernel.dimension, 1);
  let passedAt: number | undefined;
  const power = (t: number, y: Float64Array, out: Float64Array): void => {
    kernel.solve(t, y);
    out[0] = battery.cellsInSeries * kernel.point.cellVoltage * kernel.point.packCurrent;
  };
  return {
    add(step) {
      const before = sum[0];
      addStepIntegrals(step, GAUSS_LEGENDRE_3, power, sum, workspace);
      if (passedAt === undefined && sum[0] > limits.batteryEnergy)
        passedAt = step.from + ((step.to - step.from) * (limits.batteryEnergy - before)) / (sum[0] - before);
    },
    get energy() {
      return sum[0];
    },
    get passedAt() {
      return passedAt;
    },
  };
}

/** What does not close of charge `drawn` [A·s] = `capacity` [A·s] × `fall` of the state of charge, over the greater of the two; 0 for what does not empty. */
function chargeOpen(drawn: number, capacity: number, fall: number): number {
  const given = capacity === Number.POSITIVE_INFINITY ? drawn : capacity * fall;
  const greater = Math.max(Math.abs(drawn), Math.abs(given));
  return greater === 0 ? 0 : (drawn - given) / greater;
}

/** A change of what holds `capacity`; what never changes, as the charge of a supply, holds without end. */
const among = (capacity: number, change: number): number => (change === 0 ? 0 : capacity * change);

export interface EnergyMeter {
  /**
   * Adds the integrals over a step; false, and nothing added, where charge or heat of the bodies do not close over it within its tolerance: the states
   * between its ends are not what the laws give, as where it leads over a kink, or up to the place where a pack collapses.
   */
  add(step: StepView): boolean;
  /** A held speed jumps from `before` to `after` [m/s]: work that the profile does on the vehicle. */
  jump(before: number, after: number): void;
  /** Throws Error where heat came from nowhere or went nowhere: a fault of the program. */
  account(initial: Float64Array, final: Float64Array): EnergyAccount;
}

/** `tolerance` is the integration's, relative [1]. */
export function energyMeter(kernel: Kernel, system: DriveSystem, tolerance: number): EnergyMeter {
  const { vehicle, drives, battery } = system;
  const inertia = vehicle.carriedBy === 'bench' ? 0 : effectiveMass(system);
  const energy = new Float64Array(QUANTITIES);
  const before = energy.slice();
  const { charge } = kernel.at;
  const places = bodyPlaces(kernel.at);
  const capacities = BODIES.map((body) => system.heat.capacity[body] * (body === 'cells' ? 1 : drives));
  const heatLeft = tolerance * LEFT.temperature * capacities.reduce((sum, each) => sum + each, 0);
  const chargeLeft = tolerance * LEFT.charge * battery.capacity;
  const workspace = quadratureWorkspace(kernel.dimension, QUANTITIES);
  let jumps = 0;
  const sharing = HEAT_WAY_IDS.map((way) => sharers(way, drives));

  const quantities = (t: number, y: Float64Array, out: Float64Array): void => {
    kernel.solve(t, y);
    const powers = kernel.powers(y);
    for (let k = 0; k < TERMS; k++) out[k] = powers[POWER_TERM_IDS[k]] * drives;
    const { point } = kernel;
    const speed = y[kernel.at.speed];
    out[DRAG] = point.drag * speed;
    out[CLIMB] = vehicle.mass * STANDARD_GRAVITY * point.climb * speed;
    out[KINETIC] = inertia * point.acceleration * speed;
    const outlets = kernel.heatOutlets(y);
    out[STORED] = kernel.heatStored();
    out[CHARGE] = point.packCurrent;
    for (let k = 0; k < HEAT_WAY_IDS.length; k++) out[WAYS + k] = (outlets[HEAT_WAY_IDS[k]] * drives) / sharing[k];
  };

  /** Whether what was added over a step says of charge and of heat what its ends say. */
  const closes = ({ start, end }: StepView): boolean => {
    const drawn = energy[CHARGE] - before[CHARGE];
    const given = among(battery.capacity, start[charge] - end[charge]);
    // of a supply, which holds without end, any charge may be left open
    if (Math.abs(drawn - given) > chargeLeft + CLOSED * Math.abs(drawn)) return false;
    const stored = energy[STORED] - before[STORED];
    let rise = 0;
    for (let k = 0; k < places.length; k++) rise += among(capacities[k], end[places[k]] - start[places[k]]);
    return !(Math.abs(stored - rise) > heatLeft + CLOSED * Math.abs(stored));
  };

  return {
    add(step) {
      before.set(energy);
      addStepIntegrals(step, GAUSS_LEGENDRE_5, quantities, energy, workspace);
      if (closes(step)) return true;
      energy.set(before);
      return false;
    },
    jump(before, after) {
      jumps += 0.5 * inertia * (after ** 2 - before ** 2);
    },
    account(initial, final) {
      const terms = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, energy[k]])) as PowerAccount;
      const { shaft, charge } = kernel.at;
      const shaftGain = shaft < 0 ? 0 : 0.5 * drives * kernel.turningInertia() * (final[shaft] ** 2 - initial[shaft] ** 2);
      const heatMade = POWER_TERM_IDS.reduce((sum, id) => sum + (POWER_TERMS[id].heats ? terms[id] : 0), 0);
      const heatStored = energy[STORED];
      const heatLeaves = Object.fromEntries(HEAT_WAY_IDS.map((way, k) => [way, energy[WAYS + k]])) as HeatByWay;
      const heatShed = HEAT_WAY_IDS.reduce((sum, way) => sum + heatLeaves[way], 0);
      const moved = Math.max(Math.abs(heatMade), Math.abs(heatStored), Math.abs(heatShed));
      if (!(Math.abs(heatMade - heatStored - heatShed) <= OPEN * moved + ROUNDING))
        throw new Error(`The heat network does not keep its heat: made ${heatMade} J, stored ${heatStored} J, given off ${heatShed} J.`);
      const spent = POWER_TERM_IDS.slice(1).reduce((sum, id) => sum + terms[id], 0);
      return {
        terms,
        drag: energy[DRAG],
        climb: energy[CLIMB],
        kinetic: energy[KINETIC] + jumps,
        imposed: energy[DRAG] + energy[CLIMB] + energy[KINETIC] - terms.useful,
        jumps,
        shaftFollowed: shaftGain - terms.shaftStored,
        heatMade,
        heatStored,
        heatLeaves,
        heatShed,
        residual: terms.batteryChemical === 0 ? 0 : (terms.batteryChemical - spent) / terms.batteryChemical,
        heatResidual: moved === 0 ? 0 : (heatMade - heatStored - heatShed) / moved,
        chargeResidual: chargeOpen(energy[CHARGE], battery.capacity, initial[charge] - final[charge]),
      };
    },
  };
}
