/**
 * Constants found again from a maker's printed points: along the printed speed–torque line (no-load speed and current, gradient, torque constant) of
 * four catalogue motors, as a bench would read them, Kv and resistance must come out as printed. maxon catalogue pages: RE 35 48 V, RE 25 12 V, EC 13
 * 6 W at 6 and 12 V. Brushed or slotless machines: inductance takes no part of their printed line.
 * @module
 */
import { RPM } from '@shaftwork/sim-core/quantities';
import type { BenchRows } from '@shaftwork/sim-core/questions/identify/bench-rows';
import { identifyMotor } from '@shaftwork/sim-core/questions/identify/identify-motor';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import type { Point } from './outside/check.js';

/** V, no-load rpm and A, nominal torque mN·m, R Ω, kt mN·m/A, kn rpm/V, gradient rpm/(mN·m). */
const PRINTED = [
  ['RE 35', 48, 8490, 0.0786, 89.7, 2.45, 53.8, 178, 8.09],
  ['RE 25', 12, 4860, 0.0263, 28.6, 2.18, 23.4, 407, 37.7],
  ['EC 13 6 V', 6, 28300, 0.194, 2.2, 1.4, 1.93, 4950, 3580],
  ['EC 13 12 V', 12, 27000, 0.0905, 2.3, 5.74, 4.05, 2360, 3340],
] as const;

function identified([name, volts, n0, i0, nominal, resistance, kt, kn, gradient]: (typeof PRINTED)[number]) {
  const torques = [0, 0.5, 1, 1.5, 2].flatMap((share) => [share, share]).map((share) => share * nominal);
  const column = (of: (torque: number, k: number) => number) => Float64Array.from(torques, of);
  const rows: BenchRows = {
    time: column((_torque, k) => k),
    timed: false,
    read: {
      voltage: column(() => volts),
      current: column((torque) => i0 + torque / kt),
      speed: column((torque) => (n0 - gradient * torque) * RPM),
      torque: column((torque) => torque * 1e-3),
    },
    duty: column(() => 1),
    winding: column(() => 293.15),
    propeller: Int32Array.from(torques, () => 0),
    propellers: ['brake'],
  };
  const none = {
    pathResistance: 0,
    switchingTime: 0,
    pwmFrequency: 1,
    deadTime: 0,
    deadTimeDrop: 0,
    idleCurrent: 1e-6,
    rippleConstant: 1e-12,
  };
  // printed to three digits
  const digits = { words: 'print', gain: 1e-4, share: 2e-3, amount: 1e-9 };
  const instruments = { ...INSTRUMENTS, voltage: digits, current: digits, speed: digits, torque: digits };
  // a commutator has no overlap that lasts: as good as no inductance
  const { numbers } = identifyMotor({
    rows,
    setup: { polePairs: 1e-3, sinusoidal: false, instruments, windingTemperature: 293.15, controller: none },
    sources: ['catalogue'],
    taken: [],
    path: { resistance: 0, deviation: 0 },
  });
  const [kv, whole] = ['kv', 'whole'].map((key) => numbers.find((each) => each.key === key));
  if (kv?.told !== true || whole?.told !== true) throw new Error(`${name}: the points do not tell Kv and resistance`);
  return { name, kn, resistance, kv, whole };
}

/** Kv [rpm/V], printed to three digits; catalogue no-load speeds scatter 1–2 % about kn·(V − R·I0). */
export const identifiedKv = (): readonly Point[] =>
  PRINTED.map(identified).map(({ name, kn, kv }) => ({ at: name, theirs: kn, ours: kv.value / RPM }));
/** Resistance of the winding [Ω]. */
export const identifiedResistance = (): readonly Point[] =>
  PRINTED.map(identified).map(({ name, resistance, whole }) => ({ at: name, theirs: resistance, ours: whole.value }));
/** The lower end of the interval of Kv [rpm/V]: not above what is printed. */
export const lowEndOfKv = (): readonly Point[] =>
  PRINTED.map(identified).map(({ name, kn, kv }) => ({ at: name, theirs: kn, ours: (kv.low ?? Number.NaN) / RPM }));
