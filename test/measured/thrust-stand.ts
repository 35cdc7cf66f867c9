/**
 * Small outrunners with 5-inch propellers on two supplies (checks/measured/thrust-stand.csv: StrawsonDesign, motor_propeller_testing, MIT licence).
 *
 * 1 from the label: Kv and size only; the propeller by the thrust that the *other* motors' rows show, its torque by the usual figure of merit;
 *   full throttle, where the supply was not at its limit
 * 2 the same with a resistance, read off one full-throttle row at the label's Kv as a person with a tachometer would; the other rows judge
 * 3 one supply given: the propeller's power factor fitted to one supply's rows at their speeds, the other supply's rows predicted
 */
import { readFileSync } from 'node:fs';
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import { RPM } from '../../packages/sim-core/src/quantities/index.js';
import { type BenchPoint, benchSystem, compare, draws, onSupply, steady } from './bench-drive.js';
import { readTable } from './read-table.js';
import { type Compared, type Section, type ValidationRow, validationRow } from './validation.js';

const FULL = 2000;
type BenchRow = Readonly<Record<string, string>>;
const isFull = (row: BenchRow): boolean => Number(row.esc_us) >= FULL;
/** Mass [g], can diameter and length [mm] of motors of these sizes, from memory: 22 or 23 mm stators of 5 or 6 mm. */
const SIZES: Readonly<Record<string, readonly [number, number, number]>> = {
  '2205': [28, 28, 30],
  '2206': [31, 28, 31],
  '2306': [33, 29, 31],
};

const pointOf = (row: BenchRow): BenchPoint => ({
  speed: Number(row.rpm) * RPM,
  power: Number(row.supply_V) * Number(row.supply_A),
  current: Number(row.supply_A),
  thrust: Number(row.thrust_N),
});

