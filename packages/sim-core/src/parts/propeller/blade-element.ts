/**
 * Thrust and torque of a propeller by blade-element momentum theory, annulus by annulus.
 *
 * Lengths are counted in diameters and speeds in n·D, so that the speed of advance is J and the speed of rotation at x = r/R is π·x.
 * φ is the angle of the flow W at the blade, m = |sin φ|, σ = B·c/(2πr).
 *
 * (1) α = θ − φ;  c_n = c_l cos φ − c_d sin φ;  c_t = c_l sin φ + c_d cos φ
 * (2) k = σ/(4F);  J = W·(sin φ − k·c_n/m);  π·x = W·(cos φ + k·c_t/m)            momentum = blade force
 * (3) J·(m cos φ + k·c_t) − π·x·(m sin φ − k·c_n) = 0                            (2) without W: one root in φ, also where J = 0
 * (4) F = (4/π²)·acos e^(−B(1 − x)/(2x·m))·acos e^(−B(x − x_h)/(2x_h·m))         Prandtl's losses at tip and hub
 * (5) W = (J sin φ + π·x cos φ)/(1 + k·c_d/m)
 * (6) dCT/dx = B·W²·(c/R)·c_n/8;  dCP/dx = 2π·B·W²·(c/R)·c_t·x/16
 *
 * *Holds for* J ≥ 0 from standstill through windmilling to a stopped propeller (J large). *Leaves out* sweep, flow along the blade, the
 * turbulent wake of a heavily braking disc, compressibility; the drag of hub and spinner; the bending of thin blades.
 * *Sign*: thrust forward, torque into the propeller. *Source*: H. Glauert, "Airplane propellers", 1935; S. A. Ning, "A simple solution method
 * for the blade element momentum equations with guaranteed convergence", Wind Energy 17, 2014 (root in φ; here multiplied by sin φ).
 *
 * @module
 */

import { brent } from '../../numerics/roots.js';
import type { SectionPolar } from './section-polar.js';

/** One annulus of the blade. */
export interface BladeElement {
  /** x = r/R — middle of the element [1]. */
  readonly radius: number;
  /** dx — its width over R [1]. */
  readonly width: number;
  /** c/R — chord over R [1]. */
  readonly chord: number;
  /** θ — angle between chord and disc [rad]. */
  readonly twist: number;
  readonly polar: SectionPolar;
}

/** Blades cut into elements. */
export interface Rotor {
  /** B [1]. */
  readonly blades: number;
  /** x_h — hub radius over R; 0: no hub loss [1]. */
  readonly hubRadius: number;
  /** Whether Prandtl's losses apply; without them the textbook strip theory remains. */
  readonly losses: boolean;
  readonly elements: readonly BladeElement[];
}

/** One annulus at its balance. All [1], as coefficients. */
export interface ElementLoad {
  /** φ [rad]. */
  readonly inflowAngle: number;
  /** W over n·D [1]. */
  readonly speed: number;
  /** dCT/dx and dCP/dx [1]. */
  readonly thrust: number;
  readonly power: number;
}

/** |φ| below this is no flow through the disc at all; the equations divide by its sine. */
const SMALLEST_ANGLE = 1e-6;

/** Equation 4. `sine` is m [1]. */
export function prandtlLoss(rotor: Pick<Rotor, 'blades' | 'hubRadius'>, radius: number, sine: number): number {
  const share = (gap: number) => (2 / Math.PI) * Math.acos(Math.exp((-rotor.blades * gap) / (2 * sine)));
  const tip = share((1 - radius) / radius);
  return rotor.hubRadius > 0 ? tip * share((radius - rotor.hubRadius) / rotor.hubRadius) : tip;
}

/**
 * Equations 1 to 6 at an advance ratio and a disc Reynolds number n·D²/ν. The chord Reynolds number is taken at the speed without induction.
 * `near` is an inflow angle to begin at, such as the balance at a neighbouring Reynolds number [rad].
 * Throws RangeError where the annulus finds no balance (a blade set backwards in a strong stream).
 */
