/**
 * Calculated and carried propellers against many measured ones: how far off, and how much of the measurement lies in the interval that is stated.
 *
 * Rows from rest to 0.8 of the advance ratio without thrust, from 1500 rpm on; every propeller counts alike.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import type { BladeFamily } from '../../packages/sim-core/src/parts/propeller/blade-families.js';
import { emptyCoefficients, evaluateTable } from '../../packages/sim-core/src/parts/propeller/coefficient-lookup.js';
import { createCoefficientTable } from '../../packages/sim-core/src/parts/propeller/coefficient-table.js';
import { carriedPast } from '../../packages/sim-core/src/parts/propeller/fall-with-speed.js';
import { tableAt } from '../../packages/sim-core/src/parts/propeller/table-fan.js';
import { completeBlades } from '../../packages/sim-core/src/provenance/complete/complete-blades.js';
import {
  type Bench,
  type Curves,
  completeMeasuredPoints,
} from '../../packages/sim-core/src/provenance/complete/complete-measured-points.js';
import { createFiller } from '../../packages/sim-core/src/provenance/complete/filler.js';
import type { Datum } from '../../packages/sim-core/src/provenance/datum.js';
import type { GivenBladeElement, GivenReadings } from '../../packages/sim-core/src/provenance/given.js';
import { writtenDatum } from '../../packages/sim-core/src/provenance/written.js';
import { drawn } from '../../packages/sim-core/src/quantities/index.js';
import { quantile } from '../quantile.js';
import type { Section, ValidationRow } from './validation.js';

const INCH = 0.0254;
/** Air of a laboratory; the database does not print it with the coefficients. */
const AIR = { density: 1.2, kinematicViscosity: 1.54e-5 };
/** Slower runs scatter more than propellers do [rpm]. */
const SLOWEST = 1500;
const SHARE_OF_RANGE = 0.8;
const DRAWS = 256;

interface Row {
  readonly turns: number;
  readonly advanceRatio: number;
  readonly thrust: number;
  readonly power: number;
}
export interface MeasuredPropeller {
  readonly name: string;
  readonly maker: string;
  readonly form: string;
  readonly blades: number;
  readonly diameter: number;
  readonly pitch: number;
  readonly rows: readonly Row[];
  readonly stations: readonly { readonly radius: number; readonly chord: number; readonly twist: number }[];
}

const cellsOf = (text: string): Record<string, string>[] => {
  const [head, ...lines] = text
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(','));
  return lines.map((line) => Object.fromEntries(head.map((key, i) => [key, line[i] ?? ''])));
};

function grouped<T, K>(items: readonly T[], key: (item: T) => K): Map<K, T[]> {
  const found = new Map<K, T[]>();
  for (const item of items) found.set(key(item), [...(found.get(key(item)) ?? []), item]);
  return found;
}

export function readPropellers(performance: string, geometry: string): MeasuredPropeller[] {
  const stations = cellsOf(geometry);
  const byName = grouped(cellsOf(performance), (row) => row['name']);
  return [...byName].map(([name, cells]) =>
    measuredPropeller(
      {
        name,
        maker: cells[0]['maker'],
        form: cells[0]['form'],
        blades: Number(cells[0]['blades']),
        diameter: Number(cells[0]['diameter_in']) * INCH,
        pitch: Number(cells[0]['pitch_in']) * INCH,
        stations: stations
          .filter((row) => row['name'] === name)
          .map((row) => ({
            radius: Number(row['radius_over_tip']),
            chord: Number(row['chord_over_tip']),
            twist: (Number(row['twist_deg']) * Math.PI) / 180,
          })),
      },
      cells.map((row) => ({
        turns: Number(row['rpm']) / 60,
        advanceRatio: Number(row['J']),
        thrust: Number(row['CT']),
        power: Number(row['CP']),
      })),
    ),
  );
}

