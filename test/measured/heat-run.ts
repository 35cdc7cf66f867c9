/**
 * A measured run of one outrunner on a static stand — driven, cut, left to cool — set against the heat network that our rules make from its size.
 *
 *   (1) heat of motor and controller = supply voltage·(current − what flows at rest) − torque·speed
 *   (2) the controller keeps its share; of the rest the winding gets the copper's share, the iron what is left
 *   (3) the probe is a thermometer beside the coils, heat/thermometer.ts: a share of the motor's mean excess, late, less in a stream
 *   (4) slipstream: v_i = figure of merit·shaft power/thrust, FM = 0.65 (common practice, no published source)
 *   (5) size: mass = torque/(3.6 N·m/kg), density of the whole 3200 kg/m³, length half the diameter (common practice, no published source)
 *
 * Every temperature is at the start what the probe says over its share: the motor had rested. *Holds for* a motor of which no more is known than this.
 */
import { heatNetwork, surfaceOutlets } from '../../packages/sim-core/src/heat/heat-network.js';
import type { HeatPaths } from '../../packages/sim-core/src/heat/heat-paths.js';
import { emptyHeatOutlets } from '../../packages/sim-core/src/heat/heat-ways.js';
import { THERMOMETER_PLACES, thermometerAfter, thermometerShare } from '../../packages/sim-core/src/heat/thermometer.js';
import { dormandPrinceWorkspace } from '../../packages/sim-core/src/numerics/dormand-prince.js';
import { integrate } from '../../packages/sim-core/src/numerics/integrate.js';
import { IntegrationFailure } from '../../packages/sim-core/src/numerics/integration-failure.js';
import type { OdeSystem } from '../../packages/sim-core/src/numerics/ode-system.js';
import { type Draw, realiser } from '../../packages/sim-core/src/provenance/realise.js';
import { unknownsOf } from '../../packages/sim-core/src/provenance/unknowns.js';
import { RPM, STANDARD_DEVIATIONS_95, ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';
import { rowsOf } from '../checks/csv-rows.js';

/** Means over `spacing` [s]; SI, temperatures in K. */
export interface MeasuredRun {
  readonly spacing: number;
  readonly electrical: Float64Array;
  readonly torque: Float64Array;
  readonly speed: Float64Array;
  readonly thrust: Float64Array;
  readonly probe: Float64Array;
  readonly air: Float64Array;
}

const COLUMNS = ['t_s', 'supply_V', 'supply_A', 'rpm', 'torque_Nm', 'thrust_N', 'probe_degC', 'ambient_degC'] as const;

/** Reads a table of one run; throws RangeError where a column is missing or a value is no number. */
export const readRun = (text: string): MeasuredRun => runOf(rowsOf(text));

/** Reads a table whose column `run` tells several runs apart; throws RangeError as above. */
export function readRuns(text: string): Map<string, MeasuredRun> {
  const named = new Map<string, ReturnType<typeof rowsOf>[number][]>();
  for (const row of rowsOf(text)) named.set(row.run, [...(named.get(row.run) ?? []), row]);
  return new Map([...named].map(([run, rows]) => [run, runOf(rows)]));
}

function runOf(rows: ReturnType<typeof rowsOf>): MeasuredRun {
  const named = Object.keys(rows[0] ?? {});
  const columns = COLUMNS.map((name) => {
    if (!named.includes(name)) throw new RangeError(`The table needs a column ${name}; it has ${named.join(', ')}.`);
    return Float64Array.from(rows, (row) => Number(row[name]));
  });
  if (columns.some((column) => column.some((value) => !Number.isFinite(value)))) throw new RangeError('A value in the table is no number.');
  const [time, voltage, current, rpm, torque, thrust, probe, ambient] = columns;
  return {
    spacing: time[1] - time[0],
    electrical: voltage.map((v, k) => v * current[k]),
    torque,
    speed: rpm.map((value) => value * RPM),
    thrust,
    probe: probe.map((value) => value + ZERO_CELSIUS),
    air: ambient.map((value) => value + ZERO_CELSIUS),
  };
}

/** Number of the first sample after the cut: from there on the shaft stands. */
export function cutOf({ speed }: MeasuredRun): number {
  let k = speed.length;
  while (k > 0 && speed[k - 1] === 0) k--;
  return k;
}

const MASS_PER_TORQUE = 0.28;
const DENSITY = 3200;
const LENGTH_PER_DIAMETER = 0.5;

export interface Size {
  readonly mass: number;
  readonly diameter: number;
  readonly length: number;
}

/** (5) What a person would write of this motor, with how far each may be off. */
export function sizeOf(run: MeasuredRun): Size {
  const mass = MASS_PER_TORQUE * Math.max(...run.torque);
  const diameter = Math.cbrt(mass / (DENSITY * 0.25 * Math.PI * LENGTH_PER_DIAMETER));
  return { mass, diameter, length: LENGTH_PER_DIAMETER * diameter };
}

function scenarioText(run: MeasuredRun, size: Size | undefined): string {
  const { mass, diameter, length } = size ?? sizeOf(run);
  const off = size === undefined ? { mass: '60 %', diameter: '12 %', length: '25 %' } : { mass: '5 %', diameter: '2 %', length: '5 %' };
  const mm = (metres: number): string => `${(1000 * metres).toFixed(1)} mm`;
  return `title: A measured run
battery: { chemistry: lithium-polymer, cells: { series: 12, parallel: 1 }, capacity: 10 Ah, cell_resistance: 2 mohm, mass: 2.5 kg }
start: { charge: 50 %, temperature: 25 °C }
controller: { path_resistance: 3 mohm, idle_current: 0.1 A }
propeller: { kind: blade-element, family: thin, diameter: 700 mm, pitch: 230 mm, blades: 2 }
profile: [{ for: 10 s, throttle: 50 % }]
objective: coolest
candidates:
  - name: Measured
    motor:
      layout: outrunner
      kv: 100 rpm/V
      resistance: 40 mohm
      no_load: [{ current: 1.5 A, voltage: 40 V }]
      poles: 28
      mass: ${(1000 * mass).toFixed(0)} g ± ${off.mass}
      can: { diameter: ${mm(diameter)} ± ${off.diameter}, length: ${mm(length)} ± ${off.length} }
      insulation_class: F
`;
}

/** One thing not known: 0 is nominal, ±1.96 its 95 % interval. */
export interface Unsure {
  readonly key: string;
  readonly words: string;
}

/** Unknowns of the measurement itself, beside those of the network. */
const OWN: readonly Unsure[] = [
  { key: 'loss', words: 'loss itself, a small difference of two large powers, ±30 %' },
  { key: 'copper', words: 'copper’s share of the motor’s loss, 75 % (54–89 %)' },
  { key: 'controller', words: 'controller’s share of all loss, 15 % (8–28 %)' },
  { key: 'share', words: 'probe’s share of the motor’s mean excess, 0.36 (0.18–0.72)' },
  { key: 'film', words: 'air’s hold on the probe at 10 m/s, 0.55 (0.14–2.2): two motors want 0.3 and 1' },
  { key: 'lag', words: 'probe’s lag, 50 s (33–76 s)' },
];
const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

export interface Model {
  readonly unknowns: readonly Unsure[];
  /** Reading of the probe [K], sample by sample, with each unknown at its deviate; NaN where the laws are left. */
  predict(deviates: ArrayLike<number>): Float64Array;
}

/** The network that the rules make of a motor of this size, driven by the run's own losses. */
export function modelOf(run: MeasuredRun, size?: Size): Model {
  const preparation = prepareScenario(new Map([['run.yaml', scenarioText(run, size)]]), 'run.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  const [{ name, data }] = preparation.prepared.candidates;
  const entries = unknownsOf([{ name, data: { heat: data.heat } }]);
  const unknowns = [...entries.map(({ key, words }) => ({ key, words })), ...OWN];
  const index = new Map(unknowns.map(({ key }, k) => [key, k]));
  const systemOf = realiser(data);
  const cut = cutOf(run);
  const rest = run.electrical[Math.min(cut + 1, run.electrical.length - 1)];
  return {
    unknowns,
    predict(deviates) {
      const z = (key: string): number => deviates[index.get(key)!] ?? 0;
      const draw: Draw = (key) => (index.has(key) ? z(key) : 0);
      const { heat } = systemOf(draw);
      const copper = logistic(Math.log(0.75 / 0.25) + 0.48 * z('copper'));
      const factor = Math.exp(0.134 * z('loss'));
      const controller = 0.15 * Math.exp(0.32 * z('controller'));
      const { share, film, lag, factor: shareFactor } = THERMOMETER_PLACES['beside-coils'];
      const twofold = Math.log(shareFactor) / STANDARD_DEVIATIONS_95;
      return follow(run, heat, rest, {
        factor,
        copper,
        controller,
        share: share * Math.exp(twofold * z('share')),
        film: film * Math.exp(0.71 * z('film')),
        lag: lag * Math.exp(0.21 * z('lag')),
      });
    },
  };
}

/** Of (4) [1]. */
const FIGURE_OF_MERIT = 0.65;

interface Shares {
  readonly factor: number;
  readonly copper: number;
  readonly controller: number;
  readonly share: number;
  readonly film: number;
  readonly lag: number;
}

/** What a step of the integration may be off [K]. */
const TOLERANCE = 1e-3;

/** The probe, sample by sample; losses and speeds stay the same within one. NaN from where the network is left. */
function follow(run: MeasuredRun, heat: HeatPaths, rest: number, { factor, copper, controller, share, film, lag }: Shares): Float64Array {
  const { spacing, probe } = run;
  const out = new Float64Array(probe.length).fill(Number.NaN);
  const outlets = emptyHeatOutlets();
  const loss = new Float64Array(6);
  const net = new Float64Array(6);
  const begin = run.air[0] + (probe[0] - run.air[0]) / share;
  const whole = new Float64Array(6).fill(begin);
  let theta = probe[0] - run.air[0];
  const capacity = [heat.capacity.winding, heat.capacity.stator, heat.capacity.can, heat.capacity.magnets];
  const together = capacity.reduce((sum, each) => sum + each, 0);
  const mean = (at: Float64Array): number => capacity.reduce((sum, each, k) => sum + each * at[k], 0) / together;
  const surroundings = {
    airTemperature: run.air[0],
    motorAirTemperature: run.air[0],
    airPressure: 101_325,
    compartmentTemperature: run.air[0],
    waterTemperature: run.air[0],
  };
  const motion = { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 };
  const bodies: OdeSystem = {
    dimension: 4,
    eventCount: 0,
    derivative(_, y, dy) {
      whole.set(y);
      surfaceOutlets(heat, surroundings, motion, whole, outlets);
      heatNetwork(heat, surroundings, motion, whole, loss, net, outlets);
      for (let k = 0; k < 4; k++) dy[k] = net[k] / capacity[k];
    },
  };
  const tolerances = { relative: 0, absolute: new Float64Array(4).fill(TOLERANCE), firstStep: spacing };
  const workspace = dormandPrinceWorkspace(4);
  const body = new Float64Array(4).fill(begin);
  for (let k = 0; k < probe.length; k++) {
    const power = run.torque[k] * run.speed[k];
    const turning = run.speed[k] > 0;
    const motor = turning ? factor * Math.max(0, run.electrical[k] - rest - power) * (1 - controller) : 0;
    loss[0] = motor * copper;
    loss[1] = motor * (1 - copper);
    surroundings.motorAirTemperature = surroundings.compartmentTemperature = run.air[k];
    motion.shaftSpeed = run.speed[k];
    motion.airSpeed = turning && run.thrust[k] > 0 ? heat.slipstreamShare * 2 * ((FIGURE_OF_MERIT * power) / run.thrust[k]) : 0;
    try {
      integrate(bodies, 'dormand-prince', tolerances, 0, body, spacing, undefined, workspace);
    } catch (error) {
      if (error instanceof IntegrationFailure) return out;
      throw error;
    }
    const taken = thermometerShare({ share, film }, 0.5 * heat.canDiameter * motion.shaftSpeed + motion.airSpeed);
    theta = thermometerAfter(theta, taken * (mean(body) - run.air[k]), lag, spacing);
    out[k] = run.air[k] + theta;
  }
  return out;
}
