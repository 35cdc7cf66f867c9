/** One candidate over the profile: simulation → limits, headline figures, energy account, chart data. @module */

import { type ProfileStep, profileDuration } from '../../drive/profile.js';
import { motorConstant } from '../../parts/motor.js';
import { lastOf } from '../../problems/certain.js';
import { realise } from '../../provenance/realise.js';
import { HEADLINES, type HeadlineDimension, type HeadlineId } from '../../results/headlines.js';
import type { CandidateResult, Figure } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { bladeAreaSmall } from '../judge/blade-area.js';
import { lastingOf, limitsOf, meetsLimits } from '../judge/limits-check.js';
import { magnetsWeakened } from '../judge/magnets-weakened.js';
import { findingsOf } from '../judge/run-findings.js';
import { fits, spaceRoom } from '../judge/space.js';
import { largest } from '../simulate/extremes-watch.js';
import { DEFAULT_TOLERANCE, recordingOf, type SimulateOptions, simulate } from '../simulate/simulate.js';
import { afterStop } from './after-stop.js';
import { efficiencyMap } from './efficiency-map.js';
import { hardestMoment } from './hardest-moment.js';
import { partsList } from './parts-list.js';
import { crossingsOf } from './torque-speed-chart.js';

/** A run that ends within this share of its profile is recorded anew over what it drove [1]. */
const EARLY = 0.1;
/** But not one that took more evaluations of its laws than a long run does: it jumped to and fro, and would again. */
const COSTLY = 20_000;

/** Runs one candidate with nominal data and tells how it stands. */
export function runCandidate(input: RunInput, profile: readonly ProfileStep[], options: SimulateOptions = {}): CandidateResult {
  const { name, data, given } = input;
  const system = realise(data);
  const shown = { method: 'odex', ...options, record: true } as const;
  const driven = simulate(system, profile, shown);
  // a motor that burns in the first seconds of an hour would be two samples and a straight line
  const early = driven.time < EARLY * profileDuration(profile) && driven.evaluations < COSTLY;
  const simulation = early ? simulate(system, profile, { ...shown, span: driven.time }) : driven;
  const findings = findingsOf(name, simulation, system, profile, given);
  const again = simulate(system, profile, { method: 'dormand-prince', relative: 1e-6, record: false, again: true });
  const limits = limitsOf(simulation, data, lastingOf(again, system.limits.reserve));
  for (const limit of limits) {
    if (limit.passed !== undefined) {
      findings.unshift({
        candidate: name,
        kind: 'limit-passed',
        time: limit.passed.at,
        limit: limit.id,
        value: limit.worst,
        bound: limit.bound,
      });
    }
  }
  const picture = hardestMoment(simulation, system, profile);
  const crossings = crossingsOf(picture.torqueSpeed);
  if (crossings > 1) findings.push({ candidate: name, kind: 'several-operating-points', count: crossings });
  const weakened = magnetsWeakened(system, simulation);
  if (weakened !== undefined) findings.push({ candidate: name, ...weakened });
  const small = bladeAreaSmall(system, simulation);
  if (small !== undefined) findings.push({ candidate: name, ...small });
  const stopped = afterStop(system, simulation);
  const space = spaceRoom(given, system);
  const { highest, kernel } = simulation;
  const { energy, trace } = recordingOf(simulation);
  const { terms } = energy;
  const figure = <K extends HeadlineId>(id: K, nominal: number): Figure<HeadlineDimension<K>> => ({
    dimension: HEADLINES[id].dimension,
    nominal,
  });
  const reserveTime = again.passed.get('reserve');
  const cutTime = again.end === 'finished' ? undefined : again.time;
  return {
    name,
    feasible: meetsLimits(simulation, limits),
    limits,
    headline: {
      peakWindingTemperature: figure('peakWindingTemperature', highest.windingTemperature.value),
      peakCanTemperature: figure('peakCanTemperature', highest.canTemperature.value),
      peakMagnetTemperature: figure('peakMagnetTemperature', highest.magnetTemperature.value),
      peakControllerTemperature: figure('peakControllerTemperature', highest.controllerTemperature.value),
      peakCellTemperature: figure('peakCellTemperature', highest.cellTemperature.value),
      peakMotorCurrent: figure('peakMotorCurrent', largest('motorCurrent', simulation).value),
      peakBatteryCurrent: figure('peakBatteryCurrent', highest.batteryCurrent.value),
      peakInputPower: figure('peakInputPower', largest('inputPower', simulation).value),
      peakBatteryPower: figure('peakBatteryPower', highest.batteryPower.value),
      peakThrust: figure('peakThrust', highest.thrust.value),
      topShaftSpeed: figure('topShaftSpeed', highest.shaftSpeed.value),
      topSpeed: figure('topSpeed', highest.vehicleSpeed.value),
      chargeLeft: figure('chargeLeft', simulation.state[kernel.at.charge]),
      energy: figure('energy', terms.batteryChemical - terms.batteryLoss - terms.polarisationStored),
      runTime: figure('runTime', simulation.time),
      ...(cutTime === undefined ? {} : { timeToCutoff: figure('timeToCutoff', cutTime) }),
      ...(reserveTime === undefined || system.limits.reserve === 0 ? {} : { timeToReserve: figure('timeToReserve', reserveTime) }),
      driveEfficiency: figure('driveEfficiency', terms.batteryChemical > 0 ? terms.useful / terms.batteryChemical : 0),
    },
    facts: {
      mass: system.motor.mass,
      canDiameter: system.motor.canDiameter,
      canLength: system.motor.canLength,
      sideArea: Math.PI * system.motor.canDiameter * system.motor.canLength,
      endArea: 0.5 * Math.PI * system.motor.canDiameter ** 2,
      resistance: system.motor.resistance,
      torqueConstant: system.motor.torqueConstant,
      motorConstant: motorConstant(system.motor),
      gearRatio: system.gearbox.ratio,
      carriedBy: system.vehicle.carriedBy,
      fits: fits(space),
    },
    ...(space === undefined ? {} : { space }),
    end: simulation.end,
    ...(again.end === 'finished' ? { outlasts: again.time } : {}),
    ...(again.end === 'burnt' || again.end === 'failed' ? { endsRepeated: again.end } : {}),
    trace,
    energy,
    ...picture,
    parts: partsList(given),
    // a drive without a torque line has no map
    ...(picture.torqueSpeed.speed.length === 0
      ? {}
      : {
          efficiencyMap: efficiencyMap(
            system.motor,
            trace,
            lastOf(picture.torqueSpeed.speed),
            picture.moment.channels.windingTemperature,
            picture.moment.channels.magnetTemperature,
          ),
        }),
    ...(stopped === undefined ? {} : { afterStop: stopped }),
    findings,
    statistics: {
      method: options.method ?? 'odex',
      tolerance: options.relative ?? DEFAULT_TOLERANCE,
      steps: simulation.steps,
      evaluations: simulation.evaluations,
    },
  };
}