/** A propeller with those of its rows that judge. */
export function measuredPropeller(known: Omit<MeasuredPropeller, 'rows'>, rows: readonly Row[]): MeasuredPropeller {
  const limit = SHARE_OF_RANGE * zeroThrust(rows);
  return { ...known, rows: rows.filter(({ turns, advanceRatio }) => 60 * turns >= SLOWEST && advanceRatio <= limit) };
}

/** The advance ratio at which the thrust first vanishes; by a straight line past the last rows where it does not. */
function zeroThrust(rows: readonly Row[]): number {
  const sorted = [...rows].sort((a, b) => a.advanceRatio - b.advanceRatio);
  const after = sorted.findIndex(({ thrust }) => thrust <= 0);
  const [before, zero] = after < 0 ? sorted.slice(-2) : [sorted[after - 1], sorted[after]];
  if (before.thrust === zero.thrust) return zero.advanceRatio;
  return before.advanceRatio + ((zero.advanceRatio - before.advanceRatio) * before.thrust) / (before.thrust - zero.thrust);
}

/** The family of a form, where it has one. */
const FAMILIES: Readonly<Record<string, BladeFamily>> = {
  thin: 'thin',
  broad: 'broad',
  stout: 'stout',
  folding: 'folding',
  'folding-blade': 'folding',
};

const place = { file: 'measured', line: 1, column: 1, path: 'propeller' };
/** As a person writes it who writes no ±. */
const written = <D extends Parameters<typeof writtenDatum>[1]>(subject: string, dimension: D, value: number): Datum<D> =>
  writtenDatum(subject, dimension, value, undefined, place);
const fastestAtRest = ({ rows }: MeasuredPropeller): Row =>
  rows.filter(({ advanceRatio }) => advanceRatio === 0).reduce((a, b) => (b.turns > a.turns ? b : a));

function readingAtRest(propeller: MeasuredPropeller): GivenReadings {
  const { turns, thrust, power } = fastestAtRest(propeller);
  const scale = AIR.density * turns ** 2 * propeller.diameter ** 4;
  return {
    points: [
      {
        shaftSpeed: written('propeller.points.shaft_speed', 'angularSpeed', 2 * Math.PI * turns),
        thrust: written('propeller.points.thrust', 'force', thrust * scale),
        torque: written('propeller.points.torque', 'torque', (power * scale * propeller.diameter) / (2 * Math.PI)),
      },
    ],
  };
}

const temperature = written('ambient.air', 'temperature', 297);
const bench: Bench = {
  medium: {
    airTemperature: temperature,
    airPressure: written('ambient.pressure', 'pressure', 101325),
    waterTemperature: temperature,
    waterKind: undefined,
  },
  drive: { place, vehicle: { place } },
};
type Basis = (propeller: MeasuredPropeller) => Curves | undefined;
const fill = () => createFiller('measured');
const calculated = (propeller: MeasuredPropeller, given: Partial<GivenBladeElement>): Curves =>
  completeBlades(fill(), { kind: 'blade-element', place, blades: propeller.blades, ...given }, propeller.diameter, AIR, bench);
const family = ({ form }: MeasuredPropeller) => (FAMILIES[form] === undefined ? {} : { family: FAMILIES[form] });
const pitch = (propeller: MeasuredPropeller) => ({ pitch: written('propeller.pitch', 'length', propeller.pitch) });
const withStations =
  (given: (propeller: MeasuredPropeller) => Partial<GivenBladeElement>): Basis =>
  (propeller) =>
    propeller.stations.length === 0
      ? undefined
      : calculated(propeller, { stations: propeller.stations, ...family(propeller), ...given(propeller) });
const withFamily =
  (given: (propeller: MeasuredPropeller) => Partial<GivenBladeElement>): Basis =>
  (propeller) =>
    FAMILIES[propeller.form] === undefined
      ? undefined
      : calculated(propeller, { ...pitch(propeller), ...family(propeller), ...given(propeller) });

