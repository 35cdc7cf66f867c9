/** One candidate over the profile: simulation → limits, headline figures, energy account, chart data. */
import type { DriveSystem } from '../drive/drive-system.js';
import { emptyChainPoint, solveAtDuty } from '../drive/electrical-chain.js';
import type { ProfileStep } from '../drive/profile.js';
import { createKernel } from '../kernel/kernel.js';
import { resistanceFactor } from '../parts/battery.js';
import { fluxRatio, lossTorque, motorConstant } from '../parts/motor.js';
import type { Datum } from '../provenance/datum.js';
import type { GivenDrive } from '../provenance/given.js';
import { realise } from '../provenance/realise.js';
import { RULES } from '../provenance/rules.js';
import type { Dimension } from '../quantities/index.js';
import type { ChannelId } from '../results/channels.js';
import type { Finding } from '../results/finding.js';
import { POWER_TERM_IDS, type PowerAccount } from '../results/power-terms.js';
import type { CandidateResult, LimitId, LimitResult, PowerMoment, TorqueSpeedChart } from '../results/run-result.js';
import { CLIMB, DRAG, IMPOSED, KINETIC, observe, SHED, type SimulateOptions, type Simulation, STORED, simulate } from './simulate.js';

interface LimitSpec {
  readonly id: LimitId;
  readonly words: string;
  readonly channel: ChannelId;
  readonly dimension: Dimension;
  readonly shown: string;
  readonly sense: 'ceiling' | 'floor';
  readonly datum: (limits: DriveSystem<Datum>['limits']) => Datum;
}

const LIMITS: readonly LimitSpec[] = [
  {
    id: 'windingTemperature',
    words: 'winding temperature',
    channel: 'windingTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.windingTemperature,
  },
  {
    id: 'magnetTemperature',
    words: 'magnet temperature',
    channel: 'magnetTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.magnetTemperature,
  },
  {
    id: 'controllerTemperature',
    words: 'controller temperature',
    channel: 'controllerTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.controllerTemperature,
  },
  {
    id: 'cellTemperature',
    words: 'cell temperature',
    channel: 'cellTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.cellTemperature,
  },
  {
    id: 'motorCurrent',
    words: 'motor current (maker)',
    channel: 'motorCurrent',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    datum: (l) => l.motorCurrent,
  },
  {
    id: 'inputPower',
    words: 'input power (maker)',
    channel: 'inputPower',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    datum: (l) => l.inputPower,
  },
  {
    id: 'shaftSpeed',
    words: 'motor speed (maker)',
    channel: 'shaftSpeed',
    dimension: 'angularSpeed',
    shown: 'rpm',
    sense: 'ceiling',
    datum: (l) => l.shaftSpeed,
  },
  {
    id: 'busVoltage',
    words: 'voltage (maker)',
    channel: 'busVoltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'ceiling',
    datum: (l) => l.busVoltage,
  },
  {
    id: 'batteryCurrent',
    words: 'battery current (rating)',
    channel: 'batteryCurrent',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    datum: (l) => l.batteryCurrent,
  },
  {
    id: 'batteryPower',
    words: 'battery power (cap)',
    channel: 'batteryPower',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    datum: (l) => l.batteryPower,
  },
  {
    id: 'cellVoltage',
    words: 'loaded cell voltage',
    channel: 'cellVoltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'floor',
    datum: (l) => l.cellVoltage,
  },
  { id: 'reserve', words: 'charge left', channel: 'charge', dimension: 'fraction', shown: '%', sense: 'floor', datum: (l) => l.reserve },
];

export interface RunInput {
  readonly name: string;
  readonly given: GivenDrive;
  readonly data: DriveSystem<Datum>;
}

/** Where a bound came from, in words. */
export function originOf(datum: Datum): string {
  if (datum.origin.kind === 'given') return `${datum.origin.place.file} line ${datum.origin.place.line}`;
  const rule = RULES[datum.origin.rule];
  return `${rule.words}, ${rule.source}`;
}

