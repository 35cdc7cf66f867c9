/**
 * The heat flow of can and mount as `heat/can-surface.ts` and `heat/mount.ts` have it, restated for the inner loop: what the laws take from the air is fitted in film
 * temperature once, so that an evaluation needs a few polynomials and roots.
 *
 *   (1) natural: Nu = (u₀ + u₁·Ra^⅙)²      (2) along: Nu = √((a₁·Re^½)² + (a₂·Re^0.8)²)
 *   (3) turning: side Nu = s·Re^⅔, end Nu = e·Re^½ while the disc is laminar
 *
 * u₀ is a number; u₁, a₁, a₂, s, e depend on Pr alone and are read off the laws themselves at Ra = Re = 1. With k, ν and T_film they make
 * eight functions of film temperature, each a polynomial of degree 8 through Chebyshev's points.
 * *Holds for* film temperatures of 250–500 K; outside, and for a turbulent disc, the plain law answers. *Error* a test holds the flow within
 * 1e-6 of the plain law. *Source* the laws' own docstrings.
 *
 * @module
 */

import { canEndHeat, canSideHeat, freeSide } from '../heat/can-surface.js';
import type { HeatPaths } from '../heat/heat-paths.js';
import { mountHeat, mountLength, throughMount } from '../heat/mount.js';
import { laminarPlateNusselt, turbulentPlateNusselt } from '../heat/nusselt-forced.js';
import { cylinderNaturalNusselt, plateNaturalNusselt } from '../heat/nusselt-natural.js';
import { turningCylinderNusselt, turningDiscNusselt } from '../heat/nusselt-rotation.js';
import { radiationCoefficient } from '../heat/radiation.js';
import { airConductivity, airKinematicViscosity, airPrandtl } from '../media/air.js';
import { SEA_LEVEL_PRESSURE } from '../media/standard-atmosphere.js';
import { STANDARD_GRAVITY } from '../quantities/constants.js';

const COLDEST_FILM = 250;
const HOTTEST_FILM = 500;
/** Reynolds number on the radius beyond which the disc's own law changes. */
const LAMINAR_DISC = 249_000;
const TERMS = 9;

/** Functions of film temperature at one standard atmosphere, in the order in which they are fitted. */
const FUNCTIONS: readonly ((k: number, nu: number, prandtl: number, film: number) => number)[] = [
  (k) => k,
  (_k, nu, pr, film) => (Math.sqrt(cylinderNaturalNusselt(1, pr)) - SIDE_BASE) * (pr / (film * nu * nu)) ** (1 / 6),
  (_k, nu, pr, film) => (Math.sqrt(plateNaturalNusselt(1, pr)) - END_BASE) * (pr / (film * nu * nu)) ** (1 / 6),
  (k, nu, pr) => (k * laminarPlateNusselt(1, pr)) / Math.sqrt(nu),
  (k, nu, pr) => (k * turbulentPlateNusselt(1, pr)) / nu ** 0.8,
  (k, nu, pr) => (k * turningCylinderNusselt(1, pr)) / nu ** (2 / 3),
  (k, nu, pr) => (k * turningDiscNusselt(1, pr)) / Math.sqrt(nu),
  (_k, nu) => nu,
];
const SIDE_BASE = Math.sqrt(cylinderNaturalNusselt(0, 0.7));
const END_BASE = Math.sqrt(plateNaturalNusselt(0, 0.7));

/** Coefficients of x = (2·T − T_lo − T_hi)/(T_hi − T_lo), function after function, lowest power first. */
const COEFFICIENTS = fitFunctions();

function fitFunctions(): Float64Array {
  const nodes = Array.from({ length: TERMS }, (_, i) => Math.cos((Math.PI * (i + 0.5)) / TERMS));
  const out = new Float64Array(FUNCTIONS.length * TERMS);
  FUNCTIONS.forEach((law, at) => {
    const values = nodes.map((x) => {
      const film = 0.5 * (COLDEST_FILM + HOTTEST_FILM + x * (HOTTEST_FILM - COLDEST_FILM));
      return law(airConductivity(film), airKinematicViscosity(film, SEA_LEVEL_PRESSURE), airPrandtl(film), film);
    });
    // Chebyshev coefficients, then powers of x by T_(n+1) = 2x·T_n − T_(n−1)
    let [before, now] = [new Float64Array(TERMS), new Float64Array(TERMS)];
    now[0] = 1;
    for (let n = 0; n < TERMS; n++) {
      let sum = 0;
      for (let i = 0; i < TERMS; i++) sum += values[i] * Math.cos((n * Math.PI * (i + 0.5)) / TERMS);
      const weight = ((n === 0 ? 1 : 2) * sum) / TERMS;
      for (let k = 0; k < TERMS; k++) out[at * TERMS + k] += weight * now[k];
      const next = new Float64Array(TERMS);
      for (let k = 0; k < TERMS; k++) next[k] = (n === 0 ? 1 : 2) * (k > 0 ? now[k - 1] : 0) - before[k];
      [before, now] = [now, next];
    }
  });
  return out;
}

