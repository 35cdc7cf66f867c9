/**
 * A motor that is run warm and left to cool, its heat network driven by the losses of the run; what a thermometer on it must read.
 *
 *   (1) R·i² + (k·ω + V_t + k_s·V)·i = V·(i_b − I_0)      the motor current, by balance of power, I_0 what flows at rest; with the torque read,
 *       k·i = M + M_loss
 *   (2) losses of winding, iron and magnets by parts/motor.ts, R and k at the temperatures of the moment; with the torque read, all of them by the one
 *       factor that makes them V·i_b − M·ω
 *   (3) the network of heat/heat-network.ts, its data written out (heat-data.ts)      (4) the thermometer of heat/thermometer.ts
 *   (5) air at the motor: its share of a slipstream of 2·√(T/(2·ρ·A)) where the thrust was read, else of none
 *
 * Unknown beside the heat data: what the copper's loss is off, the thermometer's share and lag, and how warm the motor was at the start.
 * *Holds for* a log without braking; losses stay the same from row to row. *Leaves out* the controller's temperature.
 * @module
 */

import { airAtMotor } from '../../drive/air-at-motor.js';
import type { DriveSystem } from '../../drive/drive-system.js';
import { heatNetwork, surfaceOutlets, throughFlowConductance } from '../../heat/heat-network.js';
import { emptyHeatOutlets } from '../../heat/heat-ways.js';
import {
  THERMOMETER_PLACES,
  type ThermometerPlaceId,
  thermometerAfter,
  thermometerShare,
  thermometerSource,
} from '../../heat/thermometer.js';
import { dormandPrinceWorkspace } from '../../numerics/dormand-prince.js';
import { integrate } from '../../numerics/integrate.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import type { FitProblem } from '../../numerics/least-squares.js';
import type { OdeSystem } from '../../numerics/ode-system.js';
import { deadTimeDrop, switchingShare } from '../../parts/controller.js';
import { fluxRatio, ironTorque, lossTorque, torqueConstantAt, windingResistance } from '../../parts/motor.js';
import type { Data } from '../../provenance/datum.js';
import type { GivenDrive } from '../../provenance/given.js';
import { deviationOf, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import { type Begun, type HeatUnknown, heatWrittenOut } from './heat-data.js';

/** Rows of a warming and cooling run; SI, NaN where not read. */
export interface HeatRows {
  readonly time: Float64Array;
  readonly voltage: Float64Array;
  readonly current: Float64Array;
  readonly speed: Float64Array;
  readonly torque?: Float64Array;
  readonly thrust?: Float64Array;
  readonly air: Float64Array;
  readonly place: ThermometerPlaceId;
  readonly probe: Float64Array;
  /** What the ammeter shows while nothing turns: its zero and the controller's own current [A]. */
  readonly atRest?: number;
}

/** Median of the current at rest [A]; undefined where the log has fewer than three such rows. */
export function currentAtRest({ speed, current }: Pick<HeatRows, 'speed' | 'current'>): number | undefined {
  const rest = Array.from(current)
    .filter((amps, k) => speed[k] === 0 && Number.isFinite(amps))
    .sort((a, b) => a - b);
  return rest.length < 3 ? undefined : rest[Math.floor(rest.length / 2)];
}

export interface HeatModel extends FitProblem {
  readonly ways: readonly HeatUnknown[];
  /** Words of all unknowns, those of the heat data first. */
  readonly words: readonly string[];
  /** Reading of the thermometer [K], row by row. */
  readonly predict: (z: ArrayLike<number>) => Float64Array;
  /** Temperatures of winding, stator, can, magnets [K] at each row. */
  readonly bodies: (z: ArrayLike<number>) => readonly Float64Array[];
  readonly rows: HeatRows;
}

/** What network and thermometer are off by at least, one standard deviation [K]: what measured runs leave when each is fitted (docs/validation.md). */
const SCATTER = 0.5;
/** Of the logarithm: copper's loss beside what the resistance's own ± says, the lag; and the start [K]. */
const LOSS = 0.05;
const LAG = 0.3;
const START = 1;
/** Hold of the passing air on a bare junction: two motors want 0.3 and 1 of it. */
const FILM = 0.71;
const OWN = 5;
const TOLERANCE = 0.03;
/** More rows than this are put together: heat is slower. */
const MOST_ROWS = 120;

/** Means over neighbours, so that at most MOST_ROWS are left. */
export function thinned(rows: HeatRows): HeatRows {
  const count = rows.time.length;
  const size = Math.ceil(count / MOST_ROWS);
  if (size === 1) return rows;
  const mean = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: Math.ceil(count / size) }, (_, k) => {
      const part = values.subarray(k * size, Math.min(count, (k + 1) * size));
      return part.reduce((sum, each) => sum + each, 0) / part.length;
    });
  const { place, torque, thrust, atRest } = rows;
  return {
    place,
    ...(atRest === undefined ? {} : { atRest }),
    time: mean(rows.time),
    voltage: mean(rows.voltage),
    current: mean(rows.current),
    speed: mean(rows.speed),
    air: mean(rows.air),
    probe: mean(rows.probe),
    ...(torque === undefined ? {} : { torque: mean(torque) }),
    ...(thrust === undefined ? {} : { thrust: mean(thrust) }),
  };
}

