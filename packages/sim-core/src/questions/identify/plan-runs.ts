/**
 * The runs that a bench allows with one drive, and what its instruments would read in each.
 *
 * A run at one throttle is read while it holds still; a warming run by its thermometer, running and after the stop. None goes on until the winding is
 * nearer to its limit than 10 K: it is halved until it stays below. What a milliohm reading or a discharge with pauses tells is taken as a share of the
 * number itself, as fits of such runs leave it (common practice, no published source).
 * @module
 */
import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '../../heat/thermometer.js';
import { MEASURABLE_IDS, type MeasurableId, measurableOf } from '../../provenance/measurables.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import { simulate } from '../simulate/simulate.js';
import { watchSystem } from '../simulate/watch.js';
import type { InstrumentId } from './instruments.js';

/** One reading: by an instrument with a gain and scatter, or with a scatter of its own [SI], already that of the whole run. */
export interface Reading {
  readonly value: number;
  readonly instrument?: InstrumentId;
  readonly scatter?: number;
}

export interface BenchRun {
  readonly words: string;
  /** [s] */
  readonly duration: number;
  readonly read: (system: DriveSystem) => readonly Reading[];
  /** Winding at its hottest [K]. */
  readonly winding: (system: DriveSystem) => number;
}

const OPTIONS = { method: 'dormand-prince', relative: 1e-3, record: false } as const;
/** A throttle is held for so long, and read this long after the beginning [s]. */
const HOLD = 20;
const READ_AT = 3;
/** Part of a run after which its thermometer is read last [1]. */
const END = 0.98;
const COOLING = 240;
const SHORTEST = 2;
/** The winding stays this far below its limit [K]. */
const AWAY = 10;
/** Scatter of a thermometer [K]. */
const THERMOMETER = 0.5;
/** Half-widths [1] that a milliohm reading and a discharge with pauses leave. */
const LEADS = 0.03;
const DISCHARGE = { resistance: 0.03, slow: 0.2, capacity: 0.02 } as const;

/** At rest; wheels turn off the ground, as if they moved next to nothing, and no wind of the way cools. */
function onBench(system: DriveSystem): DriveSystem {
  const { vehicle, load, heat } = system;
  if (load.kind !== 'wheel') return { ...system, vehicle: { ...vehicle, carriedBy: 'bench' } };
  return {
    ...system,
    vehicle: { ...vehicle, mass: 1e-3, addedMass: 0, dragArea: 0, dragTable: undefined, rollingResistance: 0, carriedBy: 'wheels' },
    load: { ...load, grip: 1e9 },
    heat: { ...heat, vehicleSpeedShare: 0 },
  };
}
/** Without its propeller; a wheel off the ground turns nothing anyway. */
const bare = (system: DriveSystem): DriveSystem => {
  const { load } = system;
  return load.kind === 'propeller'
    ? { ...system, load: { ...load, powerFactor: 1e-9 * load.powerFactor, thrustFactor: 1e-9 * load.thrustFactor } }
    : system;
};
const held = (throttle: number, duration: number): ProfileStep => ({ duration, hold: 'throttle', value: { from: throttle, to: throttle } });

const READ: readonly (readonly [MeasurableId, InstrumentId])[] = [
  ['voltage', 'voltage'],
  ['battery_current', 'current'],
  ['shaft_speed', 'speed'],
  ['thrust', 'thrust'],
];

/** A drive on the bench at one throttle, read while it holds still; its thermometer at the end. */
function atThrottle(
  words: string,
  throttle: number,
  made: (system: DriveSystem) => DriveSystem,
  place: ThermometerPlaceId,
  duration: number,
): BenchRun {
  const drive = (system: DriveSystem) => made(onBench(system));
  const ids = READ.map(([id]) => id);
  return {
    words,
    duration,
    read: (system) => {
      const watched = watchSystem(drive(system), {
        ids: [...ids, ...probeOf(place)],
        times: Float64Array.of(Math.min(READ_AT, 0.5 * duration), END * duration),
      });
      simulate(drive(system), [held(throttle, duration)], { ...OPTIONS, watch: watched.watch });
      const values = watched.series();
      return [
        ...READ.map(([, instrument], k) => ({ value: values[2 * k], instrument })),
        ...probeOf(place).map(() => shownBy(system, place, values[2 * READ.length + 1])),
      ];
    },
    winding: (system) => simulate(drive(system), [held(throttle, duration)], OPTIONS).highest.windingTemperature.value,
  };
}

