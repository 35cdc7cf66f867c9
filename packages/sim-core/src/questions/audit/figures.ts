/** Numbers a practitioner makes from a sheet and a run before believing either. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { LIQUID } from '../../media/water.js';
import { openCircuitVoltage } from '../../parts/battery/battery.js';
import { motorConstant, noLoadSpeed, peakEfficiency, speedTorqueGradient, stallCurrent } from '../../parts/motor.js';
import { writtenResistance } from '../../provenance/given.js';
import { realise } from '../../provenance/realise.js';
import { DRY_AIR_GAS_CONSTANT } from '../../quantities/index.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { steadyPoint } from '../point.js';
import { type RatedHeating, ratedHeating } from '../rate/rated-current.js';
import { ROTOR_SHARE } from './marks.js';

/** Ratio of specific heats of air [1], ISO 2533:1975. */
const AIR_HEAT_RATIO = 1.4;

export interface SheetFigures {
  readonly input: RunInput;
  readonly system: DriveSystem;
  /** The sheet's voltage, or the full pack's where it gives none [V], and which. */
  readonly voltage: number;
  readonly voltageFrom: 'sheet' | 'pack';
  readonly noLoadCurrent: number;
  readonly noLoadVoltage: number;
  readonly motorConstant: number;
  readonly gradient: number;
  readonly stallCurrent: number;
  readonly noLoadSpeed: number;
  readonly rotorSurfaceSpeed: number;
  readonly electricalSpeed: number;
  readonly peakEfficiency: number;
  readonly peakEfficiencyCurrent: number;
  readonly ratedPowerShare: number | undefined;
  readonly ratedInputPerMass: number | undefined;
  readonly rated: { readonly current: number; readonly copperLoss: number; readonly heating: RatedHeating } | undefined;
  /** At full throttle in the run, where the current is greatest: speed over Kv times the pack's voltage at rest; absent where it never is. */
  readonly loadedSpeedRatio: number | undefined;
  /** Over the run. */
  readonly meanInput: number;
  readonly noLoadEnergy: number;
  readonly copperEnergy: number;
  readonly inputEnergy: number;
  /** Absent in water. */
  readonly tipMach: number | undefined;
  /** [1/s] */
  readonly dischargeRate: number;
}

/** Figures of one candidate with its run. */
export function sheetFigures(input: RunInput, run: Pick<CandidateResult, 'trace' | 'headline'>): SheetFigures {
  const system = realise(input.data);
  const { motor, limits, battery, load, gearbox, surroundings } = system;
  const sheet = input.given.motor;
  const first = sheet?.noLoad?.[0];
  // what the sheet does not say is left out of its audit, not estimated
  const resistance = writtenResistance(sheet) === undefined ? Number.NaN : motor.resistance;
  const noLoadCurrent = first?.current?.value ?? Number.NaN;
  const noLoadVoltage = first?.voltage?.value ?? Number.NaN;
  const said = { torqueConstant: motor.torqueConstant, resistance };
  const full = steadyPoint(input, { hold: 'throttle', value: 1 }).channels;
  const onSheet = Number.isFinite(limits.busVoltage);
  const voltage = onSheet ? limits.busVoltage : run.trace.cellVoltage[0] * battery.cellsInSeries;
  const unloaded = noLoadSpeed(motor, voltage, first?.current?.value ?? 0);
  const { current, power } = { current: limits.motorCurrent, power: limits.inputPower };
  const rateable = Number.isFinite(current) && voltage > current * resistance;
  const energy = energiesOf(run.trace);
  const tipMach =
    load.kind === 'propeller' && load.density < LIQUID
      ? Math.hypot(
          0.5 * load.diameter * (run.trace.shaftSpeed.reduce((most, speed) => Math.max(most, speed), 0) / gearbox.ratio),
          run.headline.topSpeed.nominal,
        ) / Math.sqrt(AIR_HEAT_RATIO * DRY_AIR_GAS_CONSTANT * surroundings.airTemperature)
      : undefined;
  return {
    input,
    system,
    voltage,
    voltageFrom: onSheet ? 'sheet' : 'pack',
    noLoadCurrent,
    noLoadVoltage,
    motorConstant: motorConstant(said),
    gradient: speedTorqueGradient(said),
    stallCurrent: stallCurrent(said, voltage),
    noLoadSpeed: unloaded,
    rotorSurfaceSpeed: 0.5 * ROTOR_SHARE[motor.layout] * motor.canDiameter * unloaded,
    electricalSpeed: motor.polePairs * unloaded,
    peakEfficiency: peakEfficiency(resistance, noLoadCurrent, voltage),
    peakEfficiencyCurrent: Math.sqrt((noLoadCurrent * voltage) / resistance),
    ratedPowerShare: Number.isFinite(power) && Number.isFinite(current) && onSheet ? power / (voltage * current) : undefined,
    ratedInputPerMass: Number.isFinite(power) ? power / motor.mass : undefined,
    rated: rateable ? { current, copperLoss: current ** 2 * resistance, heating: ratedHeating(system, current, voltage, full) } : undefined,
    loadedSpeedRatio: loadedSpeedRatio(system, run.trace),
    meanInput: energy.input / run.headline.runTime.nominal,
    noLoadEnergy: energy.noLoad,
    copperEnergy: energy.copper,
    inputEnergy: energy.input,
    tipMach,
    dischargeRate: run.headline.peakBatteryCurrent.nominal / battery.capacity,
  };
}

/** Energies under the recorded curves, driving only [J]; trapezoids on the drawn samples, which a plausibility mark can bear. */
function energiesOf({ time, inputPower, copperLoss, noLoadLoss }: CandidateResult['trace']): {
  input: number;
  copper: number;
  noLoad: number;
} {
  const sum = { input: 0, copper: 0, noLoad: 0 };
  for (let k = 1; k < time.length; k++) {
    const half = 0.5 * (time[k] - time[k - 1]);
    sum.input += half * (Math.max(0, inputPower[k]) + Math.max(0, inputPower[k - 1]));
    if (!(inputPower[k] > 0)) continue;
    sum.copper += half * (copperLoss[k] + copperLoss[k - 1]);
    sum.noLoad += half * (noLoadLoss[k] + noLoadLoss[k - 1]);
  }
  return sum;
}

/** Throttle from which a moment counts as full [1]. */
const FULL = 0.995;

function loadedSpeedRatio({ motor, battery }: DriveSystem, trace: CandidateResult['trace']): number | undefined {
  let hardest = -1;
  trace.throttle.forEach((throttle, k) => {
    if (throttle >= FULL && (hardest < 0 || trace.motorCurrent[k] > trace.motorCurrent[hardest])) hardest = k;
  });
  if (hardest < 0) return undefined;
  const atRest = battery.cellsInSeries * (openCircuitVoltage(battery.openCircuit, trace.charge[hardest]) + battery.voltageOffset);
  return (trace.shaftSpeed[hardest] * motor.torqueConstant) / atRest;
}
