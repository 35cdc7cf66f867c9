/** What holds of every run, whatever its numbers: finite, accounts closed, no limit passed untold, words and figures of one mind. */
import { BODIES, type CandidateResult, type RunResult, TEMPERATURE_CHANNELS } from '@shaftwork/sim-core';
import type { RunInput } from '@shaftwork/sim-core/questions/candidate';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import { verdictLawsBroken } from './verdict-laws.js';

/** Paths at which a plain value holds a number that is none. */
export function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  // curves by the thousand
  if (Array.isArray(value) && value.every((each) => Number.isFinite(each))) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}

const LOSSES = [
  'batteryLoss',
  'controllerIdle',
  'controllerConduction',
  'controllerSwitching',
  'copperLoss',
  'ironLoss',
  'frictionLoss',
] as const;
/** Accounts close to this share of what passed through [1]. */
const CLOSED = 1e-6;
/** Below this an account is rounding [J]. */
const NOTHING = 1e-2;

/** Most that the integrator's tolerance leaves of one step: a share of the charge of a full pack, or of a temperature of some 300 K [1, K]. */
const LEFT = { charge: 1.05, temperature: 310 } as const;

/** What rounding makes of a state that never changes, between two steps [its own]. */
const ROUNDING = 1e-15;
/** A change of what holds `capacity`; what never changes, as the charge of a supply, holds without end. */
const among = (capacity: number, change: number): number =>
  capacity === Number.POSITIVE_INFINITY && Math.abs(change) < ROUNDING ? 0 : capacity * change;

/** What the states say against the quadratures: they differ by what the tolerance leaves, step by step, and are no closer than that. */
function states({ energy, trace, statistics }: CandidateResult, { data }: RunInput, say: (law: string) => void): void {
  const { steps, tolerance = 0 } = statistics;
  const { value: capacity } = data.battery.capacity;
  const left = among(capacity, steps * tolerance * LEFT.charge);
  const fell = Math.abs(among(capacity, trace.charge[0] - trace.charge[trace.time.length - 1]));
  const open = Math.abs(energy.chargeResidual) * fell;
  if (!(open <= CLOSED * fell + left)) say(`charge account open by ${energy.chargeResidual} of ${fell} A·s`);
  let [rise, allowed] = [0, 0];
  for (const [k, body] of BODIES.entries()) {
    const row = trace[TEMPERATURE_CHANNELS[k]];
    const held = data.heat.capacity[body].value * (body === 'cells' ? 1 : data.drives);
    rise += among(held, row[row.length - 1] - row[0]);
    allowed += among(held, steps * tolerance * LEFT.temperature);
  }
  const moved = Math.max(Math.abs(energy.heatMade), Math.abs(energy.heatStored), Math.abs(energy.heatShed));
  if (!(Math.abs(rise - energy.heatStored) <= CLOSED * moved + allowed))
    say(`bodies took in ${energy.heatStored} J, their temperatures say ${rise} J of ${moved} J`);
}

function accounts({ energy }: CandidateResult, say: (law: string) => void): void {
  const { batteryChemical, ...spent } = energy.terms;
  const out = Object.values(spent);
  const passed = Math.max(
    Math.abs(batteryChemical),
    out.reduce((sum, x) => sum + Math.abs(x), 0),
  );
  const miss = batteryChemical - out.reduce((sum, x) => sum + x, 0);
  if (passed > NOTHING && !(Math.abs(miss) <= CLOSED * passed)) say(`electrical account open by ${miss} J of ${passed} J`);
  const losses = LOSSES.reduce((sum, id) => sum + energy.terms[id], 0);
  const { heatStored, heatShed } = energy;
  const size = Math.abs(losses) + Math.abs(heatStored) + Math.abs(heatShed);
  if (size > NOTHING && !(Math.abs(losses - heatStored - heatShed) <= CLOSED * size))
    say(`heat account open: ${losses} J lost, ${heatStored} J stored, ${heatShed} J given off`);
  for (const id of [...LOSSES, 'wiringLoss', 'gearLoss'] as const)
    if (energy.terms[id] < -CLOSED * Math.max(NOTHING, passed)) say(`${id} of ${energy.terms[id]} J`);
}

const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