/** A run that warms the motor and lets it cool, read by its thermometer. */
function warming(throttle: number, place: ThermometerPlaceId, duration: number): BenchRun {
  const times = Float64Array.of(duration / 3, END * duration, duration + 30, duration + 90, duration + COOLING);
  const profile = [held(throttle, duration), held(0, COOLING + 1)];
  return {
    words: `warm it at ${Math.round(100 * throttle)} % throttle with the propeller, stop, let it cool for ${COOLING} s, with a thermometer ${THERMOMETER_PLACES[place].words}`,
    duration,
    read: (system) => {
      const watched = watchSystem(onBench(system), { ids: probeOf(place), times });
      simulate(onBench(system), profile, { ...OPTIONS, watch: watched.watch });
      return Array.from(watched.series(), (value) => shownBy(system, place, value));
    },
    winding: (system) => simulate(onBench(system), profile, OPTIONS).highest.windingTemperature.value,
  };
}

/** The measurable that a thermometer at `place` is. */
const probeOf = (place: ThermometerPlaceId): readonly MeasurableId[] => MEASURABLE_IDS.filter((id) => measurableOf(id).place === place);

/** What a thermometer shows [K], as sure as it and its share of the excess are. */
const shownBy = ({ surroundings }: DriveSystem, place: ThermometerPlaceId, value: number): Reading => ({
  value,
  scatter: Math.hypot(
    THERMOMETER,
    (Math.log(THERMOMETER_PLACES[place].factor) / STANDARD_DEVIATIONS_95) * (value - surroundings.motorAirTemperature),
  ),
});

/** Halved until the winding stays away from its limit. */
function safe(system: DriveSystem, make: (duration: number) => BenchRun, longest: number): BenchRun {
  let run = make(longest);
  for (let duration = longest; duration > SHORTEST && !(run.winding(system) < system.limits.windingTemperature - AWAY); ) {
    duration /= 2;
    run = make(duration);
  }
  return run;
}

/** All runs that come into question for this drive. */
export function benchRuns(system: DriveSystem, place: ThermometerPlaceId): BenchRun[] {
  const propelled = system.load.kind === 'propeller';
  const percent = (throttle: number): string => (throttle === 1 ? 'full throttle' : `${Math.round(100 * throttle)} % throttle`);
  const steady = (throttle: number): BenchRun =>
    safe(system, (duration) => atThrottle(`${percent(throttle)} with the propeller`, throttle, (each) => each, place, duration), HOLD);
  const start = (each: DriveSystem): number => each.start.motorTemperature;
  return [
    atThrottle('full throttle with a bare shaft', 1, bare, place, HOLD),
    atThrottle('half throttle with a bare shaft', 0.5, bare, place, HOLD),
    ...(propelled ? [steady(1), steady(0.75), steady(0.5), steady(0.3)] : []),
    ...(propelled
      ? [safe(system, (duration) => warming(1, place, duration), 240), safe(system, (duration) => warming(0.6, place, duration), 480)]
      : []),
    {
      words: 'the resistance between two leads, cold: a current sent through them, the volts at the leads',
      duration: HOLD,
      read: ({ motor }) => [{ value: motor.resistance, scatter: (LEADS * motor.resistance) / STANDARD_DEVIATIONS_95 }],
      winding: start,
    },
    ...(system.battery.chemistry === 'supply'
      ? []
      : [
          {
            words: 'a discharge of the pack with a pause of a minute at every tenth of the charge',
            duration: DISCHARGE_TIME,
            read: ({ battery }: DriveSystem) => [
              { value: battery.cellResistance, scatter: (DISCHARGE.resistance * battery.cellResistance) / STANDARD_DEVIATIONS_95 },
              {
                value: battery.polarisationResistance,
                scatter: (DISCHARGE.slow * battery.polarisationResistance) / STANDARD_DEVIATIONS_95,
              },
              { value: battery.capacity, scatter: (DISCHARGE.capacity * battery.capacity) / STANDARD_DEVIATIONS_95 },
            ],
            winding: start,
          },
        ]),
  ];
}
/** At three times the hourly current [s]. */
const DISCHARGE_TIME = 1200;

/** The even sweep that a plan is held against: six throttles with the propeller on, the same instruments and thermometer. */
export const sweepRuns = (system: DriveSystem, place: ThermometerPlaceId): BenchRun[] =>
  [0.5, 0.6, 0.7, 0.8, 0.9, 1].map((throttle) =>
    safe(system, (duration) => atThrottle(`${Math.round(100 * throttle)} % throttle`, throttle, (each) => each, place, duration), HOLD),
  );
