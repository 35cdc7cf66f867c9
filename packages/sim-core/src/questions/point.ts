/** The steady operating point of one candidate: full pack as the scenario starts it, starting temperatures. @module */

import type { DriveSystem } from '../drive/drive-system.js';
import { POWER_TERM_IDS, type PowerAccount, type PowerTerm } from '../drive/power-terms.js';
import { type Held, stepOfParts } from '../drive/profile.js';
import { EVENT_PLACE, KERNEL_EVENTS } from '../kernel/event-margins.js';
import { createKernel } from '../kernel/kernel.js';
import { standardDeviation } from '../numerics/quantiles.js';
import { realise, realiser } from '../provenance/realise.js';
import { STANDARD_DEVIATIONS_95 } from '../quantities/index.js';
import { CHANNEL_IDS, type ChannelId } from '../results/channels.js';
import type { Equilibrium } from '../results/equilibrium-result.js';
import { POINT_FIGURE_IDS, type PointBand, type PointFigureId } from '../results/point-figures.js';
import type { RunInput } from './candidate.js';
import { band } from './doubt/columns.js';
import { type DoubtPlan, deviatesOf } from './doubt/plan.js';
import { pointFigures } from './point-figures.js';
import { equilibriumAt } from './rate/equilibrium.js';
import { observe } from './simulate/observe.js';

/** No vehicle is faster [m/s]. */
const FASTEST = 512;

/** What is held, and the vehicle's speed beside it. */
export interface PointAsk {
  readonly hold: Held;
  /** The held value [1, m/s, rad/s, W, A or N, as `hold` says]. */
  readonly value: number;
  /** The vehicle's speed [m/s]; left out, it takes the one at which its drag is met. Who holds the motor's speed holds that of its wheels. */
  readonly vehicleSpeed?: number;
}

/** One candidate’s steady point. */
export interface PointResult {
  readonly name: string;
  readonly channels: Readonly<Record<ChannelId, number>>;
  readonly powers: PowerAccount;
  /** What is made of them; NaN where a figure has no meaning here. */
  readonly figures: Readonly<Record<PointFigureId, number>>;
  /** How sure each is, where draws were asked for. */
  readonly bands?:
    | undefined
    | {
        readonly channels: Readonly<Record<ChannelId, PointBand>>;
        readonly powers: Readonly<Record<PowerTerm, PointBand>>;
        readonly figures: Readonly<Record<PointFigureId, PointBand>>;
      };
  /** False where the demand is out of reach and full throttle stands in. */
  readonly reached: boolean;
  /** This throttle held for ever, at the vehicle's speed that was set where one was, the pack at its starting charge; `none` where the heat finds no equilibrium. */
  readonly settled?: Equilibrium | 'none';
}

export function steadyPoint(input: RunInput, ask: PointAsk): PointResult {
  const system = realise(input.data);
  const { stalled, set, ...point } = pointOf(system, ask);
  const found = { name: input.name, ...point };
  const { throttle } = point.channels;
  // a drive that is off or held fast settles at nothing a person asks for
  if (!(throttle > 0) || stalled) return found;
  // a speed that is set is kept, also where the drive would not settle at it
  return { ...found, settled: equilibriumAt(system, throttle, system.start.charge, point.reached ? set : undefined) ?? 'none' };
}

/** The point with its bands, from the draws of `plan` over this candidate's data. */
export function pointWithBands(input: RunInput, ask: PointAsk, plan: DoubtPlan): PointResult {
  const systemOf = realiser(input.data);
  const points = Array.from({ length: plan.samples }, (_, index) => {
    const deviates = deviatesOf(plan, index);
    return pointOf(
      systemOf((key) => deviates.get(key) ?? 0),
      ask,
    );
  });
  const bands = <K extends string>(of: (point: (typeof points)[number]) => Readonly<Record<K, number>>, ids: readonly K[]) =>
    Object.fromEntries(ids.map((id) => [id, bandOf(points.map((point) => of(point)[id]))])) as Record<K, PointBand>;
  return {
    ...steadyPoint(input, ask),
    bands: {
      channels: bands(({ channels }) => channels, CHANNEL_IDS),
      powers: bands(({ powers }) => powers, POWER_TERM_IDS),
      figures: bands(({ figures }) => figures, POINT_FIGURE_IDS),
    },
  };
}

/** Of the draws in which the figure has a meaning; one alone is no band. */
function bandOf(values: readonly number[]): PointBand {
  const known = values.filter(Number.isFinite);
  if (known.length < 2) return { p05: Number.NaN, p95: Number.NaN, halfWidth: Number.NaN };
  const { p05, p95 } = band(known);
  return { p05, p95, halfWidth: STANDARD_DEVIATIONS_95 * standardDeviation(known) };
}

/** Of a system, whatever it was made of. */
export function pointOf(system: DriveSystem, ask: PointAsk) {
  const { load, gearbox } = system;
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const { speed } = kernel.at;
  const step = stepOfParts({ duration: 1, hold: ask.hold, value: { from: ask.value, to: ask.value } });
  kernel.begin(step, 0, false);
  const at = (v: number): number => {
    y[speed] = v;
    kernel.solve(0, y);
    return kernel.point.acceleration;
  };
  /** To the steady speed, where the vehicle no longer accelerates. */
  const settle = (): void => {
    let [low, high] = [0, FASTEST];
    if (at(0) <= 0) return;
    for (let k = 0; k < 60; k++) {
      const middle = 0.5 * (low + high);
      if (at(middle) > 0) low = middle;
      else high = middle;
    }
    at(0.5 * (low + high));
  };
  // a wheel ties the shaft to the ground
  const tied = ask.hold === 'shaftSpeed' && load.kind === 'wheel' ? (ask.value * load.radius) / gearbox.ratio : undefined;
  const set = tied ?? ask.vehicleSpeed;
  if (set === undefined) settle();
  else at(set);
  // beyond full throttle, or past what the controller lets through
  const margins = new Float64Array(KERNEL_EVENTS.length);
  kernel.margins(0, y, margins);
  const reached = ask.hold === 'throttle' || margins[EVENT_PLACE.holdLost] >= 0;
  if (!reached) {
    kernel.begin(step, 0, true);
    if (ask.hold === 'vehicleSpeed' || tied !== undefined) settle();
    else kernel.solve(0, y);
  }
  const channels = observe(kernel, 0, y);
  const powers = { ...kernel.powers(y) };
  return { channels, powers, figures: pointFigures(system, channels, powers), reached, set, stalled: kernel.point.stalled };
}
