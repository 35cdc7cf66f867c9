/** Shapes and windings at the JSON edge: shown units, every numeric key ends in its unit. @module */

import { toUnit } from '../quantities/index.js';
import type { ShapePoint, ShapeResult } from '../results/shape-result.js';
import type { WindingPoint, WindingResult } from '../results/winding-result.js';

type Unit = Parameters<typeof toUnit>[1];
/** Unit and suffix by key; what has none is plain. */
const UNITS: Readonly<Record<string, readonly [unit: Unit, suffix: string]>> = {
  diameter: ['mm', '_mm'],
  length: ['mm', '_mm'],
  stackLength: ['mm', '_mm'],
  mass: ['g', '_g'],
  sideArea: ['cm²', '_cm2'],
  endArea: ['cm²', '_cm2'],
  resistance: ['mohm', '_mohm'],
  noLoadCurrent: ['A', '_A'],
  motorConstant: ['mN·m', '_mNm_per_sqrtW'],
  shearStress: ['kPa', '_kPa'],
  rotorSurfaceSpeed: ['m/s', '_m_per_s'],
  peakWindingTemperature: ['°C', '_degC'],
  peakCanTemperature: ['°C', '_degC'],
  peakMotorCurrent: ['A', '_A'],
  peakBatteryCurrent: ['A', '_A'],
  continuousCurrent: ['A', '_A'],
  speedConstant: ['rpm/V', '_rpm_per_V'],
  topSpeed: ['m/s', '_m_per_s'],
  chargeLeft: ['%', '_percent'],
  runTime: ['s', '_s'],
  from: ['rpm/V', '_rpm_per_V'],
  to: ['rpm/V', '_rpm_per_V'],
};

/** The objective stands in the SI unit that its document names. */
const inUnits = (point: object): object =>
  Object.fromEntries(
    Object.entries(point).map(([key, value]) => {
      const unit = UNITS[key];
      return unit === undefined || typeof value !== 'number' ? [key, value] : [key + unit[1], toUnit(value, unit[0])];
    }),
  );
const optional = (key: string, value: object | undefined): object => (value === undefined ? {} : { [key]: inUnits(value) });

/** The shapes as plain JSON, units in the keys. */
export const shapeJson = ({ family, real, best, bestUnbounded, space, drivers, ...rest }: ShapeResult): object => ({
  ...rest,
  ...optional('best', best satisfies ShapePoint | undefined),
  ...optional('bestUnbounded', bestUnbounded),
  ...optional('space', space),
  drivers: drivers.map(({ change, ...each }) => ({ ...each, change_K: change })),
  family: family.map(inUnits),
  real: real.map(inUnits),
});

/** The windings as plain JSON, units in the keys. */
export const windingJson = ({ schema, candidates }: WindingResult): object => ({
  schema,
  candidates: candidates.map(({ points, reference, best, range, ...rest }) => ({
    ...rest,
    reference: inUnits(reference),
    ...optional('best', best satisfies WindingPoint | undefined),
    ...optional('range', range),
    points: points.map(inUnits),
  })),
});
