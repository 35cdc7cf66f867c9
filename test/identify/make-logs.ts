/**
 * Writes the invented logs of scenarios/logs/: a motor on a stand with two propellers and bare, a run that warms a motor and lets it cool, a
 * discharge with pauses. Parts are invented, instruments have gains and scatter; one seed makes them the same again: npx tsx test/identify/make-logs.ts
 * @module
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { realise } from '../../packages/sim-core/src/provenance/realise.js';
import { fromUnit, toUnit } from '../../packages/sim-core/src/quantities/index.js';
import { type HeatRows, heatModel } from '../../packages/sim-core/src/questions/identify/heat-model.js';
import { INSTRUMENTS } from '../../packages/sim-core/src/questions/identify/instruments.js';
import { packModel } from '../../packages/sim-core/src/questions/identify/pack-model.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';
import { balance, type Point, type TrueMotor } from './made-bench.js';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));

export const normals = (seed: number): (() => number) => {
  const random = seededRandom(seed, 3);
  return () => inverseNormal(random.fraction());
};

/** The motor of the sweep: 900 rpm/V, 58 mΩ with leads and controller. */
export const SWEPT: TrueMotor = {
  kt: 1 / fromUnit<'speedConstant'>(900, 'rpm/V'),
  resistance: 0.058,
  inductance: 14e-6,
  polePairs: 7,
  constantLoss: 0.0055,
  speedLoss: 5e-6,
  ripple: 8e-6,
  idle: 0.07,
};
export const PROPELLERS = [
  { name: '9x5', torque: 1.4e-7, thrust: 8.5e-6 },
  { name: '10x5', torque: 2.35e-7, thrust: 1.3e-5 },
] as const;

/** Full throttle on four voltages, bare and with both propellers; then both at part throttle; 5 rows a second, 3 s each, a second between. */
export function sweepRows(seed: number): string {
  const normal = normals(seed);
  const volts = [7.5, 9, 10.5, 12];
  const points: Point[] = [
    ...volts.map((supply): Point => ({ supply, duty: 1, propeller: undefined })),
    ...PROPELLERS.flatMap((propeller) => volts.map((supply): Point => ({ supply, duty: 1, propeller }))),
    ...PROPELLERS.flatMap((propeller) => [0.4, 0.6, 0.8].map((duty): Point => ({ supply: 12, duty, propeller }))),
  ];
  const gains = { voltage: 1 + 0.0025 * normal(), current: 1 + 0.005 * normal(), thrust: 1 + 0.005 * normal() };
  const rows: string[] = [];
  let time = 0;
  let last = { speed: 0, current: 0.07, thrust: 0 };
  for (const point of points) {
    const found = balance(SWEPT, point);
    for (let k = 0; k < 20; k++) {
      const part = Math.min(1, k / 4);
      const on = (from: number, to: number) => from + (to - from) * part;
      const [speed, current, thrust] = [on(last.speed, found.speed), on(last.current, found.current), on(last.thrust, found.thrust)];
      rows.push(
        [
          (time / 5).toFixed(1),
          (100 * point.duty).toFixed(0),
          (point.supply / gains.voltage + 0.015 * normal()).toFixed(3),
          Math.max(0, current / gains.current + (0.005 * current + 0.02) * normal()).toFixed(3),
          toUnit(Math.max(0, speed * (1 + 0.002 * normal())), 'rpm').toFixed(0),
          Math.max(0, thrust / gains.thrust + (0.01 * thrust + 0.02) * normal()).toFixed(3),
          point.propeller?.name ?? 'bare',
        ].join(','),
      );
      time++;
    }
    last = found;
  }
  return ['time [s],throttle [%],voltage [V],battery current [A],shaft speed [rpm],thrust [N],propeller', ...rows, ''].join('\n');
}

/** The first candidate of a scenario beside the logs. */
export const candidateOf = (file: string) => preparedOf(file).candidates[0];
/** Its profile and objective. */
export const profileOf = (file: string) => preparedOf(file).scenario;

function preparedOf(file: string) {
  const files = new Map<string, string>([[file, readFileSync(folder + file, 'utf8')]]);
  for (;;) {
    const made = prepareScenario(files, file);
    if (made.kind === 'needs') for (const need of made.needs) files.set(need, readFileSync(folder + need, 'utf8'));
    else if (made.kind === 'ready') return made.prepared;
    else throw new Error(JSON.stringify(made.problems));
  }
}

