/** A motor of which half is said: each number against its source. */
import type { MOTOR_RULES } from '@shaftwork/sim-core/provenance/rules/rules-motor';
import { INRUNNER, KT, OUTRUNNER } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const { resistance: _, no_load: __, ...half } = OUTRUNNER;
const { kv: ___, ...noKv } = OUTRUNNER;
const READING = { voltage: '11 V', battery_current: '12 A', shaft_speed: '8000 rpm', thrust: '8 N' };
const read = (drive: string) => ({
  motor: { ...OUTRUNNER, resistance: 'from-reading', inductance: '30 uH' },
  controller: { drive },
  propeller: { kind: 'measured-points', diameter: '9 in', points: [READING] },
});
const DRIVES = {
  bare: {},
  half: { motor: half },
  'half an inrunner': { motor: { ...half, layout: 'inrunner' } },
  inrunner: { motor: INRUNNER },
  'by generator': { motor: { ...OUTRUNNER, kv_measured: 'back-emf', resistance_at: '25 °C' } },
  'no Kv': { motor: { ...noKv, no_load: { current: '0.9 A', voltage: '10 V', speed: '9100 rpm' } } },
  'one phase': { motor: { ...OUTRUNNER, resistance_between: 'phase-and-star', inductance: '12 uH' } },
  'two points': {
    motor: {
      ...OUTRUNNER,
      no_load: [
        { current: '0.7 A', voltage: '6 V' },
        { current: '0.9 A', voltage: '10 V' },
      ],
    },
  },
  magnets: { motor: { ...OUTRUNNER, magnet_thickness: '2 mm', magnet_grade: 'M' } },
  read: read('block'),
  'read sinusoidal': read('sinusoidal'),
} as const;

const R = 96e-3;
/** By hand: 11 V and 12 A less 60 mA of the controller itself; 200 ns at 16 kHz take 0.16 % of the voltage, dead times 12.8 mV. */
const WATTS = 11 * (12 - 0.06);
const SPEED = (8000 * 2 * Math.PI) / 60;
const KS = 0.5 * 200e-9 * 16e3;
const DEAD = 0.8 * 1e-6 * 16e3;
/** Reactance of seven pole pairs, commutated in six steps and with sine currents [Ω]. */
const BLOCK = (3 / (2 * Math.PI)) * 7 * 30e-6 * SPEED;
const SINE = 7 * 30e-6 * SPEED;
/** The smaller root of X·i² − U·i + W = 0, and of (X·i²)² − (U·i)² + W² = 0. */
const blockCurrent = (11 * (1 + KS) - Math.sqrt((11 * (1 + KS)) ** 2 - 4 * BLOCK * WATTS)) / (2 * BLOCK);
const sineCurrent = Math.sqrt((11 ** 2 - Math.sqrt(11 ** 4 - 4 * SINE ** 2 * WATTS ** 2)) / (2 * SINE ** 2));
const asked = (current: number): number => (WATTS / current - KS * 11 - DEAD - KT * SPEED) / current - 4e-3;

/** Loss torques of the line through (speed, k_t·i) of both no-load points. */
const speedAt = (volts: number, amperes: number): number => (volts - amperes * R) / KT;
const SLOPE = (KT * 0.2) / (speedAt(10, 0.9) - speedAt(6, 0.7));

const SIMILAR = 'similarity, Hanselman 2003, ch. 4';
const MAKERS = 'magnet makers’ tables';

