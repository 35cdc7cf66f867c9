/**
 * Level and exponent of the motor constant that motors of a mass have, K_m = k_t/√R, against six outrunners of 28 to 555 g:
 *
 * - slotted flat ones by their catalogue pages, maxon EC 45 flat 50 W 18 V and 70 W 24 V (k_t, R, no-load current; masses from memory of the same pages);
 * - three small ones on a thrust stand (StrawsonDesign, motor_propeller_testing, MIT licence), R such that the label's Kv gives the speed of one full-throttle row
 *   (`npm run measured -- thrust-stand`; masses from memory);
 * - a large one identified at 20–30 V, R with leads and controller (Kennesaw State University UAS bench data; `npm run measured -- plateaus`; mass from memory).
 */
import { MOTOR_CONSTANT, MOTOR_RULES } from '@shaftwork/sim-core/provenance/rules/rules-motor';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { MOTOR_CONSTANT_FACTOR } from '@shaftwork/sim-core/questions/audit/marks';
import { describe, expect, it } from 'vitest';

const fromKv = (rpmPerVolt: number): number => 60 / (2 * Math.PI * rpmPerVolt);
const FLAT = [
  { name: 'EC 45 flat 50 W', kt: 29.5e-3, resistance: 0.447, noLoad: 0.277, mass: 0.11 },
  { name: 'EC 45 flat 70 W', kt: 40.4e-3, resistance: 0.573, noLoad: 0.27, mass: 0.141 },
];
const SMALL = [
  { name: 'A of the thrust stand', kt: fromKv(2400), resistance: 0.092, mass: 0.028 },
  { name: 'B of the thrust stand', kt: fromKv(2000), resistance: 0.131, mass: 0.031 },
  { name: 'C of the thrust stand', kt: fromKv(2400), resistance: 0.07, mass: 0.033 },
];
const LARGE = { name: 'the large one', kt: fromKv(168), resistance: 0.036, mass: 0.555 };
const SIX = [...FLAT, ...SMALL, LARGE];
type Known = (typeof SIX)[number];

const levelOf = ({ kt, resistance, mass }: Known): number => kt / Math.sqrt(resistance) / mass ** MOTOR_CONSTANT.exponent;
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Slope of the straight line through ln K_m over ln m. */
function slopeOf(motors: readonly Known[]): number {
  const x = motors.map(({ mass }) => Math.log(mass));
  const y = motors.map(({ kt, resistance }) => Math.log(kt / Math.sqrt(resistance)));
  const [mx, my] = [mean(x), mean(y)];
  return mean(x.map((each, k) => (each - mx) * (y[k] - my))) / mean(x.map((each) => (each - mx) ** 2));
}

describe('the motor constant of a mass', () => {
  it.each(SIX)('of $name lies inside the audit’s mark', (motor) => {
    const ratio = levelOf(motor) / MOTOR_CONSTANT.outrunner;
    expect(Math.abs(Math.log(ratio))).toBeLessThan(Math.log(MOTOR_CONSTANT_FACTOR));
  });

  it('a slip of a digit in either Kv or resistance leaves the mark for all six', () => {
    for (const motor of SIX)
      for (const slip of [10, 0.1])
        expect(Math.abs(Math.log((levelOf(motor) / MOTOR_CONSTANT.outrunner) * slip))).toBeGreaterThan(Math.log(MOTOR_CONSTANT_FACTOR));
  });

  it('has their geometric mean as its level, and their scatter as its doubt', () => {
    const logs = SIX.map((motor) => Math.log(levelOf(motor)));
    expect(Math.exp(mean(logs)) / MOTOR_CONSTANT.outrunner).toBeCloseTo(1, 1);
    const deviation = Math.sqrt((SIX.length / (SIX.length - 1)) * mean(logs.map((each) => (each - mean(logs)) ** 2)));
    const { common, own } = MOTOR_RULES['outrunner-resistance'];
    if (typeof common === 'function') throw new TypeError('its doubt depends on inputs');
    const stated = Math.hypot(...[common, own].map((spread) => Math.log1p(halfWidth95(spread))));
    // resistance goes by the square of the motor constant: 1.96 deviations of ln R
    const found = 1.96 * 2 * deviation;
    expect(stated / found).toBeGreaterThan(0.9);
    expect(stated / found).toBeLessThan(1.1);
  });

  // five of the six ask for 0.90; the large one, mass from memory, for more than one: too few to leave similarity, and said on the theory page
  it('grows with mass at least as similarity has it', () => {
    expect(slopeOf([...FLAT, ...SMALL])).toBeCloseTo(0.9, 1);
    expect(slopeOf(SIX)).toBeCloseTo(1.03, 1);
    expect(slopeOf([...FLAT, ...SMALL])).toBeGreaterThan(MOTOR_CONSTANT.exponent);
  });

  it.each(SIX)('what stands in for a missing resistance is within a factor of 2.7 of that of $name', ({ kt, resistance, mass }) => {
    expect(Math.abs(Math.log(MOTOR_RULES['outrunner-resistance'].law([kt, mass]) / resistance))).toBeLessThan(Math.log(2.7));
  });

  it.each(FLAT)('what stands in for a missing no-load current is within a factor of 2 of that of $name', ({ kt, noLoad, mass }) => {
    expect(Math.abs(Math.log(MOTOR_RULES['outrunner-no-load-current'].law([kt, mass]) / noLoad))).toBeLessThan(Math.log(2));
  });
});
