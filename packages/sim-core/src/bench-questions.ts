/** What bench logs tell: read by scenario/log, put to questions/identify. @module */
import type { ScenarioProblem } from './problems/index.js';
import { realise } from './provenance/realise.js';
import { fromUnit } from './quantities/index.js';
import type { RunInput } from './questions/candidate.js';
import { benchPlan, type PlanAsk } from './questions/identify/bench-plan.js';
import { type BenchRows, joined } from './questions/identify/bench-rows.js';
import { changedMotor, changedPack } from './questions/identify/changed.js';
import type { HeatRows } from './questions/identify/heat-model.js';
import { identifyHeat } from './questions/identify/identify-heat.js';
import { identifyMotor, type MotorAsk } from './questions/identify/identify-motor.js';
import { identifyPack, type PackAsk } from './questions/identify/identify-pack.js';
import { INSTRUMENTS, type InstrumentId } from './questions/identify/instruments.js';
import { USUAL_PATH } from './questions/identify/motor-model.js';
import { WINDING_UNSURE } from './questions/identify/part-text.js';
import type { ChangeResult } from './results/change-result.js';
import type { IdentifyResult } from './results/identify-result.js';
import type { BenchPlan } from './results/plan-result.js';
import type { PreparedScenario } from './run-scenario.js';
import { type BenchEntry, type BenchLog, readBench } from './scenario/log/bench-log.js';

export { benchKeys } from './scenario/log/bench-log.js';
export type { BenchEntry };

/** The logs and their texts. */
export interface IdentifyAsk {
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly entry: BenchEntry;
}

/** Logs of a motor on a bench, and what must be known beside them. */
export interface MotorBenchAsk extends IdentifyAsk {
  /** Number of magnet poles [1]. */
  readonly poles: number;
  readonly sinusoidal: boolean;
  /** Every row is at full throttle, whatever the log says of it. */
  readonly fullThrottle: boolean;
  /** Paths of files in which the shaft was bare. */
  readonly bare: readonly string[];
  /** Of the winding, where no column tells it [K]. */
  readonly winding: number;
}

/** What a motor's winding has on a bench where nobody says it: common practice, no published source. */
export const USUAL_WINDING = { temperature: fromUnit<'temperature'>(40, '°C'), unsure: WINDING_UNSURE } as const;

/** What was identified, or what is wrong with the logs. */
export type Identification =
  | { readonly kind: 'ready'; readonly result: IdentifyResult }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] };

type Logs =
  | { readonly kind: 'ready'; readonly logs: readonly BenchLog[] }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] };

function readAll({ files, entry }: IdentifyAsk): Logs {
  const read = files.map(({ path, text }) => readBench(entry, path, text));
  const problems = read.flatMap((each) => (each.ok ? [] : each.problems));
  return problems.length > 0
    ? { kind: 'problems', problems }
    : { kind: 'ready', logs: read.flatMap((each) => (each.ok ? [each.log] : [])) };
}

const takenOf = (logs: readonly BenchLog[]): string[] =>
  logs.flatMap(({ file, taken }) => taken.map((each) => (logs.length === 1 ? each : `${file}: ${each}`)));

/** Constants of motor, controller and propellers from one or more benches. Throws RangeError where too few rows tell anything. */
export function motorOfLogs(ask: MotorBenchAsk): Identification {
  const read = readAll(ask);
  return read.kind === 'problems' ? read : { kind: 'ready', result: identifyMotor(motorAsk(read.logs, ask)) };
}

const motorAsk = (logs: readonly BenchLog[], ask: MotorBenchAsk): MotorAsk => ({
  rows: joined(logs.map((log) => benchRows(log, ask))),
  setup: { polePairs: ask.poles / 2, sinusoidal: ask.sinusoidal, instruments: INSTRUMENTS, windingTemperature: ask.winding },
  sources: logs.map(({ file }) => file),
  taken: takenOf(logs),
  path: USUAL_PATH,
});

/** What was asked of two benches, or what is wrong with their logs. */
export type Comparison =
  | { readonly kind: 'ready'; readonly result: ChangeResult }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] };

