/**
 * The run goes on into the stop: everything unplugged and standing still, what a thermometer would read, and what it cannot reach.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { byBody } from '../../heat/heat-paths.js';
import { followThermometer, THERMOMETER_PLACES, thermometerSource } from '../../heat/thermometer.js';
import { createKernel } from '../../kernel/kernel.js';
import { integrate } from '../../numerics/integrate.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import { ZERO_CELSIUS } from '../../quantities/index.js';
import {
  type AfterStopResult,
  STOP_BODIES,
  STOP_THERMOMETERS,
  type StopBody,
  type StopReading,
  type StopShown,
  type StopThermometer,
} from '../../results/after-stop-result.js';
import { BODY_CHANNEL } from '../../results/channels.js';
import { recordingOf, type Simulation } from '../simulate/simulate.js';
import { stopBodies } from '../simulate/stop-bodies.js';

const READ_AT = [0, 30, 60, 120, 300];
const LONGEST = 600;
/** Close together where the curves bend, then every ten seconds. */
const TIMES = [...Array.from({ length: 30 }, (_, k) => 2 * k), ...Array.from({ length: 55 }, (_, k) => 60 + 10 * k)];

export interface CooledDown {
  /** Time after the stop [s]. */
  readonly after: number;
  /** Temperatures [K]. */
  readonly bodies: Record<StopBody, number>;
}

/**
 * Bodies at `times` [s, rising] after the stop, from the state a run ended in: unplugged, the vehicle standing. Nothing where what burnt out glows
 * beyond the laws of air.
 */
export function coolDown(system: DriveSystem, state: Float64Array, times: readonly number[], relative = 1e-8): CooledDown[] | undefined {
  // unplugged: what else hangs on the pack would go on draining it
  const kernel = createKernel({ ...system, otherLoads: 0, controller: { ...system.controller, idleCurrent: 0 } });
  const y = Float64Array.from(state);
  const n = kernel.dimension;
  y[kernel.at.speed] = 0;
  kernel.begin({ duration: LONGEST, hold: 'throttle', value: { from: 0, to: 0 } }, 0, false);
  // a standing vehicle stays: a held speed of 0 in every evaluation
  const ode = {
    dimension: n,
    eventCount: 0,
    derivative: (t: number, s: Float64Array, ds: Float64Array): void => {
      kernel.derivative(t, s, ds);
      ds[kernel.at.speed] = 0;
    },
  };
  const absolute = new Float64Array(n).fill(Math.min(1e-4, 100 * relative));
  const rows: CooledDown[] = [];
  // one way through the whole stop; what was asked for is read from its dense output
  const row = (after: number, bodies: Float64Array): void => void rows.push({ after, bodies: stopBodies(system, kernel.at, bodies) });
  const between = new Float64Array(n);
  const reached = (until: number, at: (t: number, into: Float64Array) => void): void => {
    for (let next = times[rows.length]; next <= until; next = times[rows.length]) {
      at(next, between);
      row(next, between);
    }
  };
  reached(0, (_, into) => into.set(y));
  try {
    const last = times.at(-1) ?? 0;
    integrate(ode, 'dormand-prince', { relative, absolute }, 0, y, last, (step) => reached(step.to, step.at));
  } catch (error) {
    if (error instanceof IntegrationFailure) return undefined;
    throw error;
  }
  return rows;
}

const ASKED = 60 + ZERO_CELSIUS;
const MINUTE = 60;
/** Less than this over the air tells nothing [K]. */
const LEAST_SHOWN = 0.5;

/** A thermometer through the last lags of the run and through the stop, from the recorded trace. */
function shownBy(id: StopThermometer, system: DriveSystem, simulation: Simulation, rows: readonly CooledDown[]): StopShown {
  const place = THERMOMETER_PLACES[id];
  const { capacity } = system.heat;
  const air = system.surroundings.motorAirTemperature;
  const { time: end } = simulation;
  const { trace } = recordingOf(simulation);
  const history = trace.time.flatMap((t, k) => {
    if (t < end - 5 * place.lag || t >= end) return [];
    const at = byBody((body) => trace[BODY_CHANNEL[body]][k]);
    const speed = 0.5 * system.motor.canDiameter * trace.shaftSpeed[k];
    return [{ t, excess: thermometerSource(place, capacity, { ...at, end: at.can }) - air, speed }];
  });
  const stopped = rows.map(({ after, bodies }) => ({ t: end + after, excess: thermometerSource(place, capacity, bodies) - air, speed: 0 }));
  const reading = followThermometer(place, [...history, ...stopped])
    .slice(history.length)
    .map((theta) => air + theta);
  const minute = rows.findIndex(({ after }) => after === MINUTE);
  const shows = reading[minute] - air;
  if (!(shows > LEAST_SHOWN)) return { reading };
  return { reading, at60: { winding: air + ((rows[minute].bodies.winding - air) / shows) * (ASKED - air) } };
}

/** What `run` tabulates after the stop; nothing after a run that failed, or that burnt out so hot that no law follows it. */
export function afterStop(system: DriveSystem, simulation: Simulation): AfterStopResult | undefined {
  if (simulation.end === 'failed') return undefined;
  const rows = coolDown(system, simulation.state, TIMES);
  if (rows === undefined) return undefined;
  const readings: StopReading[] = rows.filter((row) => READ_AT.includes(row.after)).map(({ after, bodies }) => ({ after, ...bodies }));
  const later = Object.fromEntries(
    STOP_BODIES.map((body) => {
      const best = rows.reduce((a, b) => (b.bodies[body] > a.bodies[body] ? b : a));
      return [body, { value: best.bodies[body], after: best.after }];
    }),
  ) as AfterStopResult['later'];
  const thermometers = {} as Record<StopThermometer, StopShown>;
  for (const place of STOP_THERMOMETERS) thermometers[place] = shownBy(place, system, simulation, rows);
  const { windingTemperature } = simulation.highest;
  const hotter = later.winding.value > windingTemperature.value;
  return {
    stoppedAt: simulation.time,
    readings,
    later,
    hiddenPeak: hotter ? { value: later.winding.value, time: simulation.time + later.winding.after } : windingTemperature,
    thermometers,
    trace: {
      after: TIMES,
      ...(Object.fromEntries(STOP_BODIES.map((body) => [body, rows.map((row) => row.bodies[body])])) as Record<StopBody, number[]>),
    },
  };
}
