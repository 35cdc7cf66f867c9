/**
 * The heat data of a motor that a part file can hold, as unknowns of a fit: every one written out, so that what is fitted is what is read back.
 *
 * Before the log each has the value and the doubt that the rules or the sheet give it. An inrunner's way from can to air and an outrunner's mount
 * are the whole ways, joint and surface together; what cannot be written (surfaces of a turning bell) stays as the rules have it.
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { HeatPaths } from '../../heat/heat-paths.js';
import { complete } from '../../provenance/complete/complete.js';
import { type Data, type Datum, givenDatum } from '../../provenance/datum.js';
import type { GivenDrive, GivenMotor } from '../../provenance/given.js';
import { realiser } from '../../provenance/realise.js';
import { unknownsOf } from '../../provenance/unknowns.js';
import type { Dimension, Spread } from '../../quantities/index.js';

type Thermal = NonNullable<GivenMotor['thermal']>;
/** Nominal values that a way is begun from: at the mean speed of the run. */
export interface Begun {
  readonly heat: HeatPaths;
  readonly shaftSpeed: number;
  /** What the mount takes a kelvin from an outrunner's stator, or all surfaces from an inrunner's can [W/K]. */
  readonly outside: number;
  readonly throughFlow: number;
}

export interface HeatDatum {
  /** Path of keys below motor.thermal, or below cooling. */
  readonly key:
    | 'winding_to_stator'
    | 'stator_to_can'
    | 'can_to_air'
    | 'stator_to_air'
    | 'winding_capacity'
    | 'stator_capacity'
    | 'can_capacity'
    | 'mount';
  readonly words: string;
  readonly dimension: 'conductance' | 'heatCapacity';
  readonly layouts: readonly ('inrunner' | 'outrunner')[];
  readonly begin: (begun: Begun) => number;
  readonly write: (given: Written, datum: Datum) => Written;
}
interface Written {
  readonly thermal: Thermal;
  readonly mount?: Datum<'conductance'>;
}

const both = ['inrunner', 'outrunner'] as const;
const conductance = (datum: Datum): Datum<'conductance'> => ({ ...datum, dimension: 'conductance' });
const capacity = (datum: Datum): Datum<'heatCapacity'> => ({ ...datum, dimension: 'heatCapacity' });
const thermal =
  (write: (datum: Datum) => Thermal): HeatDatum['write'] =>
  (given, datum) => ({ ...given, thermal: { ...given.thermal, ...write(datum) } });

export const HEAT_DATA: readonly HeatDatum[] = [
  {
    key: 'winding_to_stator',
    words: 'conductance from winding to stator',
    dimension: 'conductance',
    layouts: both,
    begin: ({ heat }) => heat.windingToStator,
    write: thermal((datum) => ({ windingToStator: conductance(datum) })),
  },
  {
    key: 'stator_to_can',
    words: 'conductance from stator to can',
    dimension: 'conductance',
    layouts: both,
    begin: ({ heat }) => (heat.layout === 'outrunner' ? heat.statorToMagnets : heat.statorToCan),
    write: thermal((datum) => ({ statorToCan: conductance(datum) })),
  },
  {
    key: 'stator_to_air',
    words: 'conductance from stator to the air through the turning motor',
    dimension: 'conductance',
    layouts: ['outrunner'],
    begin: ({ throughFlow }) => throughFlow,
    write: thermal((datum) => ({ statorToAir: { conductance: conductance(datum) } })),
  },
  {
    key: 'can_to_air',
    words: 'conductance from can to air and mount, the whole way',
    dimension: 'conductance',
    layouts: ['inrunner'],
    begin: ({ outside }) => outside,
    write: thermal((datum) => ({ canToAir: conductance(datum) })),
  },
  {
    key: 'mount',
    words: 'conductance of the mount, turning or not',
    dimension: 'conductance',
    layouts: ['outrunner'],
    begin: ({ outside }) => outside,
    write: (given, datum) => ({ ...given, mount: conductance(datum) }),
  },
  {
    key: 'winding_capacity',
    words: 'heat capacity of the winding',
    dimension: 'heatCapacity',
    layouts: both,
    begin: ({ heat }) => heat.capacity.winding,
    write: thermal((datum) => ({ windingCapacity: capacity(datum) })),
  },
  {
    key: 'stator_capacity',
    words: 'heat capacity of the stator',
    dimension: 'heatCapacity',
    layouts: both,
    begin: ({ heat }) => heat.capacity.stator,
    write: thermal((datum) => ({ statorCapacity: capacity(datum) })),
  },
  {
    key: 'can_capacity',
    words: 'heat capacity of can and ends, of an outrunner the bell with its magnets',
    dimension: 'heatCapacity',
    layouts: both,
    begin: ({ heat }) => heat.capacity.can + (heat.layout === 'outrunner' ? heat.capacity.magnets : 0),
    write: thermal((datum) => ({ canCapacity: capacity(datum) })),
  },
];

