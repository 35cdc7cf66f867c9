/**
 * Motor identities and warm-up against catalogue pages of a motor maker (maxon: RE 35 48 V, RE 25 118743 12 V, EC 13 305190 and 305192): every
 * printed constant. Loaded points of EC 45 flat 50 W 18 V and 70 W 24 V (8 pole pairs, from memory) and of the EC 13 judge the law of inductance.
 * The first are brushed or slotless machines; they check identities, not hobby motors' heat. Copper: IEC 60028, IEC 60034-1.
 */
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import {
  loadedSpeed,
  noLoadSpeed,
  peakEfficiency,
  speedTorqueGradient,
  stallCurrent,
  windingResistance,
} from '@shaftwork/sim-core/parts/motor';
import { RPM, ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { describe, expect, it } from 'vitest';

/** V, no-load rpm, no-load A, nominal rpm, nominal mN·m, stall A, best efficiency %, R Ω, kt mN·m/A, kn rpm/V, gradient rpm/(mN·m); digits of the stall current. */
type Printed = readonly [name: string, ...numbers: number[]];
const CATALOGUE: readonly Printed[] = [
  ['RE 35', 48, 8490, 0.0786, 7760, 89.7, 19.6, 88, 2.45, 53.8, 178, 8.09, 3],
  ['RE 25', 12, 4860, 0.0263, 3800, 28.6, 5.5, 87, 2.18, 23.4, 407, 37.7, 2],
  ['EC 13 6 V', 6, 28300, 0.194, 20500, 2.2, 4.3, 63, 1.4, 1.93, 4950, 3580, 2],
  ['EC 13 12 V', 12, 27000, 0.0905, 19400, 2.3, 2.09, 63, 5.74, 4.05, 2360, 3340, 3],
];

const within = (value: number, printed: number, share: number): void => expect(Math.abs(value / printed - 1)).toBeLessThan(share);

describe('catalogue identities', () => {
  it.each(CATALOGUE)('%s', (...row) => {
    const [volts, n0, i0, nn, mn, stall, best, resistance, kt, kn, gradient, digits] = row.slice(1) as number[];
    const motor = { torqueConstant: kt / 1000, resistance };
    within(motor.torqueConstant * kn * RPM, 1, 0.005);
    within((speedTorqueGradient(motor) / RPM) * 1e-3, gradient, 0.01);
    within(stallCurrent(motor, volts), stall, digits === 2 ? 0.025 : 0.01);
    within(noLoadSpeed({ torqueConstant: 1 / (kn * RPM), resistance }, volts, i0) / RPM, n0, 0.011);
    expect(Math.abs(peakEfficiency(resistance, i0, volts) * 100 - best)).toBeLessThan(1.1);
    // loaded speed from no-load speed and gradient
    within(n0 - gradient * mn, nn, 0.006);
  });
});

/** V, nominal rpm, nominal mN·m, nominal A, R Ω, L mH, kt mN·m/A, no-load A, pole pairs. */
const LOADED: readonly Printed[] = [
  ['EC 45 flat 50 W', 18, 4690, 112, 3.68, 0.447, 0.243, 29.5, 0.277, 8],
  ['EC 45 flat 70 W', 24, 4750, 134, 3.29, 0.573, 0.301, 40.4, 0.27, 8],
  ['EC 13 6 V', 6, 20500, 2.2, 1.31, 1.4, 0.0206, 1.93, 0.194, 1],
  ['EC 13 12 V', 12, 19400, 2.3, 0.645, 5.74, 0.091, 4.05, 0.0905, 1],
];

describe('loaded point with the printed inductance, block drive', () => {
  it.each(LOADED)('%s: speed and current of the supply within 3 %% at the printed torque', (...row) => {
    const [volts, speed, torque, amps, resistance, inductance, kt, noLoad, polePairs] = row.slice(1) as number[];
    const motor = { torqueConstant: kt / 1000, resistance, inductance: inductance / 1000, polePairs };
    // loss torque as the no-load current says
    const current = torque / kt + noLoad;
    const at = (henries: number): readonly [number, number] => {
      const turning = loadedSpeed({ ...motor, inductance: henries }, false, volts, current);
      return [turning / RPM / speed, (current * (current * resistance + motor.torqueConstant * turning)) / volts / amps];
    };
    for (const share of at(motor.inductance)) within(share, 1, 0.03);
    // what the law is for: without it the flat windings are this much too fast
    if (polePairs > 1) for (const share of at(0)) expect(share).toBeGreaterThan(1.08);
  });
});

it('copper warms its resistance by 1.41257 from 20 to 125 °C (IEC 60034-1, 234.5 K rule; IEC 60028 α = 0.00393)', () => {
  const motor = { resistance: 1, resistanceCoefficient: 0.00393 } as Parameters<typeof windingResistance>[0];
  within(windingResistance(motor, ZERO_CELSIUS + 125), (234.5 + 125) / (234.5 + 20), 2e-4);
});

it('two-node warm-up of the RE 35, 10 W in the winding: analytic rise (values computed from the printed resistances and time constants)', () => {
  const [housing, winding, tauWinding, tauMotor] = [6, 1.7, 16.9, 593];
  const [cw, cm] = [tauWinding / winding, tauMotor / housing];
  const y = new Float64Array(2);
  const system = {
    dimension: 2,
    eventCount: 0,
    derivative: (_: number, s: Float64Array, ds: Float64Array) => {
      ds[0] = (10 - (s[0] - s[1]) / winding) / cw;
      ds[1] = ((s[0] - s[1]) / winding - s[1] / housing) / cm;
    },
  };
  let time = 0;
  for (const [until, rise] of [
    [10, 7.636],
    [60, 19.182],
    [300, 37.129],
    [600, 51.794],
    [20_000, 77.0],
  ]) {
    integrate(system, 'odex', { relative: 1e-9, absolute: new Float64Array(2).fill(1e-9) }, time, y, until);
    time = until;
    within(y[0], rise, 0.001);
  }
});