function fitted(at: number, x: number): number {
  const c = COEFFICIENTS;
  const o = at * TERMS;
  return (
    c[o] +
    x * (c[o + 1] + x * (c[o + 2] + x * (c[o + 3] + x * (c[o + 4] + x * (c[o + 5] + x * (c[o + 6] + x * (c[o + 7] + x * c[o + 8])))))))
  );
}

const square = (x: number): number => x * x;

type CanPaths = Pick<
  HeatPaths,
  | 'sideArea'
  | 'sideCovered'
  | 'endArea'
  | 'canDiameter'
  | 'canLength'
  | 'convectionFactor'
  | 'emissivity'
  | 'openness'
  | 'toMount'
  | 'mount'
  | 'canToAir'
>;

/** What one can and its air add to the fits; fill it with `prepareCanFlow`. */
export interface CanFlowFit {
  paths: CanPaths;
  air: number;
  pressure: number;
  /** (g·D³·p²)^⅙ with p in standard atmospheres. */
  natural: number;
  sideLaminar: number;
  sideTurbulent: number;
  endLaminar: number;
  endTurbulent: number;
  sideTurning: number;
  endTurning: number;
  discReynolds: number;
  mountLength: number;
  mountNatural: number;
  mountLaminar: number;
  /** k, the natural law's part of film and warmth, and the stream's, at the can's film once it is fitted; and the can and air they are of. */
  conductivity: number;
  upright: number;
  laminar: number;
  fittedCan: number;
  fittedAir: number;
  /** What `fittedCanFlow` reads: can and the body on the mount [K], air speed along it [m/s], spin [rad/s]. */
  can: number;
  mounted: number;
  airSpeed: number;
  spin: number;
  /** What it writes: heat out of the can's side (the whole can's, where its way to the air was given) and of its ends [W]. */
  side: number;
  ends: number;
  /** And out of the mount [W]. */
  mount: number;
}

export const emptyCanFlowFit = (): CanFlowFit => ({
  paths: {
    sideArea: 0,
    sideCovered: 0,
    endArea: 0,
    canDiameter: 1,
    canLength: 1,
    convectionFactor: 1,
    emissivity: 0,
    openness: 1,
    toMount: 0,
    mount: undefined,
    canToAir: 0,
  },
  air: 0,
  pressure: SEA_LEVEL_PRESSURE,
  natural: 0,
  sideLaminar: 0,
  sideTurbulent: 0,
  endLaminar: 0,
  endTurbulent: 0,
  sideTurning: 0,
  endTurning: 0,
  discReynolds: 0,
  mountLength: 1,
  mountNatural: 0,
  mountLaminar: 0,
  conductivity: 0,
  upright: 0,
  laminar: 0,
  fittedCan: Number.NaN,
  fittedAir: Number.NaN,
  can: 0,
  mounted: 0,
  airSpeed: 0,
  spin: 0,
  side: 0,
  ends: 0,
  mount: 0,
});

/** Sizes and pressure of one can in air of temperature `air` [K] and `pressure` [Pa]: kinematic viscosity goes with 1/p. */
export function prepareCanFlow(fit: CanFlowFit, paths: CanPaths, air: number, pressure: number): void {
  const { canDiameter: diameter, canLength: length } = paths;
  const p = pressure / SEA_LEVEL_PRESSURE;
  fit.paths = paths;
  fit.air = air;
  fit.pressure = pressure;
  fit.natural = Math.sqrt(Math.cbrt(STANDARD_GRAVITY * diameter ** 3 * p * p));
  fit.sideLaminar = Math.sqrt(p / length);
  fit.sideTurbulent = p ** 0.8 / length ** 0.2;
  fit.endLaminar = Math.sqrt(p / diameter);
  fit.endTurbulent = p ** 0.8 / diameter ** 0.2;
  fit.sideTurning = Math.cbrt(p * p * diameter);
  fit.endTurning = Math.sqrt(p);
  fit.discReynolds = 0.25 * diameter * diameter * p;
  fit.mountLength = paths.mount === undefined ? 1 : mountLength(paths.mount.area);
  fit.mountNatural = Math.sqrt(Math.cbrt(STANDARD_GRAVITY * fit.mountLength ** 3 * p * p));
  fit.mountLaminar = Math.sqrt(p / fit.mountLength);
}

function plainCanFlow(fit: CanFlowFit): void {
  fit.fittedCan = Number.NaN;
  fit.side = canSideHeat(fit.paths, fit.can, fit.air, fit.pressure, fit.airSpeed, fit.spin);
  fit.ends = canEndHeat(fit.paths, fit.can, fit.air, fit.pressure, fit.airSpeed, fit.spin);
}