type Files = IdentifyAsk['files'];

/** What changed of a motor between two benches; `ask.files` is not read. Throws RangeError where one tells nothing. */
export const motorChangeOfLogs = (ask: Omit<MotorBenchAsk, 'files'>, before: Files, after: Files): Comparison =>
  compared(ask, before, after, (logs) => motorAsk(logs, { ...ask, files: [] }), changedMotor);

/** What changed of a pack between two discharges. Throws RangeError where one tells nothing. */
export const packChangeOfLogs = (ask: Omit<DriveBenchAsk, 'files'>, before: Files, after: Files): Comparison =>
  compared(ask, before, after, (logs) => packAsk(logs, { ...ask, files: [] }), changedPack);

function compared<Ask>(
  { entry }: Pick<IdentifyAsk, 'entry'>,
  before: Files,
  after: Files,
  askOf: (logs: readonly BenchLog[]) => Ask,
  question: (before: Ask, after: Ask) => ChangeResult,
): Comparison {
  const [first, second] = [before, after].map((files) => readAll({ files, entry }));
  if (first.kind === 'problems' || second.kind === 'problems')
    return { kind: 'problems', problems: [first, second].flatMap((each) => (each.kind === 'problems' ? each.problems : [])) };
  return { kind: 'ready', result: question(askOf(first.logs), askOf(second.logs)) };
}

/** The bench day of a candidate; see questions/identify/bench-plan. Throws RangeError where it has no limit to decide, or is none. */
export const benchPlanOfScenario = (prepared: PreparedScenario, candidate: string, ask: PlanAsk = {}): BenchPlan =>
  benchPlan(candidateOf({ prepared, candidate }), prepared.scenario.profile, prepared.scenario.objective, ask);
export type { PlanAsk };

/** The key of a log's column for each instrument. */
const COLUMN: Readonly<Record<InstrumentId, string>> = {
  voltage: 'voltage',
  current: 'battery_current',
  motorCurrent: 'motor_current',
  speed: 'shaft_speed',
  torque: 'torque',
  thrust: 'thrust',
};
/** Duty at which a throttle counts as full [1]. */
const FULL = 0.995;
const BARE = /^(|-+|none|bare|no load|no-load)$/i;

