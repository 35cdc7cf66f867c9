/** The rows in which candidates are told beside one another: what decides, then fits, performs, heats, lasts. @module */

import {
  bestClimb,
  type CandidateResult,
  type ChannelId,
  type Figure,
  HEADLINES,
  HEAT_WAYS,
  type HeadlineId,
  type HeatWay,
  type LimitId,
  MOTOR_WAYS,
  type RatedPoint,
  shareByWay,
} from '@shaftwork/sim-core';
import type { Term } from '@shaftwork/sim-core/problems';
import { channelPrinting, type Printing } from '@shaftwork/sim-core/words';

/** One number of each candidate. */
export interface Row {
  /** What “explain” knows; behind it which way, or when. */
  readonly words: Term | `${Term} ${string}`;
  readonly printing: Printing;
  readonly value: (candidate: CandidateResult) => number | undefined;
  readonly better?: 'less' | 'more';
  /** The limit this number may be past; when all candidates share its bound, the row's head names it. */
  readonly limit?: LimitId;
  /** Left to the margins while the limit is far from all. */
  readonly near?: true;
  /** A value that is not worth a row when all have it. */
  readonly idle?: number;
  /** The way of heat it tells of: no row where all but nothing takes another. */
  readonly way?: HeatWay;
  /** Its 5 to 95 % stand beside the number. */
  readonly figure?: (candidate: CandidateResult) => Figure | undefined;
}

/** Rows that belong together. */
export interface Group {
  readonly title: string;
  readonly rows: readonly Row[];
}

const LENGTH: Printing = { dimension: 'length', unit: 'mm', decimals: 1 };
const AREA: Printing = { dimension: 'area', unit: 'cm²', decimals: 0 };
const POWER: Printing = { dimension: 'power', unit: 'W', decimals: 1 };
const MASS: Printing = { dimension: 'mass', unit: 'g', decimals: 0 };
const TORQUE: Printing = { ...channelPrinting('motorTorque'), decimals: 2 };
const PERCENT: Printing = { dimension: 'fraction', unit: '%', decimals: 1 };
const CLOCK: Printing = { dimension: 'time', unit: 's', decimals: 0 };
const RATIO: Printing = { dimension: 'ratio', unit: '1', decimals: 2 };

const headline = (figure: HeadlineId, rest: Pick<Row, 'better' | 'limit' | 'idle' | 'near'>): Row => ({
  words: HEADLINES[figure].words,
  printing: HEADLINES[figure],
  value: ({ headline: figures }) => figures[figure]?.nominal,
  figure: ({ headline: figures }) => figures[figure],
  ...rest,
});
/** The same without its 5 to 95 %. */
const nominal = (figure: HeadlineId, rest: Pick<Row, 'better' | 'limit' | 'idle'>): Row => {
  const { figure: _, ...row } = headline(figure, rest);
  return row;
};
const atMoment = (words: Term, channel: ChannelId, rest: Pick<Row, 'better' | 'idle'> = {}): Row => ({
  words,
  printing: channelPrinting(channel),
  value: ({ moment }) => moment.channels[channel],
  ...rest,
});

/** Where the drive may stay for ever; nothing where it was not asked for or no throttle may. */
const forEver = ({ rating }: CandidateResult): RatedPoint | undefined =>
  rating === undefined || rating.continuous.kind === 'none' ? undefined : rating.continuous.point;
/** The longest time past any one limit [s]. */
const pastFor = ({ limits }: CandidateResult): number => Math.max(0, ...limits.map(({ passed }) => passed?.lasting ?? 0));

/** All rows, in the order they are told. */
export const GROUPS: readonly Group[] = [
  {
    title: 'Decides',
    rows: [
      { words: 'time past a limit', printing: CLOCK, value: pastFor, better: 'less', idle: 0 },
      { words: 'torque for ever', printing: TORQUE, value: (candidate) => forEver(candidate)?.motorTorque, better: 'more' },
      {
        words: 'shaft power for ever',
        printing: channelPrinting('shaftPower'),
        value: (candidate) => forEver(candidate)?.shaftPower,
        better: 'more',
      },
    ],
  },
  {
    title: 'Fits',
    rows: [
      { words: 'diameter', printing: LENGTH, value: ({ facts }) => facts.canDiameter },
      { words: 'length', printing: LENGTH, value: ({ facts }) => facts.canLength },
      { words: 'mass', printing: MASS, value: ({ facts }) => facts.mass, better: 'less' },
      { words: 'gear ratio', printing: RATIO, value: ({ facts }) => facts.gearRatio, idle: 1 },
    ],
  },
  {
    title: 'Performs',
    rows: [
      { words: 'best climb', printing: channelPrinting('climbRate'), value: bestClimb, better: 'more' },
      {
        ...headline('topSpeed', { better: 'more', idle: 0 }),
        value: (candidate) => (bestClimb(candidate) === undefined ? candidate.headline.topSpeed.nominal : undefined),
      },
      headline('peakThrust', { idle: 0 }),
      headline('topShaftSpeed', { limit: 'shaftSpeed', near: true }),
      atMoment('shaft power at the hardest moment', 'shaftPower', { better: 'more' }),
      headline('peakMotorCurrent', { limit: 'motorCurrent' }),
      headline('peakInputPower', { limit: 'inputPower', near: true }),
      nominal('driveEfficiency', { better: 'more', idle: 0 }),
    ],
  },
  {
    title: 'Heats',
    rows: [
      headline('peakWindingTemperature', { better: 'less', limit: 'windingTemperature' }),
      headline('peakCanTemperature', { better: 'less' }),
      headline('peakMagnetTemperature', {
        better: 'less',
        limit: 'magnetTemperature',
        near: true,
      }),
      headline('peakControllerTemperature', {
        better: 'less',
        limit: 'controllerTemperature',
        near: true,
      }),
      headline('peakCellTemperature', { better: 'less', limit: 'cellTemperature', near: true }),
    ],
  },
  {
    title: 'Surfaces',
    rows: [
      { words: 'side of the can', printing: AREA, value: ({ facts }) => facts.sideArea },
      { words: 'both its ends', printing: AREA, value: ({ facts }) => facts.endArea },
      ...MOTOR_WAYS.map(
        (way): Row => ({
          words: `leaves ${HEAT_WAYS[way].words} at the hardest moment`,
          printing: POWER,
          value: ({ moment }) => moment.leaves[way],
          idle: 0,
          way,
        }),
      ),
      ...(['canSide', 'canEnds'] satisfies HeatWay[]).map(
        (way): Row => ({
          words: `of the motor’s heat over the run ${HEAT_WAYS[way].words}`,
          printing: PERCENT,
          value: (candidate) => shareByWay(candidate, way),
          idle: 0,
          way,
        }),
      ),
    ],
  },
  {
    title: 'Lasts',
    rows: [
      nominal('runTime', { better: 'more', limit: 'runTime' }),
      headline('chargeLeft', { better: 'more', limit: 'reserve' }),
      nominal('energy', { better: 'less', limit: 'batteryEnergy' }),
      headline('peakBatteryPower', { limit: 'batteryPower', near: true }),
      headline('peakBatteryCurrent', { limit: 'batteryCurrent', near: true }),
      nominal('timeToReserve', { better: 'more' }),
      // where something else ends it, a row of words says what
      {
        ...nominal('timeToCutoff', { better: 'more' }),
        value: ({ endsRepeated, headline: { timeToCutoff } }) => (endsRepeated === undefined ? timeToCutoff?.nominal : undefined),
      },
    ],
  },
];