export function runCandidate(input: RunInput, profile: readonly ProfileStep[], options: SimulateOptions = {}): CandidateResult {
  const { name, data, given } = input;
  const system = realise(data);
  const simulation = simulate(system, profile, { method: 'odex', ...options, record: true });
  const findings = findingsOf(name, simulation, system, profile, given);
  const limits = limitsOf(simulation, data);
  for (const limit of limits) {
    if (limit.passedAt !== undefined) {
      findings.unshift({
        candidate: name,
        kind: 'limit-passed',
        time: limit.passedAt,
        limit: limit.id,
        value: limit.worst,
        bound: limit.bound,
      });
    }
  }
  const picture = momentOf(simulation, system, profile);
  const crossings = crossingsOf(picture.torqueSpeed);
  if (crossings > 1) findings.push({ candidate: name, kind: 'several-operating-points', count: crossings });
  const fits = !findings.some((finding) => finding.kind === 'does-not-fit');
  const complete = simulation.end === 'finished';
  const again = simulate(system, profile, { method: 'dormand-prince', relative: 1e-6, record: false, again: true });
  const { energy, highest, kernel } = simulation;
  const useful = energy[POWER_TERM_IDS.indexOf('useful')];
  const figure = <D extends Dimension>(dimension: D, nominal: number) => ({ dimension, nominal });
  const reserveTime = again.passed.get('reserve');
  const cutTime = again.end === 'finished' ? undefined : again.time;
  return {
    name,
    feasible: complete && limits.every((limit) => limit.passedAt === undefined && limit.margin >= 0),
    limits,
    headline: {
      peakWindingTemperature: figure('temperature', highest.windingTemperature.value),
      peakCanTemperature: figure('temperature', highest.canTemperature.value),
      peakMagnetTemperature: figure('temperature', highest.magnetTemperature.value),
      peakControllerTemperature: figure('temperature', highest.controllerTemperature.value),
      peakCellTemperature: figure('temperature', highest.cellTemperature.value),
      peakMotorCurrent: figure('current', highest.motorCurrent.value),
      peakBatteryCurrent: figure('current', highest.batteryCurrent.value),
      peakInputPower: figure('power', highest.inputPower.value),
      topSpeed: figure('speed', highest.vehicleSpeed.value),
      chargeLeft: figure('fraction', simulation.state[kernel.dimension - 3]),
      energy: figure('energy', energy[0] - energy[1] - energy[2]),
      runTime: figure('time', simulation.time),
      ...(cutTime === undefined ? {} : { timeToCutoff: figure('time', cutTime) }),
      ...(reserveTime === undefined || system.limits.reserve === 0 ? {} : { timeToReserve: figure('time', reserveTime) }),
      driveEfficiency: figure('fraction', energy[0] > 0 ? useful / energy[0] : 0),
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
      fits,
    },
    end: simulation.end,
    trace: simulation.trace,
    energy: accountOf(simulation),
    ...picture,
    findings,
    statistics: { method: options.method ?? 'odex', steps: simulation.steps, evaluations: simulation.evaluations },
  };
}

function accountOf({ energy }: Simulation): CandidateResult['energy'] {
  const terms = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, energy[k]])) as PowerAccount;
  const spent = POWER_TERM_IDS.slice(1).reduce((sum, id) => sum + terms[id], 0);
  const imposed = energy[DRAG] + energy[CLIMB] + energy[KINETIC] - terms.useful + energy[IMPOSED];
  return {
    terms,
    drag: energy[DRAG],
    climb: energy[CLIMB],
    kinetic: energy[KINETIC] + energy[IMPOSED],
    imposed,
    heatStored: energy[STORED],
    heatShed: energy[SHED],
    residual: terms.batteryChemical === 0 ? 0 : (terms.batteryChemical - spent) / terms.batteryChemical,
  };
}

function limitsOf(simulation: Simulation, data: DriveSystem<Datum>): LimitResult[] {
  const { trace, highest, lowest, passed } = simulation;
  const found: LimitResult[] = [];
  for (const spec of LIMITS) {
    const datum = spec.datum(data.limits);
    const bound = datum.value;
    if (!Number.isFinite(bound) || (spec.id === 'reserve' && bound === 0)) continue;
    const ceiling = spec.sense === 'ceiling';
    // the pack's voltage is chosen, not run into: it is told only when it is too high
    if (spec.id === 'busVoltage' && highest.busVoltage.value <= bound) continue;
    const worst = ceiling ? highest[spec.channel] : lowest[spec.channel];
    const temperature = spec.dimension === 'temperature';
    const start = temperature || spec.id === 'reserve' || spec.id === 'cellVoltage' ? trace[spec.channel][0] : 0;
    const margin = ceiling ? bound - worst.value : worst.value - bound;
    const span = Math.abs(bound - start);
    const passedAt = margin < 0 ? (spec.id === 'busVoltage' ? worst.time : passed.get(spec.id as 'windingTemperature')) : undefined;
    found.push({
      id: spec.id,
      words: spec.words,
      dimension: spec.dimension,
      shown: spec.shown,
      bound,
      origin: originOf(datum),
      sense: spec.sense,
      start,
      worst: worst.value,
      worstTime: worst.time,
      margin,
      marginShare: span > 0 ? margin / span : margin,
      ...(margin < 0 ? { passedAt: passedAt ?? worst.time } : {}),
    });
  }
  return found.sort((a, b) => a.marginShare - b.marginShare);
}

