/**
 * Six outrunners of 28 to 555 g whose motor constant, K_m = k_t/√R, is known:
 *
 * - slotted flat ones by their catalogue pages, maxon EC 45 flat 50 W 18 V and 70 W 24 V (k_t, R, no-load current; masses from memory of the same pages);
 * - three small ones on a thrust stand (StrawsonDesign, motor_propeller_testing, MIT licence), R such that the label's Kv gives the speed of one full-throttle row
 *   (`npm run measured -- thrust-stand`; masses from memory);
 * - a large one identified at 20–30 V, R with leads and controller (Kennesaw State University UAS bench data; `npm run measured -- plateaus`; mass from memory).
 * @module
 */
import { MOTOR_CONSTANT } from '@shaftwork/sim-core/provenance/rules/rules-motor';

const fromKv = (rpmPerVolt: number): number => 60 / (2 * Math.PI * rpmPerVolt);
export const FLAT = [
  { name: 'EC 45 flat 50 W', kt: 29.5e-3, resistance: 0.447, noLoad: 0.277, mass: 0.11 },
  { name: 'EC 45 flat 70 W', kt: 40.4e-3, resistance: 0.573, noLoad: 0.27, mass: 0.141 },
] as const;
export const SMALL = [
  { name: 'A of the thrust stand', kt: fromKv(2400), resistance: 0.092, mass: 0.028 },
  { name: 'B of the thrust stand', kt: fromKv(2000), resistance: 0.131, mass: 0.031 },
  { name: 'C of the thrust stand', kt: fromKv(2400), resistance: 0.07, mass: 0.033 },
] as const;
const LARGE = { name: 'the large one', kt: fromKv(168), resistance: 0.036, mass: 0.555 };
export const SIX = [...FLAT, ...SMALL, LARGE] as const;
type Known = (typeof SIX)[number];

/** What a motor asks for in place of the rule's level. */
export const levelOf = ({ kt, resistance, mass }: Known): number => kt / Math.sqrt(resistance) / mass ** MOTOR_CONSTANT.exponent;
export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Slope of the straight line through ln K_m over ln m. */
export function slopeOf(motors: readonly Known[]): number {
  const x = motors.map(({ mass }) => Math.log(mass));
  const y = motors.map(({ kt, resistance }) => Math.log(kt / Math.sqrt(resistance)));
  const [mx, my] = [mean(x), mean(y)];
  return mean(x.map((each, k) => (each - mx) * (y[k] - my))) / mean(x.map((each) => (each - mx) ** 2));
}