/** Motor by its label and size, propeller by the thrust that rows of other motors show. */
function scenarioOf(rows: readonly BenchRow[], motor: string, propeller: string, resistance?: number): string {
  const [, size, kv] = /\((\d+)-size, label (\d+) rpm/.exec(motor)!;
  const [mass, diameter, length] = SIZES[size];
  const others = rows.filter((row) => row.propeller === propeller && row.motor !== motor && Number(row.thrust_N) > 0.5);
  const points = others.map((row) => `{ shaft_speed: ${row.rpm} rpm, thrust: ${row.thrust_N} N }`);
  return `title: bench
ambient: { air: 20 °C }
start: { temperature: 70 °C ± 40 K, battery_temperature: 20 °C }
battery: { supply: 11.1 V ± 0 % }
wiring: { resistance: 4 mohm ± 90 % }
propeller: { kind: measured-points, diameter: 5 in, points: [${points.join(', ')}] }
profile: [{ for: 1 s, throttle: 100 % }]
candidates: [{ name: ${motor[0]}, motor: { layout: outrunner, kv: ${kv} rpm/V, ${resistance === undefined ? '' : `resistance: ${1000 * resistance} mohm, `}poles: 14, mass: ${mass} g, can: { diameter: ${diameter} mm, length: ${length} mm } } }]
`;
}

/** Resistance [Ω] at which the label's Kv turns the propeller as fast at full throttle as the row says. */
function resistanceOf(rows: readonly BenchRow[], row: BenchRow): number {
  let [low, high] = [0.01, 1];
  while (high - low > 1e-4) {
    const middle = 0.5 * (low + high);
    const system = benchSystem(scenarioOf(rows, row.motor!, row.propeller!, middle))();
    if (steady(onSupply(system, Number(row.supply_V)), 'throttle', 1).speed > pointOf(row).speed) low = middle;
    else high = middle;
  }
  return high;
}

type Figures = { [K in keyof BenchPoint]: Compared[] };
const nothing = (): Figures => ({ speed: [], power: [], current: [], thrust: [] });

const NAME = 'thrust stand, three small outrunners';
const figures = (of: Figures, from: string): ValidationRow[] =>
  (['speed', 'power', 'current', 'thrust'] as const).map((figure) =>
    validationRow(NAME, `${figure} at full throttle, ${from}`, of[figure]),
  );

export function thrustStand(path: string): Section {
  const rows: readonly BenchRow[] = readTable(readFileSync(path, 'utf8')).filter((row) => row.valid === '1' && row.supply_limited === '0');
  const [label, read] = [nothing(), nothing()];
  const drawn = draws(14);
  const readings = new Map<string, { readonly row: BenchRow; readonly resistance: number }>();
  for (const row of rows)
    if (isFull(row) && !readings.has(row.motor!)) readings.set(row.motor!, { row, resistance: resistanceOf(rows, row) });

  /** Predicts a full-throttle row and keeps what was found in `into`. */
  const judge = (make: ReturnType<typeof benchSystem>, row: BenchRow, into: Figures): void => {
    const found = compare(make, drawn, (system) => steady(onSupply(system, Number(row.supply_V)), 'throttle', 1), pointOf(row));
    for (const figure of ['speed', 'power', 'current', 'thrust'] as const) into[figure].push(found[figure]);
  };
  const other: Compared[] = [];
  const groups = new Map<string, BenchRow[]>();
  for (const row of rows) {
    const key = `${row.motor}|${row.propeller}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  for (const [key, group] of groups) {
    const [motor, propeller] = key.split('|');
    const make = benchSystem(scenarioOf(rows, motor!, propeller!));
    const reading = readings.get(motor!)!;
    const makeRead = benchSystem(scenarioOf(rows, motor!, propeller!, reading.resistance));
    for (const row of group.filter(isFull)) {
      judge(make, row, label);
      if (row !== reading.row) judge(makeRead, row, read);
    }
    // one supply's rows set the propeller's power, the other's are predicted at their speeds
    const system = makeRead();
    const supplies = [...new Set(group.map(({ nominal_V }) => nominal_V))];
    for (const given of supplies) {
      const known = group.filter(({ nominal_V }) => nominal_V === given);
      const asked = group.filter(({ nominal_V }) => nominal_V !== given);
      if (asked.length === 0) continue;
      const factored = (factor: number): DriveSystem => {
        if (system.load.kind !== 'propeller') throw new RangeError('no propeller');
        return { ...system, load: { ...system.load, powerFactor: factor } };
      };
      const powerAt = (factor: number, row: BenchRow): number =>
        steady(onSupply(factored(factor), Number(row.supply_V)), 'shaftSpeed', Number(row.rpm) * RPM).power;
      let factor = 1;
      // power is nearly straight in the factor: a few secants of least squares
      for (let pass = 0; pass < 6; pass++) {
        let [top, bottom] = [0, 0];
        for (const row of known) {
          const predicted = powerAt(factor, row);
          const slope = (powerAt(factor * 1.01, row) - predicted) / (0.01 * factor);
          top += slope * (pointOf(row).power - predicted);
          bottom += slope * slope;
        }
        factor += top / bottom;
      }
      const greatest = Math.max(...asked.map((row) => pointOf(row).power));
      for (const row of asked) {
        const predicted = powerAt(factor, row);
        other.push({ predicted: predicted / greatest, measured: pointOf(row).power / greatest });
      }
    }
  }
  return {
    data: `Three outrunners with four 5-inch propellers on 7.4 and 11.1 V (StrawsonDesign, motor_propeller_testing, MIT licence). Known are Kv as labelled and the
size, then a resistance too, read off one full-throttle row at the label's Kv (${[...readings.values()].map(({ resistance }) => (1000 * resistance).toFixed(0)).join(', ')} mΩ); no-load current and inductance come from
rules, the propeller's thrust from the other motors' rows, its torque from the usual figure of merit. Rows at the supply's current limit are left out.`,
    rows: [
      ...figures(label, 'label and size alone'),
      ...figures(read, 'resistance read off one row'),
      validationRow(NAME, 'power at measured speed, from the other supply; of full power', other, { scale: 1 }),
    ],
  };
}
