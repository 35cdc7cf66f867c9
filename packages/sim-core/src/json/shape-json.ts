/** Shapes and windings at the JSON edge: shown units, every numeric key ends in its unit. @module */

import type { ShapePoint, ShapeResult } from '../results/shape-result.js';
import type { WindingPoint, WindingResult } from '../results/winding-result.js';
import { inUnits, type Units } from './in-units.js';

const BINDING = { marginShare: 'plain' } as const;
const SHAPE: Units<ShapePoint> = {
  ratio: 'plain',
  diameter: 'length',
  length: 'length',
  stackLength: 'length',
  mass: 'mass',
  sideArea: 'area',
  endArea: 'area',
  resistance: 'resistance',
  noLoadCurrent: 'current',
  motorConstant: 'motorConstant',
  shearStress: 'pressure',
  rotorSurfaceSpeed: 'speed',
  peakWindingTemperature: 'temperature',
  peakCanTemperature: 'temperature',
  peakMotorCurrent: 'current',
  continuousCurrent: 'current',
  binding: BINDING,
};
/** The objective stands in the SI unit that its document names. */
const WINDING: Units<WindingPoint> = {
  speedConstant: 'speedConstant',
  turns: 'plain',
  resistance: 'resistance',
  noLoadCurrent: 'current',
  peakWindingTemperature: 'temperature',
  peakMotorCurrent: 'current',
  peakBatteryCurrent: 'current',
  topSpeed: 'speed',
  chargeLeft: 'fraction',
  runTime: 'time',
  objective: 'plain',
  stepsNotHeld: 'plain',
  binding: BINDING,
};

/** The shapes as plain JSON, units in the keys; what is one beside the many, before the lists. */
export const shapeJson = ({ family, real, best, bestUnbounded, space, drivers, ...rest }: ShapeResult): object => ({
  ...rest,
  ...inUnits(
    {
      ...(best === undefined ? {} : { best }),
      ...(bestUnbounded === undefined ? {} : { bestUnbounded }),
      ...(space === undefined ? {} : { space }),
      drivers,
      family,
      real,
    },
    {
      best: SHAPE,
      bestUnbounded: SHAPE,
      space: { diameter: 'length', length: 'length' },
      drivers: { change: 'temperatureDifference' },
      family: SHAPE,
      real: SHAPE,
    },
  ),
});

/** The windings as plain JSON, units in the keys; what is one beside the many, before the list. */
export const windingJson = ({ schema, candidates }: WindingResult): object => ({
  schema,
  candidates: candidates.map(({ points, reference, best, range, ...rest }) => ({
    ...rest,
    ...inUnits(
      { reference, ...(best === undefined ? {} : { best }), ...(range === undefined ? {} : { range }), points },
      { reference: WINDING, best: WINDING, range: { from: 'speedConstant', to: 'speedConstant' }, points: WINDING },
    ),
  })),
});
