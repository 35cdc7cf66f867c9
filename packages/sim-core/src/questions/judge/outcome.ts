/** One of many runs of a candidate, under a draw: how it stands to its limits and in the ranking, without traces. @module */

import { type ProfileStep, profileDuration } from '../../drive/profile.js';
import type { Objective } from '../../provenance/given.js';
import { type Draw, NOMINAL, realise } from '../../provenance/realise.js';
import { fallsShort, greatestLack } from '../../results/finding.js';
import type { LimitResult } from '../../results/limit-result.js';
import { OBJECTIVE, type ObjectiveFigures, objectiveOf } from '../../results/objectives.js';
import type { RunInput } from '../candidate.js';
import { type Simulation, simulate } from '../simulate/simulate.js';
import { type Watch, watchSystem } from '../simulate/watch.js';
import { lastingOf, limitsOf, meetsLimits } from './limits-check.js';
import type { Standing } from './rank.js';
import { fits, spaceRoom } from './space.js';

export interface Outcome {
  readonly standing: Standing;
  /** In order of closeness; the first binds. */
  readonly limits: readonly LimitResult[];
  readonly simulation: Simulation;
  /** What instruments show, where that was watched. */
  readonly series?: Float64Array;
  /** What objectives are read from; the time is that of the run where it was not asked how long the pack lasts. */
  readonly figures: ObjectiveFigures;
}

/** Runs `input` once over `profile` with the fast stepper; peaks are good to about 0.02 K at the tolerance used. */
export function outcomeOf(
  input: Pick<RunInput, 'given' | 'data'>,
  profile: readonly ProfileStep[],
  objective: Objective,
  draw: Draw = NOMINAL,
  relative = 1e-3,
  watch?: Pick<Watch, 'ids' | 'times'>,
): Outcome {
  const system = realise(input.data, draw);
  const options = { method: 'dormand-prince', relative, record: false } as const;
  const watched = watch === undefined ? undefined : watchSystem(system, watch);
  const simulation = simulate(system, profile, watched === undefined ? options : { ...options, watch: watched.watch });
  const { reserve, runTime } = system.limits;
  const again = OBJECTIVE[objective].figure === 'time' || runTime > 0 ? simulate(system, profile, { ...options, again: true }) : undefined;
  const time = again === undefined ? simulation.time : lastingOf(again, reserve);
  const limits = limitsOf(simulation, input.data, time);
  const winding = simulation.highest.windingTemperature.value;
  const lost = simulation.lost.filter(fallsShort).length;
  const figures = { winding, time, topSpeed: simulation.highest.vehicleSpeed.value, mass: system.motor.mass };
  return {
    standing: {
      fits: fits(spaceRoom(input.given, system)),
      feasible: meetsLimits(simulation, limits),
      holds: lost === 0,
      driven: simulation.time / profileDuration(profile),
      failures: limits.filter(({ passed }) => passed !== undefined).length + lost,
      lack: greatestLack(simulation.lost),
      objective: objectiveOf(figures, objective),
      winding,
    },
    limits,
    simulation,
    figures,
    ...(watched === undefined ? {} : { series: watched.series() }),
  };
}