/** Heat out of the mount, as `mount.ts` has it. */
function fittedMountFlow(fit: CanFlowFit): void {
  const { mount, toMount } = fit.paths;
  const { air, mounted } = fit;
  const film = 0.5 * (mounted + air);
  if (mount === undefined || toMount === 0 || !(film > COLDEST_FILM && film < HOTTEST_FILM)) {
    fit.mount = mountHeat(fit.paths, mounted, air, fit.pressure, fit.airSpeed);
    return;
  }
  const difference = mounted - air;
  const along = Math.abs(fit.airSpeed);
  // an inrunner's can stands on the mount itself: its film and buoyancy are the mount's
  if (!(mounted === fit.fittedCan && air === fit.fittedAir)) {
    const x = (2 * film - COLDEST_FILM - HOTTEST_FILM) / (HOTTEST_FILM - COLDEST_FILM);
    fit.conductivity = fitted(0, x);
    fit.upright = fitted(2, x) * Math.sqrt(Math.cbrt(Math.abs(difference)));
    fit.laminar = along > 0 ? fitted(3, x) * Math.sqrt(along) : 0;
  }
  const root = END_BASE + fit.upright * fit.mountNatural;
  let h = (fit.conductivity / fit.mountLength) * root * root;
  if (along > 0) {
    const laminar = fit.laminar * fit.mountLaminar;
    h = Math.cbrt(h * h * h + laminar * laminar * laminar);
  }
  fit.mount = throughMount(toMount, mount.area, h + radiationCoefficient(mounted, air, mount.emissivity)) * difference;
}

/**
 * Heat out of the can's side and ends and of the mount. Reads and writes the record: a call that takes and returns numbers allocates one for each, and this
 * runs in every evaluation.
 */
export function fittedSurfaces(fit: CanFlowFit): void {
  fittedCanFlow(fit);
  fit.side += fit.paths.canToAir * (fit.can - fit.air);
  fittedMountFlow(fit);
}

/** Heat out of the can's side and ends, as `can-surface.ts` has it, also in what it answers with NaN. */
export function fittedCanFlow(fit: CanFlowFit): void {
  const { paths, air, can, airSpeed, spin } = fit;
  const film = 0.5 * (can + air);
  if (!(film > COLDEST_FILM && film < HOTTEST_FILM)) {
    plainCanFlow(fit);
    return;
  }
  const { endArea, canDiameter } = paths;
  const sideArea = freeSide(paths);
  const x = (2 * film - COLDEST_FILM - HOTTEST_FILM) / (HOTTEST_FILM - COLDEST_FILM);
  const turning = Math.abs(spin);
  const open = Math.max(paths.openness, 0);
  if (turning > 0 && turning * open * open * fit.discReynolds > LAMINAR_DISC * fitted(7, x)) {
    plainCanFlow(fit);
    return;
  }
  fit.conductivity = fitted(0, x);
  const conductivity = fit.conductivity / canDiameter;
  const difference = can - air;
  const rootOfWarmth = Math.sqrt(Math.cbrt(Math.abs(difference)));
  const buoyancy = fit.natural * rootOfWarmth;
  const endFactor = fitted(2, x);
  fit.upright = endFactor * rootOfWarmth;
  fit.laminar = 0;
  fit.fittedCan = can;
  fit.fittedAir = air;
  const sideRoot = SIDE_BASE + fitted(1, x) * buoyancy;
  const endRoot = END_BASE + endFactor * buoyancy;
  const sideNatural = conductivity * sideRoot * sideRoot;
  const endNatural = conductivity * endRoot * endRoot;
  const along = Math.abs(airSpeed);
  const radiated = radiationCoefficient(can, air, paths.emissivity);
  if (along === 0 && turning === 0) {
    fit.side = sideArea * (paths.convectionFactor * sideNatural + radiated) * difference;
    fit.ends = endArea * (paths.convectionFactor * endNatural + radiated) * difference;
    return;
  }
  let side = sideNatural * sideNatural * sideNatural;
  let end = endNatural * endNatural * endNatural;
  if (along > 0) {
    const laminar = fitted(3, x) * Math.sqrt(along);
    fit.laminar = laminar;
    const turbulent = fitted(4, x) * Math.exp(0.8 * Math.log(along));
    const sideSquare = square(laminar * fit.sideLaminar) + square(turbulent * fit.sideTurbulent);
    const endSquare = square(laminar * fit.endLaminar) + square(turbulent * fit.endTurbulent);
    side += sideSquare * Math.sqrt(sideSquare);
    end += endSquare * Math.sqrt(endSquare);
  }
  if (turning > 0) {
    const sideTurning = fitted(5, x) * fit.sideTurning * open;
    // (ω^⅔)³ = ω²
    side += sideTurning * sideTurning * sideTurning * turning * turning;
    const endTurning = fitted(6, x) * fit.endTurning * open;
    end += endTurning * endTurning * endTurning * turning * Math.sqrt(turning);
  }
  fit.side = sideArea * (paths.convectionFactor * Math.cbrt(side) + radiated) * difference;
  fit.ends = endArea * (paths.convectionFactor * Math.cbrt(end) + radiated) * difference;
}