/** A table made of every other row of the run with the most rows, judged by all others. */
const everyOther: Basis = (propeller) => {
  const runs = [
    ...grouped(
      propeller.rows.filter(({ advanceRatio }) => advanceRatio > 0),
      ({ turns }) => turns,
    ).values(),
  ];
  const longest = runs.reduce((a, b) => (b.length > a.length ? b : a)).sort((a, b) => a.advanceRatio - b.advanceRatio);
  const rows = [{ ...fastestAtRest(propeller) }, ...longest.filter((_, i) => i % 2 === 0)]
    .filter((row, i, all) => i === 0 || row.advanceRatio > all[i - 1].advanceRatio + 1e-6)
    .map(({ advanceRatio, thrust, power }) => ({ advanceRatio, thrustCoefficient: thrust, powerCoefficient: power }));
  const filler = fill();
  try {
    return {
      table: rows.length < 2 ? createCoefficientTable(rows) : carriedPast(rows, 'air'),
      thrustFactor: filler.by('air-coefficient-error'),
      powerFactor: filler.by('air-power-coefficient-error'),
    };
  } catch {
    return undefined;
  }
};

export const BASES: Readonly<Record<string, Basis>> = {
  'chord and twist': withStations(() => ({})),
  'chord, twist, printed pitch': withStations(pitch),
  'diameter × pitch, family': withFamily(() => ({})),
  'diameter × pitch alone': (propeller) => calculated(propeller, pitch(propeller)),
  'the same with a point at rest, family': withFamily(readingAtRest),
  'the same with a point at rest, no family': (propeller) => calculated(propeller, { ...pitch(propeller), ...readingAtRest(propeller) }),
  'chord and twist with a point at rest': withStations(readingAtRest),
  'a point at rest alone': (propeller) =>
    completeMeasuredPoints(
      fill(),
      { kind: 'measured-points', place, ...readingAtRest(propeller) },
      propeller.diameter,
      AIR.density,
      bench,
      'air',
    ),
  'a measured table': everyOther,
};

/** ln(calculated/measured) of a propeller's rows in one draw. */
interface Errors {
  readonly thrust: number[];
  readonly power: number[];
}
function errorsOf(propeller: MeasuredPropeller, curves: Curves, z: readonly [number, number, number]): Errors {
  const { shape, thrustFactor, powerFactor } = curves;
  const at = (datum: Datum, deviate: number): number => drawn(datum.value, datum.unknown.spread, deviate);
  const table = shape === undefined ? curves.table : tableAt(shape.fan, at(shape.amount, z[0]));
  const [onThrust, onPower] = [at(thrustFactor, z[1]), at(powerFactor, z[2])];
  const point = emptyCoefficients();
  const errors: Errors = { thrust: [], power: [] };
  for (const row of propeller.rows) {
    evaluateTable(table, row.advanceRatio, Math.log((row.turns * propeller.diameter ** 2) / AIR.kinematicViscosity), point);
    errors.thrust.push((onThrust * point.thrustCoefficient) / row.thrust - 1);
    errors.power.push((onPower * point.powerCoefficient) / row.power - 1);
  }
  return errors;
}

export interface Judged {
  readonly propeller: MeasuredPropeller;
  /** Nominal errors by row, and whether each lies in the 95 % interval. */
  readonly nominal: Errors;
  readonly inside: { readonly thrust: readonly boolean[]; readonly power: readonly boolean[]; readonly efficiency: readonly boolean[] };
}