function curves({ trace, headline, end, energy }: CandidateResult, { data }: RunInput, duration: number, say: (law: string) => void): void {
  const { time } = trace;
  if (time.some((t, k) => k > 0 && t < time[k - 1])) say('the trace runs backwards');
  for (const [id, row] of Object.entries(trace)) if (row.length !== time.length) say(`${id} has ${row.length} samples of ${time.length}`);
  const ran = headline.runTime.nominal;
  if (Math.abs(time[time.length - 1] - ran) > 1e-6) say(`the trace ends at ${time[time.length - 1]} s, the run at ${ran} s`);
  if ((end === 'finished') !== Math.abs(ran - duration) < 1e-6) say(`${end} after ${ran} s of ${duration} s`);
  const { surroundings, start, heat, load } = data;
  const wet = heat.jacket !== undefined || heat.coil !== undefined || load.kind === 'propeller';
  const coldest = least(
    [
      surroundings.airTemperature,
      surroundings.motorAirTemperature,
      surroundings.compartmentTemperature,
      start.motorTemperature,
      start.controllerTemperature,
      start.cellTemperature,
      ...(wet ? [surroundings.waterTemperature] : []),
    ].map(({ value }) => value),
  );
  for (const id of TEMPERATURE_CHANNELS)
    if (least(trace[id]) < coldest - 0.01) say(`${id} falls to ${least(trace[id])} K, all round it ${coldest} K`);
  if (least(trace.throttle) < 0 || most(trace.throttle) > 1 + 1e-6)
    say(`throttle from ${least(trace.throttle)} to ${most(trace.throttle)}`);
  if (least(trace.charge) < -1e-6) say(`charge falls to ${least(trace.charge)}`);
  const cutoff = data.limits.cellVoltage.value;
  const under = trace.cellVoltage.findIndex((volts) => volts < cutoff - 0.01);
  if (under >= 0 && time[under] < ran - 0.5) say(`driven on below the cut-off from ${time[under]} s on`);
  if (ran > 0) {
    const motor = data.controller.motorCurrentLimit.value;
    if (most(trace.motorCurrent) > motor * (1 + 1e-6)) say(`${most(trace.motorCurrent)} A past the controller's ${motor} A`);
    const pack = data.controller.batteryCurrentLimit.value;
    // what the controller itself and other loads draw is nobody's throttle
    const drawn = most(trace.batteryCurrent.map((amps, k) => (trace.throttle[k] > 0 ? amps : 0)));
    if (data.drives === 1 && data.otherLoads.value === 0 && data.controller.idleCurrent.value < pack && drawn > pack * (1 + 1e-3) + 1e-6)
      say(`${drawn} A past the pack's limit of ${pack} A`);
  }
  const capacity = data.battery.capacity.value;
  const fell = among(capacity, trace.charge[0] - trace.charge[time.length - 1]);
  if (energy.terms.batteryChemical > NOTHING && fell < 0) say('energy came out of a pack that was charged');
}

/** Limits that a curve can be held against, by their channel; `either` where the magnitude counts. */
const WATCHED = {
  windingTemperature: 'ceiling',
  magnetTemperature: 'ceiling',
  controllerTemperature: 'ceiling',
  cellTemperature: 'ceiling',
  motorCurrent: 'either',
  inputPower: 'either',
  shaftSpeed: 'ceiling',
  batteryCurrent: 'ceiling',
  batteryPower: 'ceiling',
} as const;

function limits(candidate: CandidateResult, say: (law: string) => void): void {
  const { trace, findings, feasible, end, headline } = candidate;
  for (const limit of candidate.limits) {
    const sense = WATCHED[limit.id as keyof typeof WATCHED];
    if (limit.passed !== undefined) {
      if (feasible) say(`feasible past its ${limit.id}`);
      if (!findings.some((each) => each.kind === 'limit-passed' && each.limit === limit.id)) say(`no finding for ${limit.id}`);
      if (limit.id !== 'runTime' && !(limit.passed.at <= headline.runTime.nominal + 1e-6)) say(`${limit.id} passed after the end`);
    }
    const lasting = limit.passed?.lasting;
    if (lasting !== undefined && lasting < 1e-3) say(`${limit.id} passed for ${lasting} s, which nobody can read`);
    if (sense === undefined) continue;
    const row = trace[limit.id as keyof typeof WATCHED];
    const worst = most(sense === 'either' ? row.map(Math.abs) : row);
    if (worst > Math.abs(limit.worst) * (1 + 1e-9) + 1e-9 && worst > limit.worst + 1e-9)
      say(`${limit.id} reaches ${worst}, told ${limit.worst}`);
    if (worst > limit.bound * (1 + 1e-6) && limit.passed === undefined) say(`${limit.id} passed untold: ${worst} of ${limit.bound}`);
  }
  const meets = end === 'finished' && candidate.limits.every(({ passed, margin }) => passed === undefined && margin >= 0);
  if (feasible !== meets) say(`feasible: ${feasible}, by its limits ${meets}`);
}

/** Everything in `result` that cannot be, in words; nothing where all is well. */
export function lawsBroken(prepared: PreparedScenario, result: RunResult): string[] {
  const found: string[] = notFinite(result);
  for (const input of prepared.candidates) {
    const candidate = result.candidates.find(({ name }) => name === input.name);
    const say = (law: string): void => void found.push(`${input.name}: ${law}`);
    if (candidate === undefined) {
      say('is lost');
      continue;
    }
    accounts(candidate, say);
    states(candidate, input, say);
    curves(candidate, input, result.scenario.duration, say);
    limits(candidate, say);
  }
  found.push(...verdictLawsBroken(result));
  return found;
}