const AROUND = 30;

/** What the ways begin from, at the mean of the rows that turn. */
function begunAt(rows: HeatRows): (system: DriveSystem) => Begun {
  const turning = Array.from(rows.speed.keys()).filter((k) => rows.speed[k] > 0);
  const mean = (values: ArrayLike<number>): number => turning.reduce((sum, k) => sum + values[k], 0) / turning.length;
  const speed = mean(rows.speed);
  const thrust = rows.thrust === undefined ? 0 : mean(rows.thrust);
  return ({ heat, surroundings, load }) => {
    const air = airAtMotor(heat, load, 0, thrust);
    const tip = 0.5 * heat.canDiameter * speed;
    const outlets = emptyHeatOutlets();
    const warm = surroundings.motorAirTemperature + AROUND;
    surfaceOutlets(heat, surroundings, { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 }, new Float64Array(6).fill(warm), outlets);
    const outside = heat.layout === 'outrunner' ? outlets.mount : outlets.mount + outlets.canSide + outlets.canEnds;
    return {
      heat,
      shaftSpeed: speed,
      outside: outside / AROUND,
      throughFlow: (throughFlowConductance(heat, speed, air) * tip) / (tip + air),
    };
  };
}

/** Throws RangeError where nothing turns, or where the drive's heat cannot be written out. */
export function heatModel(name: string, given: GivenDrive, data: DriveSystem<Data>, all: HeatRows): HeatModel {
  const rest = all.atRest ?? currentAtRest(all);
  const rows = thinned(rest === undefined ? all : { ...all, atRest: rest });
  const { time, probe, place } = rows;
  if (!rows.speed.some((w) => w > 0)) throw new RangeError('Nothing turns in this log: a warming run is needed.');
  const { unknowns: ways, system: systemOf } = heatWrittenOut(name, given, data, begunAt(rows));
  const thermometer = THERMOMETER_PLACES[place];
  const shareDeviation = Math.log(thermometer.factor) / STANDARD_DEVIATIONS_95;
  const lossDeviation = Math.hypot(LOSS, deviationOf(data.motor.resistance.unknown.spread));
  const count = time.length;
  const follow = (z: ArrayLike<number>, bodiesOut?: Float64Array[]): Float64Array => {
    const own = ways.length;
    return followRun(systemOf(z), rows, bodiesOut, {
      loss: Math.exp(lossDeviation * z[own]),
      share: thermometer.share * Math.exp(shareDeviation * z[own + 1]),
      lag: thermometer.lag * Math.exp(LAG * z[own + 2]),
      start: START * z[own + 3],
      film: thermometer.film * Math.exp(FILM * z[own + 4]),
    });
  };
  return {
    unknowns: ways.length + OWN,
    count,
    channels: [0],
    leastScale: 1,
    ways,
    words: [
      ...ways.map(({ way }) => way.words),
      'loss of the winding',
      'share that the thermometer takes',
      'lag of the thermometer',
      'temperature at the start',
      'hold of the air on the thermometer',
    ],
    rows,
    predict: (z) => follow(z),
    bodies: (z) => {
      const out = [0, 1, 2, 3].map(() => new Float64Array(count));
      follow(z, out);
      return out;
    },
    residuals: (z, out) => {
      const reading = follow(z);
      for (let k = 0; k < count; k++) out[k] = (reading[k] - probe[k]) / SCATTER;
    },
  };
}

interface Own {
  readonly loss: number;
  readonly share: number;
  readonly lag: number;
  readonly start: number;
  readonly film: number;
}