function benchRows({ file, timed, columns, dutyKnown, labels }: BenchLog, { fullThrottle, bare }: MotorBenchAsk): BenchRows {
  const time = columns.get('time') ?? new Float64Array();
  const missing = new Float64Array(time.length).fill(Number.NaN);
  const throttle = columns.get('throttle');
  const duty = fullThrottle
    ? missing.map(() => 1)
    : throttle === undefined
      ? missing
      : dutyKnown
        ? throttle
        : throttle.map((d) => (d >= FULL ? 1 : d <= 0 ? 0 : Number.NaN));
  const own = file.replace(/^.*\//, '').replace(/\.[^.]*$/, '');
  const names = labels ?? Array.from(time, () => (bare.includes(file) ? '' : own));
  const propellers = [...new Set(names)].filter((name) => !BARE.test(name));
  const read = Object.fromEntries(
    (Object.entries(COLUMN) as [InstrumentId, string][]).flatMap(([id, key]) => {
      const values = columns.get(key);
      return values === undefined ? [] : [[id, values]];
    }),
  );
  return {
    time,
    timed,
    read,
    duty,
    winding: columns.get('in_slot_temperature') ?? missing,
    propeller: Int32Array.from(names, (name) => propellers.indexOf(name)),
    propellers,
  };
}

/** Logs of a whole drive, and the scenario it is of. */
export interface DriveBenchAsk extends IdentifyAsk {
  readonly prepared: PreparedScenario;
  /** Whose motor or pack was measured. */
  readonly candidate: string;
}

const candidateOf = ({ prepared, candidate }: Pick<DriveBenchAsk, 'prepared' | 'candidate'>): RunInput => {
  const found = prepared.candidates.find(({ name }) => name === candidate);
  if (found === undefined) throw new RangeError(`There is no candidate named ${candidate}.`);
  return found;
};

/** Thermometers whose reading is followed, the one that tells most first. */
const PROBES = [
  ['in_slot_temperature', 'in-slot'],
  ['end_temperature', 'on-end'],
  ['can_temperature', 'on-can'],
  ['beside_coils_temperature', 'beside-coils'],
] as const;

/** Heat paths and capacities from a run that warmed a candidate's motor and let it cool. Throws RangeError where the log holds no such run. */
export function heatOfLogs(ask: DriveBenchAsk): Identification {
  const read = readAll(ask);
  if (read.kind === 'problems') return read;
  const [log] = read.logs;
  const { columns } = log;
  const probe = PROBES.find(([key]) => columns.has(key));
  const missing = [
    ...(columns.has('shaft_speed') ? [] : ['shaft speed [rpm]']),
    ...(probe === undefined ? ['in slot temperature [°C], or end, can or beside coils temperature'] : []),
  ];
  if (probe === undefined || missing.length > 0) return lacking(log.file, missing);
  const [key, place] = probe;
  const { name, given, data } = candidateOf(ask);
  const air = realise(data).surroundings.motorAirTemperature;
  const rows = wholeRows(columns, ['time', 'voltage', 'battery_current', 'shaft_speed', key]);
  const at = (column: string): Float64Array | undefined => {
    const values = columns.get(column);
    return values === undefined ? undefined : Float64Array.from(rows, (k) => values[k]);
  };
  const need = (column: string): Float64Array => at(column) ?? new Float64Array();
  const torque = at('torque');
  const thrust = at('thrust');
  const heat: HeatRows = {
    time: need('time'),
    voltage: need('voltage'),
    current: need('battery_current'),
    speed: need('shaft_speed'),
    air: at('air_temperature') ?? Float64Array.from(rows, () => air),
    place,
    probe: need(key),
    ...(torque === undefined ? {} : { torque }),
    ...(thrust === undefined ? {} : { thrust }),
  };
  return { kind: 'ready', result: identifyHeat({ name, given, data, rows: heat, sources: [log.file], taken: takenOf([log]) }) };
}

/** A pack's numbers from its discharge. Throws RangeError where too few rows tell anything. */
export function packOfLogs(ask: DriveBenchAsk): Identification {
  const read = readAll(ask);
  return read.kind === 'problems' ? read : { kind: 'ready', result: identifyPack(packAsk(read.logs, ask)) };
}

function packAsk(logs: readonly BenchLog[], ask: DriveBenchAsk): PackAsk {
  const [{ columns, file }] = logs;
  const system = realise(candidateOf(ask).data);
  const rows = wholeRows(columns, ['time', 'voltage', 'battery_current']);
  const at = (column: string): Float64Array => {
    const values = columns.get(column);
    return Float64Array.from(rows, (k) => values?.[k] ?? Number.NaN);
  };
  return {
    rows: { time: at('time'), voltage: at('voltage'), current: at('battery_current'), temperature: at('cell_temperature') },
    setup: { battery: system.battery, charge: system.start.charge, temperature: system.start.cellTemperature, instruments: INSTRUMENTS },
    sources: [file],
    taken: takenOf(logs),
  };
}

/** Rows in which every one of the columns has a value. */
function wholeRows(columns: ReadonlyMap<string, Float64Array>, keys: readonly string[]): readonly number[] {
  const time = columns.get('time') ?? new Float64Array();
  return Array.from(time.keys()).filter((k) => keys.every((key) => !Number.isNaN(columns.get(key)?.[k] ?? Number.NaN)));
}

const lacking = (file: string, missing: readonly string[]): Identification => ({
  kind: 'problems',
  problems: missing.map((head) => ({
    kind: 'missing-datum',
    place: { file, line: 1, column: 1, path: '' },
    expected: `a column ${head}`,
    found: 'none that is named so',
    hint: "rename it in the file, or say which column it is: --column 'shaft_speed=Head [rpm]'",
  })),
});
