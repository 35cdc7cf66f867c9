/**
 * What instruments would show over a run: every measurable at given times, thermometers with their share and their lag.
 *
 *   (1) reading = air + θ₀ + (θ − θ₀)·f,  θ by heat/thermometer (1), f the factor of the model's error on every rise [1]
 * @module
 */
import type { DriveSystem } from '../../drive/drive-system.js';
import { followThermometer, THERMOMETER_PLACES, type ThermometerPlaceId } from '../../heat/thermometer.js';
import { inverseNormal } from '../../numerics/inverse-normal.js';
import { seededRandom } from '../../numerics/seeded-random.js';
import { type MeasurableId, measurableOf } from '../../provenance/measurables.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import { CHANNEL_IDS, type ChannelId } from '../../results/channels.js';
import { CHANNEL_INDEX, observeInto } from './observe.js';
import type { SimulateOptions } from './simulate.js';
import { stopBodies } from './stop-bodies.js';
import { airAround, excessAt } from './thermometer-excess.js';

/** What a log has measured of one candidate. */
export interface Watch {
  readonly candidate: string;
  readonly ids: readonly MeasurableId[];
  /** [s], rising; from the start of the run, since thermometers are late. */
  readonly times: Float64Array;
}

/** Numbers in a series: times within measurables. */
export const seriesLength = ({ ids, times }: Pick<Watch, 'ids' | 'times'>): number => ids.length * times.length;

/** The channel that an instrument reads, or what it reads in place of one. */
const READS: Readonly<Record<MeasurableId, ChannelId | 'chargeUsed' | 'thermometer'>> = {
  throttle: 'throttle',
  voltage: 'busVoltage',
  cell_voltage: 'cellVoltage',
  battery_current: 'batteryCurrent',
  motor_current: 'motorCurrent',
  battery_power: 'batteryPower',
  charge_used: 'chargeUsed',
  shaft_speed: 'shaftSpeed',
  thrust: 'thrust',
  vehicle_speed: 'vehicleSpeed',
  climb: 'climbRate',
  can_temperature: 'thermometer',
  end_temperature: 'thermometer',
  beside_coils_temperature: 'thermometer',
  in_slot_temperature: 'thermometer',
  controller_temperature: 'thermometer',
  cell_temperature: 'thermometer',
};

const PLACES = Object.keys(THERMOMETER_PLACES) as readonly ThermometerPlaceId[];

/** Factors on the shares of thermometers [1]; 1 is nominal. */
export type ThermometerShares = (place: ThermometerPlaceId) => number;
const NOMINAL_SHARES: ThermometerShares = () => 1;
/** Streams of the thermometers' own random numbers, apart from those of the data. */
const STREAMS = 2 ** 31;

/** The thermometers of sample `index`. */
export function thermometerShares(seed: number, index: number): ThermometerShares {
  const random = seededRandom(seed, STREAMS + index);
  const factors = new Map(PLACES.map((place) => [place, shareFactor(place, inverseNormal(random.fraction()))]));
  return (place) => factors.get(place) ?? 1;
}

/** Factor on a thermometer's share at `z` of its deviations; none takes more than all of an excess. */
export function shareFactor(place: ThermometerPlaceId, z: number): number {
  const { share, factor } = THERMOMETER_PLACES[place];
  return Math.min(1 / share, Math.exp((Math.log(factor) / STANDARD_DEVIATIONS_95) * z));
}

export interface Watched {
  readonly watch: NonNullable<SimulateOptions['watch']>;
  /** (1) In the order of `ids`, times within; NaN after the end of the run. Whole once the run is over. */
  readonly series: (factor?: number, shares?: ThermometerShares) => Float64Array;
}

/** Looks at a run of `system` at the times of `watch`. */
export function watchSystem(system: DriveSystem, { ids, times }: Pick<Watch, 'ids' | 'times'>): Watched {
  const raw = new Float64Array(ids.length * times.length).fill(Number.NaN);
  const rim = new Float64Array(times.length);
  const row = new Float64Array(CHANNEL_IDS.length);
  const { start, battery, motor } = system;
  const placeOf = (id: MeasurableId): ThermometerPlaceId | undefined => measurableOf(id).place;
  return {
    watch: {
      times,
      see: (index, kernel, y) => {
        observeInto(kernel, times[index], y, row);
        rim[index] = 0.5 * motor.canDiameter * row[CHANNEL_INDEX.shaftSpeed];
        ids.forEach((id, k) => {
          const place = placeOf(id);
          const reads = READS[id];
          raw[k * times.length + index] =
            place !== undefined
              ? excessAt(THERMOMETER_PLACES[place], system, stopBodies(system, kernel.at, y))
              : reads === 'chargeUsed'
                ? (start.charge - row[CHANNEL_INDEX.charge]) * battery.capacity
                : reads === 'thermometer'
                  ? Number.NaN
                  : row[CHANNEL_INDEX[reads]];
        });
      },
    },
    series: (factor = 1, shares = NOMINAL_SHARES) => {
      const out = raw.slice();
      ids.forEach((id, k) => {
        const place = placeOf(id);
        if (place === undefined) return;
        const own = out.subarray(k * times.length, (k + 1) * times.length);
        // what is no number after the end of the run leads to none
        const moments = Array.from(own, (excess, i) => ({ t: times[i], excess, speed: rim[i] }));
        const theta = followThermometer(THERMOMETER_PLACES[place], moments);
        const air = airAround(THERMOMETER_PLACES[place], system);
        theta.forEach((each, i) => {
          own[i] = air + shares(place) * (theta[0] + (each - theta[0]) * factor);
        });
      });
      return out;
    },
  };
}