function findingsOf(
  name: string,
  simulation: Simulation,
  system: DriveSystem,
  profile: readonly ProfileStep[],
  given: GivenDrive,
): Finding[] {
  const findings: Finding[] = [];
  const label = (step: number) => {
    const words = profile[step]?.label;
    return words === undefined ? {} : { label: words };
  };
  const seen = new Set<string>();
  for (const each of simulation.lost) {
    if (seen.has(`lost${each.step}`)) continue;
    seen.add(`lost${each.step}`);
    findings.push({
      candidate: name,
      time: each.time,
      kind: 'step-not-held',
      step: each.step,
      ...label(each.step),
      wanted: each.wanted,
      reached: each.reached,
    });
  }
  for (const each of simulation.limited) {
    if (seen.has(`limited${each.step}`)) continue;
    seen.add(`limited${each.step}`);
    findings.push({
      candidate: name,
      time: each.time,
      kind: 'current-limited',
      step: each.step,
      ...label(each.step),
      bound: system.controller.motorCurrentLimit,
    });
  }
  for (const step of simulation.braked) findings.push({ candidate: name, kind: 'braked-beyond-drive', step, ...label(step) });
  for (const step of simulation.stalled) findings.push({ candidate: name, kind: 'motor-stalled', step, ...label(step) });
  for (const step of simulation.unstable) {
    findings.push({
      candidate: name,
      kind: 'no-operating-point',
      step,
      ...label(step),
      why: 'the motor’s torque rises faster with speed than the load’s, so the crossing does not hold',
    });
  }
  if (simulation.failure !== undefined) {
    const { step, time, why } = simulation.failure;
    findings.push({ candidate: name, time, kind: 'no-operating-point', step, ...label(step), why });
  }
  if (simulation.end === 'cut-off')
    findings.push({ candidate: name, time: simulation.time, kind: 'cut-off-reached', bound: system.limits.cellVoltage });
  if (simulation.end === 'empty') findings.push({ candidate: name, time: simulation.time, kind: 'battery-empty' });
  const table = simulation.passed.get('propellerTable');
  if (table !== undefined && system.load.kind === 'propeller') {
    findings.push({
      candidate: name,
      time: table,
      kind: 'outside-propeller-table',
      value: (simulation.outsideTable < 0 ? system.load.table.supported.from : system.load.table.supported.to) + simulation.outsideTable,
      bound: system.load.table.supported.to,
    });
  }
  const drag = simulation.passed.get('dragTable');
  const rows = system.vehicle.dragTable;
  if (drag !== undefined && rows !== undefined) {
    findings.push({
      candidate: name,
      time: drag,
      kind: 'outside-drag-table',
      value: simulation.highest.vehicleSpeed.value,
      bound: rows.speed[rows.speed.length - 1],
    });
  }
  const { space } = given;
  const sizes = { diameter: system.motor.canDiameter, length: system.motor.canLength, mass: system.motor.mass + system.gearbox.mass };
  for (const what of ['diameter', 'length', 'mass'] as const) {
    const bound = space?.[what]?.value;
    if (bound !== undefined && sizes[what] > bound)
      findings.push({ candidate: name, kind: 'does-not-fit', what, value: sizes[what], bound });
  }
  return findings;
}

/** How often the full-throttle line crosses the load on the chart. */
export function crossingsOf({ lines, load }: TorqueSpeedChart): number {
  const full = lines[lines.length - 1].torque;
  let count = 0;
  for (let k = 1; k < load.length; k++) {
    const [before, after] = [full[k - 1] - load[k - 1], full[k] - load[k]];
    if (before > 0 !== after > 0) count++;
  }
  return count;
}