/** The mapper's motor, its heat data moved by `truth`, driven for six minutes at one power and left to cool; a bead in a slot, a row every 2 s. */
export function heatRows(seed: number, truth: (ways: number) => readonly number[]): HeatRows {
  const { name, given, data } = candidateOf('hot-day-mapper.yaml');
  const system = realise(data);
  const normal = normals(seed);
  const count = 660;
  const running = (k: number): boolean => k < 180;
  const column = (of: (k: number) => number): Float64Array => Float64Array.from({ length: count }, (_, k) => of(k));
  const volts = 22;
  const omega = (0.8 * volts) / system.motor.torqueConstant;
  const blank: HeatRows = {
    time: column((k) => 2 * k),
    voltage: column(() => volts),
    current: column((k) => (running(k) ? 14 : 0.06)),
    speed: column((k) => (running(k) ? omega : 0)),
    thrust: column((k) => (running(k) ? 12 : 0)),
    air: column(() => system.surroundings.motorAirTemperature),
    place: 'in-slot',
    probe: column(() => system.surroundings.motorAirTemperature),
  };
  const model = heatModel(name, given, data, blank);
  const z = [...truth(model.ways.length)];
  while (z.length < model.unknowns) z.push(0);
  const warm = model.predict(z);
  // the model puts rows together; what was read lies straight between them
  const at = (t: number): number => {
    const times = model.rows.time;
    let k = 1;
    while (k < times.length - 1 && times[k] < t) k++;
    const part = Math.min(1, Math.max(0, (t - times[k - 1]) / (times[k] - times[k - 1])));
    return warm[k - 1] + part * (warm[k] - warm[k - 1]);
  };
  return {
    ...blank,
    voltage: blank.voltage.map((v) => v + 0.01 * normal()),
    current: blank.current.map((i) => Math.max(0, i + (0.005 * i + 0.005) * normal())),
    speed: blank.speed.map((w) => w * (1 + 0.002 * normal())),
    probe: blank.time.map((t) => at(t) + 0.3 * normal()),
  };
}

export const WARMER = (ways: number): number[] => Array.from({ length: ways }, (_, k) => [-0.7, 0.6, 0.9, -0.8, 0.5, 0.7, -0.5][k] ?? 0);

function heatText(rows: HeatRows): string {
  const lines = Array.from(rows.time, (t, k) =>
    [
      t.toFixed(0),
      rows.voltage[k].toFixed(2),
      rows.current[k].toFixed(2),
      toUnit(rows.speed[k], 'rpm').toFixed(0),
      (rows.thrust?.[k] ?? 0).toFixed(2),
      toUnit(rows.air[k], '°C').toFixed(1),
      toUnit(rows.probe[k], '°C').toFixed(1),
    ].join(','),
  );
  return [
    'time [s],voltage [V],battery current [A],shaft speed [rpm],thrust [N],air temperature [°C],in slot temperature [°C]',
    ...lines,
    '',
  ].join('\n');
}

/** The boat's pack, a little tired, at 30 A with a minute's pause every four: a row every 2 s. */
export function dischargeText(seed: number, factors = { capacity: 0.95, resistance: 1.3, slow: 0.9 }): string {
  const { data } = candidateOf('survey-boat.yaml');
  const { battery, start } = realise(data);
  const normal = normals(seed);
  const truth = {
    ...battery,
    capacity: factors.capacity * battery.capacity,
    cellResistance: factors.resistance * battery.cellResistance,
    polarisationResistance: factors.slow * battery.polarisationResistance,
    voltageOffset: 0.008,
  };
  const time: number[] = [];
  const current: number[] = [];
  for (let k = 0, drawn = 0; drawn < 0.9 * truth.capacity; k++) {
    const amps = k < 3 || k % 150 >= 120 ? 0 : 30;
    time.push(2 * k);
    current.push(amps);
    drawn += 2 * amps;
  }
  const rows = {
    time: Float64Array.from(time),
    current: Float64Array.from(current),
    voltage: new Float64Array(time.length).fill(15),
    temperature: new Float64Array(time.length).fill(Number.NaN),
  };
  const model = packModel(rows, { battery: truth, charge: start.charge, temperature: start.cellTemperature, instruments: INSTRUMENTS });
  const volts = model.predict(new Float64Array(model.unknowns));
  const gains = { voltage: 1 + 0.0025 * normal(), current: 1 + 0.005 * normal() };
  const lines = time.map((t, k) =>
    [
      t,
      (volts[k] / gains.voltage + 0.015 * normal()).toFixed(3),
      Math.max(0, current[k] / gains.current + 0.02 * normal()).toFixed(2),
    ].join(','),
  );
  return ['time [s],voltage [V],battery current [A]', ...lines, ''].join('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync(`${folder}logs`, { recursive: true });
  writeFileSync(`${folder}logs/motor-sweep.csv`, sweepRows(11));
  writeFileSync(`${folder}logs/heat-and-cool.csv`, heatText(heatRows(12, WARMER)));
  writeFileSync(`${folder}logs/discharge.csv`, dischargeText(13));
}