const ROWS: Record<keyof typeof MOTOR_RULES, Held<keyof typeof DRIVES>> = {
  'inrunner-resistance': { in: 'half an inrunner', is: (KT / (0.155 * 0.066 ** (5 / 6))) ** 2, off: '50 %', own: '150 %', source: SIMILAR },
  'outrunner-resistance': { in: 'half', is: (KT / (0.3 * 0.066 ** (5 / 6))) ** 2, off: '50 %', own: '150 %', source: SIMILAR },
  'inrunner-no-load-current': { in: 'half an inrunner', is: (0.055 * 0.066) / KT, off: '30 %', own: '90 %', source: PRACTICE },
  'outrunner-no-load-current': { in: 'half', is: (0.11 * 0.066) / KT, off: '30 %', own: '90 %', source: PRACTICE },
  'no-load-voltage': { in: 'half', is: 10, off: '30 %', source: PRACTICE },
  'kt-from-kv': { in: 'bare', is: KT, source: 'kt = 1/Kv' },
  // the mean of six steps of a sine about its peak is 3/π of the peak
  'kt-from-back-emf': { in: 'by generator', is: KT * (Math.PI / 3), source: 'π/3' },
  'kt-from-no-load-speed': { in: 'no Kv', is: (10 - 0.9 * R) / ((9100 * 2 * Math.PI) / 60), source: 'volts less current times resistance' },
  'resistance-at-room': { in: 'by generator', is: R / (1 + 0.00393 * 5), source: 'IEC 60028' },
  'line-from-phase': { in: 'one phase', is: 2 * R, source: 'definition' },
  'inductance-from-phase': { in: 'one phase', is: 24e-6, source: 'definition' },
  'inductance-time': { in: 'bare', is: 0.3e-3, off: '150 %', source: 'motors measured and printed' },
  'inductance-from-resistance': { in: 'bare', is: R * 0.3e-3, source: 'definition' },
  'pole-pairs': { in: 'read', is: 7, source: 'definition' },
  'resistance-from-reading': { in: 'read', is: asked(blockCurrent), own: '5 %', source: 'balance of power' },
  'resistance-from-sinusoidal-reading': { in: 'read sinusoidal', is: asked(sineCurrent), own: '5 %', source: 'balance of power' },
  'copper-coefficient': { in: 'bare', is: 0.00393, source: 'IEC 60028' },
  'flux-coefficient': { in: 'bare', is: -0.0012, off: '15 %', source: MAKERS },
  'constant-loss-share': { in: 'bare', is: 0.5, off: 0.25, source: PRACTICE },
  'friction-share': { in: 'bare', is: 0.3, off: 0.2, source: PRACTICE },
  'constant-loss-torque': { in: 'bare', is: 0.5 * KT * 0.9, source: 'kt·i0' },
  'speed-loss-torque': { in: 'bare', is: (0.5 * KT * 0.9) / speedAt(10, 0.9), source: 'kt·i0' },
  'constant-loss-from-two': { in: 'two points', is: KT * 0.7 - SLOPE * speedAt(6, 0.7), source: 'straight line' },
  'speed-loss-from-two': { in: 'two points', is: SLOPE, source: 'straight line' },
  'hysteresis-torque': { in: 'bare', is: 0.7 * 0.5 * KT * 0.9, source: 'less friction' },
  'friction-torque': { in: 'bare', is: 0.3 * 0.5 * KT * 0.9, source: 'share of the constant loss torque' },
  'no-windage': { in: 'bare', is: 0, source: PRACTICE },
  remanence: { in: 'magnets', is: 1.3, off: '4 %', source: MAKERS },
  // 14 kOe, 1 Oe = 1000/(4π) A/m
  'grade-coercivity': { in: 'magnets', is: (14e3 * 1000) / (4 * Math.PI), within: 0.001, off: '5 %', source: MAKERS },
  half: { in: 'magnets', is: 0.5 * 0.83 * 27e-3, source: 'definition' },
  'magnet-gap': { in: 'magnets', is: 0.5e-3, off: '50 %', source: PRACTICE },
  'coercivity-coefficient': { in: 'magnets', is: -0.0055, off: '20 %', source: MAKERS },
  'magnet-loss-share': { in: 'bare', is: 0.07, off: 0.04, source: PRACTICE },
  // a cylinder of 0.27 of the diameter: radius of gyration 0.27/√2 of it
  'inrunner-inertia': { in: 'inrunner', is: 0.3 * 0.066 * ((0.27 / Math.SQRT2) * 27e-3) ** 2, off: '60 %', own: '20 %', source: PRACTICE },
  'outrunner-inertia': { in: 'bare', is: 0.45 * 0.066 * (0.46 * 27e-3) ** 2, off: '40 %', own: '20 %', source: PRACTICE },
};

holdRules('rules for the motor', DRIVES, ROWS);
