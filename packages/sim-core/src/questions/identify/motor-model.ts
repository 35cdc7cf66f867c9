/**
 * A motor on a bench by the project's own laws, its constants unknown: what the instruments must read at steady points.
 *
 *   (1) i = (M + M_0 + m_1·ω)/k,  M the torque that was read, else c_p·ω² of propeller p, else 0 of a bare shaft
 *   (2) v = R_T·i + k·ω + V_t                       (3) u = v + X·i, or √(v² + (X·i)²) sinusoidal; X of parts/motor.ts
 *   (4) d·V = u where the duty d is known           (5) i_b = v·i/V + k_s·i + I_0 + κ/L·V·(d·(1 − d))², d = u/V where it is not
 *   (6) T = a_p·ω²                                  (7) R_T = R·[1 + α·(T_w − T_R)], T_w read, else the one that holds all along: T_R
 *
 * Each instrument's gain is an unknown too; it divides what the laws say, since a gain on what was read would make its scatter small. Residuals of (1) motor current, (4), (5), torque and thrust stand over what the scatter of all
 * that is read in them amounts to, to first order. Constants are k·e^z and the like, begun from the rows; before the rows next to nothing is
 * said of k, R, M_0, m_1, c_p, a_p, and of L, κ and I_0 what the rules say. Residuals of one row are made independent by the triangle of their covariance.
 * *Holds for* steady points, one temperature all along where none was read; friction, iron and drag as M_0 + m_1·ω.
 * *Leaves out* timing advance, saturation. *Source* parts/motor.ts, parts/controller.ts.
 * @module
 */