export function elementLoad(rotor: Rotor, element: BladeElement, advanceRatio: number, discReynolds: number, near?: number): ElementLoad {
  const { blades } = rotor;
  const { radius, chord, twist } = element;
  const rotation = Math.PI * radius;
  const solidity = (blades * chord) / (2 * Math.PI * radius);
  const polar = element.polar(Math.hypot(advanceRatio, rotation) * (chord / 2) * discReynolds);
  const momentum = (through: number) => solidity / (4 * (rotor.losses ? prandtlLoss(rotor, radius, through) : 1));
  const residual = (angle: number) => {
    const sine = Math.sin(angle);
    const cosine = Math.cos(angle);
    const through = Math.abs(sine);
    const { lift, drag } = polar(twist - angle);
    // J·c_t + π·x·c_n of equation 3, sorted by lift and drag
    const force = lift * (advanceRatio * sine + rotation * cosine) + drag * (advanceRatio * cosine - rotation * sine);
    return through * (advanceRatio * cosine - rotation * sine) + momentum(through) * force;
  };
  const angle = (near === undefined ? undefined : secant(residual, near)) ?? bracketedInflow(residual, advanceRatio, rotation, twist);

  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  const { lift, drag } = polar(twist - angle);
  const speed = (advanceRatio * sine + rotation * cosine) / (1 + (momentum(Math.abs(sine)) * drag) / Math.abs(sine));
  const load = (blades * speed * speed * chord) / 8;
  const thrust = load * (lift * cosine - drag * sine);
  const power = Math.PI * load * (lift * sine + drag * cosine) * radius;
  return { inflowAngle: angle, speed, thrust, power };
}

/** Far below what a thousandth of the thrust needs; costs one step more than 10⁻⁴ would. */
const ANGLE_TOLERANCE = 1e-7;
const SECANT_STEPS = 8;
const FIRST_SECANT = 1e-3;
/** A step this small leaves an error a hundred times smaller. */
const LAST_SECANT = 1e-4;
/** Further away lies another branch of the section's curve. */
const FARTHEST = 0.1;

/** The root near an angle by the secant method; undefined where it wanders off or comes near 0, where the equations end. */
function secant(residual: (angle: number) => number, near: number): number | undefined {
  let [before, angle] = [near - FIRST_SECANT, near];
  let atBefore = residual(before);
  for (let i = 0; i < SECANT_STEPS; i++) {
    const here = residual(angle);
    const step = (-here * (angle - before)) / (here - atBefore);
    [before, atBefore] = [angle, here];
    angle += step;
    if (!(Math.abs(angle - near) < FARTHEST && angle * near > 0 && Math.abs(angle) > 2 * FIRST_SECANT)) return undefined;
    if (Math.abs(step) < LAST_SECANT) return angle;
  }
  return undefined;
}

function bracketedInflow(residual: (angle: number) => number, advanceRatio: number, rotation: number, twist: number): number {
  const undisturbed = Math.max(Math.atan2(advanceRatio, rotation), SMALLEST_ANGLE);
  const [low, high] = bracketInflow(residual, undisturbed, twist);
  // it changes sign between no flow forwards and none backwards
  if (high < 0 && residual(high) > 0) return SMALLEST_ANGLE;
  return brent(residual, low, high, ANGLE_TOLERANCE);
}

/** Past this angle below its chord a usual section pushes back. */
const NEGATIVE_LIFT = 0.12;

/**
 * Where equation 3 changes sign. At the undisturbed angle φ0 = atan(J/(π·x)) the residual has the sign of the lift; between φ0 and the angle
 * without lift lies the root. A blade that pulls is sought above φ0, one that brakes below it, one that blows backwards below 0.
 */
function bracketInflow(residual: (angle: number) => number, undisturbed: number, twist: number): readonly [low: number, high: number] {
  if (residual(undisturbed) > 0) {
    const near = twist + NEGATIVE_LIFT;
    return [undisturbed, near > undisturbed && near < Math.PI / 2 && residual(near) < 0 ? near : Math.PI / 2];
  }
  return residual(SMALLEST_ANGLE) > 0 ? [SMALLEST_ANGLE, undisturbed] : [-Math.PI / 2, -SMALLEST_ANGLE];
}

/**
 * CT and CP of the whole rotor: the sum of equation 6 over its elements. `inflow` holds the balance of each element: where it is not NaN the search
 * begins there, and what is found is left in it [rad]. Throws as `elementLoad` does.
 */
export function rotorCoefficients(
  rotor: Rotor,
  advanceRatio: number,
  discReynolds: number,
  inflow?: Float64Array,
): { readonly thrustCoefficient: number; readonly powerCoefficient: number } {
  let thrustCoefficient = 0;
  let powerCoefficient = 0;
  for (const [i, element] of rotor.elements.entries()) {
    const near = inflow?.[i];
    const load = elementLoad(rotor, element, advanceRatio, discReynolds, Number.isNaN(near) ? undefined : near);
    if (inflow !== undefined) inflow[i] = load.inflowAngle;
    thrustCoefficient += load.thrust * element.width;
    powerCoefficient += load.power * element.width;
  }
  return { thrustCoefficient, powerCoefficient };
}