/** The thermometer, row by row; NaN from where the network leaves its laws. */
function followRun(system: DriveSystem, rows: HeatRows, bodiesOut: Float64Array[] | undefined, own: Own): Float64Array {
  const { heat, motor, controller, load } = system;
  const { time, probe, place } = rows;
  const thermometer = { ...THERMOMETER_PLACES[place], share: own.share, lag: own.lag, film: own.film };
  const out = new Float64Array(time.length).fill(Number.NaN);
  const outlets = emptyHeatOutlets();
  const loss = new Float64Array(6);
  const net = new Float64Array(6);
  const whole = new Float64Array(6);
  const capacity = [heat.capacity.winding, heat.capacity.stator, heat.capacity.can, heat.capacity.magnets];
  const surroundings = { ...system.surroundings };
  const motion = { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 };
  const begin = rows.air[0] + (probe[0] - rows.air[0]) / own.share + own.start;
  const body = new Float64Array(4).fill(begin);
  let theta = own.share * (begin - rows.air[0]);
  const bodies: OdeSystem = {
    dimension: 4,
    eventCount: 0,
    derivative(_, y, dy) {
      whole.set(y);
      whole[4] = whole[5] = surroundings.compartmentTemperature;
      surfaceOutlets(heat, surroundings, motion, whole, outlets);
      heatNetwork(heat, surroundings, motion, whole, loss, net, outlets);
      for (let k = 0; k < 4; k++) dy[k] = net[k] / capacity[k];
    },
  };
  const tolerances = { relative: 0, absolute: new Float64Array(4).fill(TOLERANCE) };
  const workspace = dormandPrinceWorkspace(4);
  const source = (): number =>
    thermometerSource(thermometer, heat.capacity, {
      winding: body[0],
      stator: body[1],
      can: body[2],
      magnets: body[3],
      controller: body[1],
      cells: body[1],
      end: heat.layout === 'outrunner' ? body[1] + heat.endPlace * (surroundings.motorAirTemperature - body[1]) : body[2],
    });
  for (let k = 0; k < time.length; k++) {
    surroundings.motorAirTemperature = surroundings.airTemperature = surroundings.compartmentTemperature = rows.air[k];
    motion.shaftSpeed = Math.max(0, rows.speed[k]);
    motion.airSpeed = motion.shaftSpeed > 0 ? airAtMotor(heat, load, 0, rows.thrust?.[k] ?? 0) : 0;
    writeLosses(motor, controller, rows, k, body, own.loss, loss);
    const span = k === 0 ? 0 : time[k] - time[k - 1];
    try {
      integrate(bodies, 'dormand-prince', tolerances, 0, body, span, undefined, workspace);
    } catch (error) {
      if (error instanceof IntegrationFailure) return out;
      throw error;
    }
    const passing = place === 'beside-coils' ? 0.5 * heat.canDiameter * motion.shaftSpeed + motion.airSpeed : 0;
    theta = thermometerAfter(theta, thermometerShare(thermometer, passing) * (source() - rows.air[k]), own.lag, span);
    out[k] = rows.air[k] + theta;
    if (bodiesOut !== undefined) for (let b = 0; b < 4; b++) bodiesOut[b][k] = body[b];
  }
  return out;
}

/** (1), (2) into `loss` [W]: winding, stator, can, magnets. */
function writeLosses(
  motor: DriveSystem['motor'],
  controller: DriveSystem['controller'],
  { voltage, current, speed, torque, atRest }: HeatRows,
  k: number,
  body: Float64Array,
  factor: number,
  loss: Float64Array,
): void {
  loss.fill(0);
  const w = speed[k];
  if (!(w > 0)) return;
  const flux = fluxRatio(motor, body[3]);
  const kt = torqueConstantAt(motor, body[3]);
  const resistance = windingResistance(motor, body[0]);
  const bus = voltage[k] * Math.max(0, current[k] - (atRest ?? controller.idleCurrent));
  const drop = kt * w + deadTimeDrop(controller) + switchingShare(controller) * voltage[k];
  const whole = resistance + controller.pathResistance;
  const shaft = torque?.[k];
  const read = shaft !== undefined && !Number.isNaN(shaft);
  const i = read ? Math.max(0, (shaft + lossTorque(motor, w, flux)) / kt) : (2 * bus) / (drop + Math.sqrt(drop * drop + 4 * whole * bus));
  const copper = resistance * i * i;
  const iron = ironTorque(motor, w, flux) * w;
  const friction = motor.frictionTorque * w;
  const others = controller.pathResistance * i * i + (deadTimeDrop(controller) + switchingShare(controller) * voltage[k]) * i;
  const scale = read ? Math.max(0, bus - shaft * w) / Math.max(1e-9, copper + iron + friction + others) : 1;
  loss[0] = factor * scale * copper;
  loss[1] = scale * (iron * (1 - motor.magnetLossShare) + (motor.layout === 'outrunner' ? friction : 0));
  loss[2] = motor.layout === 'outrunner' ? 0 : scale * friction;
  loss[3] = scale * iron * motor.magnetLossShare;
}