import { bridgeVoltage } from '../../drive/electrical-chain.js';
import { inverseOfLower } from '../../numerics/independent.js';
import type { FitProblem } from '../../numerics/least-squares.js';
import { deadTimeDrop, switchingShare } from '../../parts/controller.js';
import { RULES, type RuleId } from '../../provenance/rules/rules.js';
import { deviationOf, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { BenchRows } from './bench-rows.js';
import { type InstrumentId, type Instruments, scatterOf } from './instruments.js';
import { type Starts, startsOf } from './motor-starts.js';

export interface MotorUnknown {
  readonly key: string;
  readonly words: string;
  /** At z = 0 [SI], and deviation of its logarithm (of a gain: of itself) before the data. */
  readonly start: number;
  readonly deviation: number;
  readonly kind: 'constant' | 'rule' | 'gain';
}

export interface BenchSetup {
  readonly polePairs: number;
  readonly sinusoidal: boolean;
  readonly instruments: Instruments;
  /** T_R [K] — temperature that R is told at. */
  readonly windingTemperature: number;
  /** The controller as far as it is known; one of which nothing is said unless given. */
  readonly controller?: Readonly<Record<keyof typeof USUAL_CONTROLLER, number>>;
}

/** A controller of which nothing is said [SI]. */
const USUAL_CONTROLLER = {
  pathResistance: RULES['path-resistance'].value,
  switchingTime: RULES['switching-time'].value,
  pwmFrequency: RULES['pwm-frequency'].value,
  deadTime: RULES['dead-time'].value,
  deadTimeDrop: RULES['dead-time-drop'].value,
  idleCurrent: RULES['idle-current'].value,
  rippleConstant: RULES['ripple-constant'].value,
} as const;

const COPPER = RULES['copper-coefficient'].value;
/** How far a rule is off: standard deviation of the logarithm [1]. */
function ruleDeviation(id: RuleId): number {
  const { common } = RULES[id];
  if (typeof common === 'function') throw new Error(`The rule ${id} has no one doubt.`);
  return deviationOf(common);
}
/** The controller's path, which a bench cannot tell from the winding [Ω], and the standard deviation of its logarithm. */
export const USUAL_PATH = { resistance: USUAL_CONTROLLER.pathResistance, deviation: ruleDeviation('path-resistance') } as const;

export interface MotorModel extends FitProblem {
  readonly list: readonly MotorUnknown[];
  /** Values [SI] at deviates z, in the order of `list`. */
  readonly values: (z: ArrayLike<number>) => Float64Array;
  /** Which row and which reading each residual is of. */
  readonly rowOf: Int32Array;
  readonly readingOf: readonly Reading[];
  /** Takes the scatter of the residuals anew, at deviates z. */
  readonly weigh: (z: ArrayLike<number>) => void;
  /** What the laws say of each reading [SI], beside what was read. */
  readonly compared: (
    z: ArrayLike<number>,
  ) => readonly { readonly reading: Reading; readonly row: number; readonly read: number; readonly law: number }[];
}
export type Reading = 'voltage' | 'current' | 'motorCurrent' | 'torque' | 'thrust';
/** In the order of the channels of the fit. */
export const READINGS: readonly Reading[] = ['voltage', 'current', 'motorCurrent', 'torque', 'thrust'];

/** Readings that stand in more than one residual. */
const SHARED = ['voltage', 'current', 'speed', 'torque'] as const;

/** What one row says, by its own laws. */
interface RowLaws {
  readonly current: number;
  readonly bridge: number;
  readonly busCurrent: number;
}

/** Rows of one bench with the numbers to begin from. */
export function motorModel(rows: BenchRows, setup: BenchSetup, starts: Starts = startsOf(rows)): MotorModel {
  const { read, propellers } = rows;
  const { controller = USUAL_CONTROLLER } = setup;
  const torqueRead = read.torque;
  const count = rows.time.length;
  const list: MotorUnknown[] = [];
  const at = (unknown: MotorUnknown): number => list.push(unknown) - 1;
  const constant = (key: string, words: string, start: number, deviation: number): number =>
    at({ key, words, start, deviation, kind: 'constant' });
  const k = constant('kt', 'torque constant', starts.torqueConstant, 0.5);
  const r = constant('resistance', 'resistance of winding, leads and controller', starts.resistance, 1.5);
  const constantLoss = constant('constantLoss', 'loss torque that does not depend on speed', starts.lossTorque, 1.5);
  const speedLoss = constant('speedLoss', 'loss torque that grows with speed', starts.lossTorque / starts.topSpeed, 1.5);
  const c = propellers.map((name, p) => constant(`torque:${name}`, `torque of ${name}`, starts.torque[p], 0.7));
  const thrust = propellers.map((name, p) =>
    read.thrust === undefined ? -1 : constant(`thrust:${name}`, `thrust of ${name}`, starts.thrust[p], 0.7),
  );
  const l = at({
    key: 'inductanceTime',
    words: 'inductance over resistance',
    start: RULES['inductance-time'].value,
    deviation: ruleDeviation('inductance-time'),
    kind: 'rule',
  });
  const kappa = at({
    key: 'ripple',
    words: 'loss of the current ripple',
    start: controller.rippleConstant,
    deviation: ruleDeviation('ripple-constant'),
    kind: 'rule',
  });
  const idle = at({
    key: 'idle',
    words: 'current of the controller itself',
    start: controller.idleCurrent,
    deviation: ruleDeviation('idle-current'),
    kind: 'rule',
  });
  const gains = new Map<InstrumentId, number>();
  for (const id of Object.keys(read) as InstrumentId[]) {
    const { words, gain } = setup.instruments[id];
    gains.set(
      id,
      at({ key: `gain:${id}`, words: `gain of the ${words}`, start: 1, deviation: gain / STANDARD_DEVIATIONS_95, kind: 'gain' }),
    );
  }
  const values = (z: ArrayLike<number>): Float64Array =>
    Float64Array.from(list, ({ start, deviation, kind }, j) =>
      kind === 'gain' ? 1 + deviation * z[j] : start * Math.exp(deviation * z[j]),
    );

  const drop = deadTimeDrop(controller);
  const switching = switchingShare(controller);
  const share = (setup.sinusoidal ? 1 : 3 / (2 * Math.PI)) * setup.polePairs;
  const gainOf = (x: Float64Array, id: InstrumentId): number => {
    const j = gains.get(id);
    return j === undefined ? 1 : x[j];
  };
  const law = (x: Float64Array, row: number, voltage: number, speed: number, torque: number): RowLaws => {
    const p = rows.propeller[row];
    const shaft = torqueRead !== undefined && !Number.isNaN(torque) ? torque : p < 0 ? 0 : x[c[p]] * speed * speed;
    const current = (shaft + x[constantLoss] + x[speedLoss] * speed) / x[k];
    const warm = rows.winding[row];
    const resistance = Number.isNaN(warm) ? x[r] : x[r] * (1 + COPPER * (warm - setup.windingTemperature));
    const inductance = x[l] * x[r];
    const v = resistance * current + x[k] * speed + drop;
    const bridge = bridgeVoltage(setup.sinusoidal, v, share * inductance * speed * current);
    const duty = rows.duty[row];
    const d = Math.min(1, Number.isNaN(duty) ? bridge / voltage : duty);
    const ripple = d * (1 - d);
    const busCurrent = (v * current) / voltage + switching * current + x[idle] + (x[kappa] / inductance) * voltage * ripple * ripple;
    return { current, bridge, busCurrent };
  };

  // one channel a reading; rows of each in time order
  const channels: number[] = [];
  const readingOf: Reading[] = [];
  const rowList: number[] = [];
  for (const reading of READINGS) {
    channels.push(readingOf.length);
    for (let row = 0; row < count; row++) {
      const told = reading === 'voltage' ? rows.duty[row] : (read[reading]?.[row] ?? Number.NaN);
      const p = rows.propeller[row];
      const of = (reading === 'thrust' || reading === 'torque') && p < 0 ? Number.NaN : told;
      if (Number.isNaN(of)) continue;
      readingOf.push(reading);
      rowList.push(row);
    }
  }
  const rowOf = Int32Array.from(rowList);

  /** Read less law of residual `i` [V, A, A, N·m, N]; `shift` moves one of the readings. */
  const value = (id: InstrumentId, row: number): number => read[id]?.[row] ?? Number.NaN;
  const pair = (
    x: Float64Array,
    i: number,
    volts: number,
    amps: number,
    speed: number,
    torque: number,
  ): readonly [read: number, law: number] => {
    const row = rowOf[i];
    const p = rows.propeller[row];
    const [v, w] = [volts * gainOf(x, 'voltage'), speed * gainOf(x, 'speed')];
    const m = torque * gainOf(x, 'torque');
    switch (readingOf[i]) {
      case 'voltage':
        return [rows.duty[row] * volts, law(x, row, v, w, m).bridge / gainOf(x, 'voltage')];
      case 'current':
        return [amps, law(x, row, v, w, m).busCurrent / gainOf(x, 'current')];
      case 'motorCurrent':
        return [value('motorCurrent', row), law(x, row, v, w, m).current / gainOf(x, 'motorCurrent')];
      case 'torque':
        return [torque, (x[c[p]] * w * w) / gainOf(x, 'torque')];
      case 'thrust':
        return [value('thrust', row), (x[thrust[p]] * w * w) / gainOf(x, 'thrust')];
    }
  };
  const asRead = (x: Float64Array, i: number): readonly [number, number] => {
    const row = rowOf[i];
    return pair(x, i, value('voltage', row), value('current', row), value('speed', row), value('torque', row));
  };

  // residuals of one row share its readings: each is freed of what those before it tell of it, and stands over what scatter is then left
  const sharesOf = Array.from({ length: count }, (): number[] => []);
  for (let i = 0; i < rowOf.length; i++) sharesOf[rowOf[i]].push(i);
  const inverses: number[][] = sharesOf.map(() => []);
  const weigh = (z: ArrayLike<number>): void => {
    const x = values(z);
    for (let row = 0; row < count; row++) {
      const parts = sharesOf[row];
      const base: readonly [number, number, number, number] = [
        value('voltage', row),
        value('current', row),
        value('speed', row),
        value('torque', row),
      ];
      const off = (i: number, moved: readonly [number, number, number, number]): number => {
        const [a, b] = pair(x, i, ...moved);
        return a - b;
      };
      const rest = parts.map((i) => off(i, base));
      const covariance = parts.map((i) => {
        const own = readingOf[i];
        const alone = own === 'motorCurrent' || own === 'thrust' ? scatterOf(setup.instruments[own], value(own, row)) ** 2 : 0;
        return parts.map((j) => (i === j ? alone : 0));
      });
      SHARED.forEach((id, m) => {
        if (Number.isNaN(base[m])) return;
        const moved: [number, number, number, number] = [...base];
        moved[m] += scatterOf(setup.instruments[id], base[m]);
        const step = parts.map((i, a) => off(i, moved) - rest[a]);
        for (let a = 0; a < parts.length; a++) for (let b = 0; b < parts.length; b++) covariance[a][b] += step[a] * step[b];
      });
      inverses[row] = inverseOfLower(covariance);
    }
  };
  weigh(new Float64Array(list.length));
  const off = new Float64Array(rowOf.length);
  return {
    unknowns: list.length,
    count: rowOf.length,
    channels,
    list,
    values,
    rowOf,
    readingOf,
    residuals: (z, out) => {
      const x = values(z);
      for (let i = 0; i < out.length; i++) {
        const [a, b] = asRead(x, i);
        off[i] = a - b;
      }
      for (let row = 0; row < count; row++) {
        const parts = sharesOf[row];
        const inverse = inverses[row];
        for (let a = 0, at = 0; a < parts.length; a++) {
          let sum = 0;
          for (let b = 0; b <= a; b++) sum += inverse[at++] * off[parts[b]];
          out[parts[a]] = sum;
        }
      }
    },
    weigh,
    compared: (z) => {
      const x = values(z);
      return Array.from(rowOf, (row, i) => {
        const [a, b] = asRead(x, i);
        return { reading: readingOf[i], row, read: a, law: b };
      });
    },
  };
}