/** The moment of greatest battery power, and the torque–speed chart there. */
function momentOf(
  simulation: Simulation,
  system: DriveSystem,
  profile: readonly ProfileStep[],
): { moment: PowerMoment; torqueSpeed: TorqueSpeedChart } {
  const { trace } = simulation;
  let best = 0;
  // the last sample of the hardest stretch says more than its first instant: look from the end
  for (let k = trace.time.length - 1; k >= 0; k--) if (trace.batteryPower[k] > trace.batteryPower[best] * 1.0001) best = k;
  const time = trace.time[best];
  let from = 0;
  let index = 0;
  while (index < profile.length - 1 && from + profile[index].duration < time) from += profile[index++].duration;
  const step: ProfileStep = {
    duration: 1,
    hold: 'throttle',
    value: { from: trace.throttle[best], to: trace.throttle[best] },
    ...(profile[index].label ? { label: profile[index].label } : {}),
  };
  const kernel = createKernel();
  kernel.load(system);
  const y = new Float64Array(kernel.dimension);
  const n = kernel.dimension;
  const temperatures = [
    'windingTemperature',
    'statorTemperature',
    'canTemperature',
    'magnetTemperature',
    'controllerTemperature',
    'cellTemperature',
  ] as const;
  temperatures.forEach((id, k) => {
    y[kernel.bodyIndex[k]] = trace[id][best];
  });
  y[n - 3] = trace.charge[best];
  y[n - 2] = polarisationOf(system, trace, best);
  y[n - 1] = trace.vehicleSpeed[best];
  kernel.begin(step, 0, false);
  const channels = observe(kernel, 0, y);
  const powers = new Float64Array(POWER_TERM_IDS.length);
  kernel.powers(y, powers);
  const power = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, powers[k]])) as PowerAccount;
  return {
    moment: { time, label: profile[index].label ?? `step ${index + 1}`, power, channels },
    torqueSpeed: chartAt(kernel, system, y, time, trace.throttle[best]),
  };
}

/** RC-pair voltage of a recorded moment, from its loaded cell voltage. */
function polarisationOf(system: DriveSystem, trace: Simulation['trace'], k: number): number {
  const kernel = createKernel();
  kernel.load(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  y[kernel.bodyIndex[5]] = trace.cellTemperature[k];
  y[kernel.dimension - 3] = trace.charge[k];
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0, to: 0 } }, 0, false);
  kernel.solve(0, y);
  const { battery } = system;
  const factor = resistanceFactor(battery.activation, trace.cellTemperature[k]);
  return (
    kernel.point.openCircuit - trace.cellVoltage[k] - (battery.cellResistance * factor * trace.batteryCurrent[k]) / battery.cellsInParallel
  );
}

function chartAt(
  kernel: ReturnType<typeof createKernel>,
  system: DriveSystem,
  y: Float64Array,
  time: number,
  present: number,
): TorqueSpeedChart {
  const n = kernel.dimension;
  const throttles = [...new Set([0.4, 0.6, 0.8, 1, Math.round(present * 100) / 100])].filter((d) => d > 0).sort((a, b) => a - b);
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
  kernel.solve(0, y);
  const p = { ...kernel.point };
  const top = Math.max(1.25 * p.speed, (1.02 * system.battery.cellsInSeries * p.openCircuit) / p.torqueConstant);
  const speed = Array.from({ length: 81 }, (_, k) => (top * k) / 80);
  const flux = fluxRatio(system.motor, y[kernel.bodyIndex[3]]);
  const chain = {
    emf: system.battery.cellsInSeries * (p.openCircuit - y[n - 2]),
    sourceResistance:
      (system.drives *
        system.battery.cellsInSeries *
        system.battery.cellResistance *
        resistanceFactor(system.battery.activation, y[kernel.bodyIndex[5]])) /
        system.battery.cellsInParallel +
      system.wiring.resistance,
    idleCurrent: system.controller.idleCurrent,
    otherPower: system.otherLoads / system.drives,
    pathResistance: p.pathResistance,
    windingResistance: p.windingResistance,
    switchingShare: 0.5 * system.controller.switchingTime * system.controller.pwmFrequency,
    voltageLoss: system.controller.voltageLoss,
    diodeDrop: system.controller.diodeDrop,
    regenerative: system.controller.braking === 'regenerative',
  };
  const out = emptyChainPoint();
  const lines = throttles.map((throttle) => ({
    throttle,
    torque: speed.map((w) => {
      solveAtDuty(chain, throttle, p.torqueConstant, w, out);
      const current = Math.min(out.current, system.controller.motorCurrentLimit);
      return p.torqueConstant * current - (w > 0 ? lossTorque(system.motor, w, flux) : 0);
    }),
  }));
  const load = speed.map((w) => {
    if (w === 0) return 0;
    kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: w, to: w } }, 0, false);
    kernel.solve(0, y);
    return kernel.point.loadTorque;
  });
  const crossings = throttles.map((throttle) => {
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
    kernel.solve(0, y);
    const q = kernel.point;
    const input = (q.windingResistance * q.current + q.torqueConstant * q.speed) * q.current;
    return {
      throttle,
      speed: q.speed,
      torque: q.loadTorque,
      motorCurrent: q.current,
      efficiency: input > 0 ? (q.loadTorque * q.speed) / input : 0,
    };
  });
  return { time, vehicleSpeed: y[n - 1], charge: y[n - 3], speed, lines, load, crossings };
}