/** Doubt of what is written at most, where the rules say more or cannot say: × or ÷ 5. */
const WIDEST = Math.log(5) / 1.96;
const LEAST = 0.05;

export interface HeatUnknown {
  readonly way: HeatDatum;
  readonly start: number;
  /** Of the logarithm, before the log. */
  readonly deviation: number;
  /** Its key in a draw. */
  readonly draw: string;
}

export interface WrittenOutHeat {
  readonly unknowns: readonly HeatUnknown[];
  /** The drive with the deviate of each unknown. */
  readonly system: (z: ArrayLike<number>) => DriveSystem;
}

/** Throws RangeError where the drive cannot be completed with its heat written out. */
export function heatWrittenOut(
  name: string,
  given: GivenDrive,
  data: DriveSystem<Data>,
  begunOf: (system: DriveSystem) => Begun,
): WrittenOutHeat {
  const plain = realiser(data);
  const begun = begunOf(plain());
  const entries = unknownsOf([{ name, data: { heat: data.heat } }]);
  const { layout } = begun.heat;
  const ways = HEAT_DATA.filter(({ layouts }) => layouts.includes(layout));
  // how far each may be off is what all unknowns of the rules, one after another, do to it
  const squares = ways.map(() => 0);
  for (const { key } of entries) {
    const moved = begunOf(plain((asked) => (asked === key ? 1 : 0)));
    ways.forEach((way, k) => {
      const slope = Math.log(way.begin(moved) / way.begin(begun));
      if (Number.isFinite(slope)) squares[k] += slope * slope;
    });
  }
  const unknowns = ways.map((way, k): HeatUnknown => {
    const place = { file: 'identify', line: k + 1, column: 1, path: `motor.thermal.${way.key}` };
    return {
      way,
      start: way.begin(begun),
      deviation: Math.min(WIDEST, Math.max(LEAST, Math.sqrt(squares[k]))),
      draw: `${place.file}:${place.line}:${place.column}`,
    };
  });
  let written: Written = { thermal: {} };
  unknowns.forEach(({ way, start, deviation }, k) => {
    const spread: Spread = { shape: 'log-normal', sigma: deviation };
    const place = { file: 'identify', line: k + 1, column: 1, path: `motor.thermal.${way.key}` };
    written = way.write(written, givenDatum<Dimension>(`motor.thermal.${way.key}`, way.dimension, start, spread, place));
  });
  const flow = written.thermal.statorToAir;
  const completed = complete(name, {
    ...given,
    ...(given.motor === undefined
      ? {}
      : {
          motor: {
            ...given.motor,
            thermal: {
              ...written.thermal,
              ...(flow === undefined
                ? {}
                : {
                    statorToAir: {
                      ...flow,
                      atSpeed: givenDatum(
                        'motor.thermal.stator_to_air.at_speed',
                        'angularSpeed',
                        begun.shaftSpeed,
                        { shape: 'none' },
                        { file: 'identify', line: 99, column: 1, path: 'at_speed' },
                      ),
                    },
                  }),
            },
          },
        }),
    ...(written.mount === undefined
      ? {}
      : {
          cooling: {
            ...given.cooling,
            place: given.cooling?.place ?? given.place,
            mount: { ...given.cooling?.mount, conductance: written.mount },
          },
        }),
  });
  if (!completed.ok)
    throw new RangeError(completed.problems.map(({ expected, found }) => `expected ${expected}; found ${found}`).join('; '));
  const made = realiser(completed.data);
  const places = new Map(unknowns.map(({ draw }, k) => [draw, k]));
  return {
    unknowns,
    system: (z) =>
      made((key) => {
        const k = places.get(key);
        return k === undefined ? 0 : z[k];
      }),
  };
}