export function judge(propeller: MeasuredPropeller, curves: Curves): Judged {
  const random = seededRandom(5, 1);
  const deviates = Array.from({ length: DRAWS }, () => [0, 0, 0].map(() => inverseNormal(random.fraction())) as [number, number, number]);
  const draws = deviates.map((z) => errorsOf(propeller, curves, z));
  const covers = (take: (errors: Errors, row: number) => number): boolean[] =>
    propeller.rows.map((_, row) => {
      const values = draws.map((errors) => take(errors, row));
      return quantile(values, 0.025) <= 0 && quantile(values, 0.975) >= 0;
    });
  return {
    propeller,
    nominal: errorsOf(propeller, curves, [0, 0, 0]),
    inside: {
      thrust: covers(({ thrust }, row) => thrust[row]),
      power: covers(({ power }, row) => power[row]),
      efficiency: covers(({ thrust, power }, row) => (1 + thrust[row]) / (1 + power[row]) - 1),
    },
  };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Share of moving rows whose efficiency is met within a tenth. */
const efficiencyMet = (judged: readonly Judged[]): number =>
  mean(
    judged.map(({ propeller, nominal: { thrust, power } }) =>
      mean(
        propeller.rows.flatMap(({ advanceRatio }, i) =>
          advanceRatio > 0 ? [Number(Math.abs((1 + thrust[i]) / (1 + power[i]) - 1) < 0.1)] : [],
        ),
      ),
    ),
  );

/** Lines of one basis; every propeller counts alike. Thrust and power over all rows, moving ones apart, efficiency of moving rows. */
export function linesOf(table: string, judged: readonly Judged[]): ValidationRow[] {
  const line = (quantity: string, values: (each: Judged) => number[], inside: (each: Judged) => boolean[]): ValidationRow => {
    const some = judged.filter((each) => values(each).length > 0);
    return {
      table,
      quantity,
      rows: some.length,
      rms: 100 * Math.sqrt(mean(some.map((each) => mean(values(each).map((error) => error ** 2))))),
      bias: 100 * mean(some.map((each) => mean(values(each)))),
      unit: '%',
      inside: mean(some.map((each) => mean(inside(each).map(Number)))),
    };
  };
  const moving = ({ propeller: { rows } }: Judged) => rows.map(({ advanceRatio }) => advanceRatio > 0);
  const only = <T>(values: readonly T[], kept: readonly boolean[]): T[] => values.filter((_, i) => kept[i]);
  const efficiency = ({ nominal: { thrust, power } }: Judged) => thrust.map((error, i) => (1 + error) / (1 + power[i]) - 1);
  return [
    line(
      'CT',
      ({ nominal }) => nominal.thrust,
      ({ inside }) => [...inside.thrust],
    ),
    line(
      'CT moving',
      (each) => only(each.nominal.thrust, moving(each)),
      (each) => only(each.inside.thrust, moving(each)),
    ),
    line(
      'CP',
      ({ nominal }) => nominal.power,
      ({ inside }) => [...inside.power],
    ),
    line(
      'CP moving',
      (each) => only(each.nominal.power, moving(each)),
      (each) => only(each.inside.power, moving(each)),
    ),
    line(
      'efficiency',
      (each) => only(efficiency(each), moving(each)),
      (each) => only(each.inside.efficiency, moving(each)),
    ),
  ];
}

export function propellers(folder: string): Section {
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const all = readPropellers(read('performance.csv'), read('geometry.csv'));
  const bases = Object.entries(BASES).map(([name, basis]) => ({
    name,
    judged: all.flatMap((propeller) => {
      const curves = basis(propeller);
      return curves === undefined ? [] : [judge(propeller, curves)];
    }),
  }));
  const met = bases.map(({ judged }) => 100 * efficiencyMet(judged));
  return {
    data: `Rows of ${all.length} propellers (UIUC Propeller Database, vols. 1–3, J. B. Brandt, R. W. Deters, G. K. Ananda, O. D. Dantsker, M. S. Selig, University of Illinois at
Urbana-Champaign, as repackaged; makers' names not known here) from rest to 0.8 of the advance ratio without thrust, from ${SLOWEST} rpm on; ${all.length} less those whose basis is
not known, each propeller counting alike (rows tells how many). Efficiency lies within 10 % for ${Math.min(...met).toFixed(0)} to ${Math.max(...met).toFixed(0)} % of the moving rows.`,
    rows: bases.flatMap(({ name, judged }) => linesOf(name, judged)),
    interval: '95 %',
  };
}
