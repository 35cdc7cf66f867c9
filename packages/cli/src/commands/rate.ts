/** `rate`: what each candidate may do for ever, for seconds and in bursts, along the scenario's own load. @module */

import { type AllowedTime, CHANNELS, type HeatLimitId, type RatedPoint, type Rating, type RatingResult } from '@shaftwork/sim-core';
import { partThrottleJson, ratingJson } from '@shaftwork/sim-core/json';
import { type RatedCandidate, ratingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatClock, formatQuantity } from '@shaftwork/sim-core/quantities';
import { throttleText } from '@shaftwork/sim-core/words';
import { EXIT, InputFault } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { BARE, type Label, label, own, type Row, under } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import { prepare, sayProblems } from './prepare.js';
import { quantityFlag } from './quantity-flag.js';

export interface RateOptions extends GlobalOptions {
  readonly charge?: string;
  readonly cycle?: string;
  readonly json?: boolean;
}

/** What a limit of temperature watches, in a word: its channel's. */
export const limitWord = (id: HeatLimitId): string => CHANNELS[id].words;

export async function rate(io: Terminal, path: string, options: RateOptions): Promise<number> {
  const ask = {
    ...(options.charge === undefined ? {} : { charge: quantityFlag('--charge', options.charge, 'fraction') }),
    ...(options.cycle === undefined ? {} : { cycle: quantityFlag('--cycle', options.cycle, 'time') }),
  };
  if (ask.charge !== undefined && !(ask.charge > 0 && ask.charge <= 1))
    throw new InputFault('--charge: expected above 0 % and at most 100 %.');
  if (ask.cycle !== undefined && !(ask.cycle > 0)) throw new InputFault('--cycle: expected a time above 0, such as 10 min.');
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const rated = ratingsOfScenario(prepared.prepared, ask);
  if (options.json) {
    const candidates = rated.map(({ name, rating, partThrottle }) => ({
      name,
      rating: ratingJson(rating),
      partThrottle: partThrottleJson(partThrottle),
    }));
    io.out(`${JSON.stringify({ schema: 'shaftwork.rating/1', candidates }, null, 2)}\n`);
    return EXIT.done;
  }
  io.out(rated.map(textOf).join('\n'));
  io.note(`${wrap(notesOn(rated, prepared.prepared.candidates[0].data.vehicle.carriedBy === 'wing'))}\n`);
  return EXIT.done;
}

/** How the tables above are meant, as far as it concerns what they show. */
function notesOn(rated: readonly RatedCandidate[], glides: boolean): string {
  const whiles = rated.some(({ rating }) => rating.shortTime.fromCold.length > 1);
  return [
    'Along the scenario’s load by throttle, pack held at one charge, temperature limits only.',
    ...(whiles
      ? [
          'What lasts for ever is told with the current that it settles at, what lasts a while with the one that it begins with, cold: magnets that warm take more for the same torque, and copper that warms lets less through. Warm is the mean of the run.',
        ]
      : []),
    'The motor alone leaves out the limits of controller and pack, and stands where that gives more.',
    glides ? 'S3 and bursts glide on at their speed between.' : 'S3 and bursts begin from a standstill and rest at one.',
    'Coasting with a driver that turns the motor is not counted. S1 and S3 as IEC 60034-1 means them; times in seconds are model practice.',
  ].join(' ');
}

const amperes = (x: number): string => formatQuantity(x, 'current', { unit: 'A', decimals: 1 });
const watts = (x: number): string => formatQuantity(x, 'power', { unit: 'W', decimals: 0 });
const percent = (x: number): string => formatQuantity(x, 'fraction', { unit: '%', decimals: 0 });
const degrees = (x: number): string => formatQuantity(x, 'temperature', { unit: '°C', decimals: 0 });

const speed = (x: number): string => formatQuantity(x, 'speed', { unit: 'm/s', decimals: 1 });

const heads = (share: Label): Label[] => [BARE, label('throttle'), label('motor'), label('input'), label('shaft'), share, label('limit')];

function row(words: Label, rating: Rating): Row {
  if (rating.kind === 'none') return [words, '–', '–', '–', '–', '–', `none: ${limitWord(rating.binding)}`];
  const { point } = rating;
  return [
    words,
    throttleText(point.throttle),
    amperes(point.motorCurrent),
    watts(point.inputPower),
    watts(point.shaftPower),
    shareOf(point),
    rating.kind === 'limited' ? limitWord(rating.binding) : 'none',
  ];
}

/** What lasts for ever, and with the limits of controller and pack taken away where that is more. */
function withMotorAlone(words: Label, { continuous, motorAlone }: { readonly continuous: Rating; readonly motorAlone: Rating }): Row[] {
  const rows = [row(words, continuous), row(under('the motor alone'), motorAlone)];
  return rows[0].slice(1).join() === rows[1].slice(1).join() ? [rows[0]] : rows;
}

/** Of the maker's current, else of his watts. */
const shareOf = ({ currentShare, powerShare }: RatedPoint): string => {
  const share = currentShare ?? powerShare;
  return share === undefined ? '–' : percent(share);
};
const shareHead = ({ motorCurrent, inputPower }: RatedCandidate['limits']): Label =>
  label('of maker’s', Number.isFinite(motorCurrent) ? ' A' : Number.isFinite(inputPower) ? ' W' : '');

const rangeOf = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  from === to ? `about ${percent(from)}` : `${percent(from)} to ${percent(to)}`;

const timeOf = (allowed: AllowedTime): string => (allowed.kind === 'for-ever' ? 'for ever' : formatClock(allowed.time));

function textOf({ name, limits, rating, partThrottle }: RatedCandidate): string {
  const { intermittent, shortTime, bursts } = rating;
  const cycle = formatClock(intermittent.cycle);
  // duties that keep full throttle are one row, that of the longest
  const heavy = intermittent.duties.filter((each) => each.rating.kind !== 'full-throttle');
  const light = intermittent.duties.filter((each) => each.rating.kind === 'full-throttle');
  const parts = [
    `${name}, pack held at ${percent(rating.charge)}\n`,
    table(heads(shareHead(limits)), [
      ...withMotorAlone(label('for ever', ' (S1)'), rating),
      ...(rating.hardest === undefined ? [] : withMotorAlone(label('for ever', `, ${speed(rating.hardest.vehicleSpeed)}`), rating.hardest)),
      ...(light.length < 2
        ? []
        : [row(label('S3', `, to ${percent(light[light.length - 1].duty)} of ${cycle}`), light[light.length - 1].rating)]),
      ...(light.length < 2 ? intermittent.duties : heavy).map(({ duty, rating: each }) =>
        row(label('S3', `, ${percent(duty)} of ${cycle}`), each),
      ),
    ]),
  ];
  if (shortTime.fromCold.length > 1) {
    const warm = new Map(shortTime.fromWarm.map((each) => [each.throttle, each]));
    parts.push(
      table(
        [
          label('for a while'),
          label('motor, cold'),
          label('from cold'),
          label('from warm', ` (${degrees(shortTime.warm.windingTemperature)})`),
        ],
        shortTime.fromCold
          .map((each): Row => {
            const other = warm.get(each.throttle);
            return [own(throttleText(each.throttle)), amperes(each.motorCurrent), timeOf(each), other === undefined ? '–' : timeOf(other)];
          })
          // what lasts for ever is said once, and of throttles that print the same the one that lasts least
          .filter((cells, k, rows) => k === 0 || cells.slice(2).join() !== rows[k - 1].slice(2).join())
          .filter((cells, k, rows) => cells[0] !== rows[k + 1]?.[0]),
      ),
    );
    parts.push(
      table(
        [label('full throttle', `, ${amperes(bursts.motorCurrent)}`), ...bursts.leastRest.map(({ on }) => own(formatClock(on)))],
        [[label('least rest between'), ...bursts.leastRest.map(({ rest }) => (rest === undefined ? 'too long' : formatClock(rest)))]],
      ),
    );
  }
  parts.push(`${wrap(sentences(rating).join(' '))}\n`);
  if (partThrottle.avoid.length > 0)
    parts.push(
      `${wrap(partThrottle.avoid.map(({ from, to, limit }) => `Avoid holding ${rangeOf({ from, to })} throttle: the limit of the ${limitWord(limit)} is passed there, though not at full throttle.`).join(' '))}\n`,
    );
  else if (partThrottle.lossier !== undefined)
    parts.push(
      `${wrap(`The controller loses more at ${rangeOf(partThrottle.lossier)} throttle than at full; no limit is passed there that full throttle keeps.`)}\n`,
    );
  return parts.join('\n');
}

/** What of the maker's watts lasts; how long full throttle lasts at the hardest step's speed. */
function hardestSentences({ motorAlone, hardest }: RatingResult, soonest: (times: Times) => string): string[] {
  const out: string[] = [];
  const { motorAlone: alone, vehicleSpeed, label, fullThrottle } = hardest ?? { motorAlone };
  if (alone.kind !== 'none' && alone.point.powerShare !== undefined && alone.point.powerShare < 1)
    out.push(
      `${watts(alone.point.inputPower)} of the maker’s ${watts(alone.point.inputPower / alone.point.powerShare)} last for ever${alone.kind === 'limited' ? '' : '; at its steady speed this load takes no more'}.`,
    );
  if (vehicleSpeed !== undefined && fullThrottle !== undefined)
    out.push(
      `At ${speed(vehicleSpeed)}, the speed of “${label}”, full throttle is ${amperes(fullThrottle.motorCurrent)}: ${soonest(fullThrottle.timeToLimit)}. All else here is at the steady speed that the throttle gives on the level.`,
    );
  return out;
}

type Times = Readonly<Partial<Record<HeatLimitId, number>>>;

function sentences(rating: RatingResult): string[] {
  const { fullThrottle, stall, runaway } = rating;
  const soonest = (times: Times): string => {
    const [first] = (Object.entries(times) as [HeatLimitId, number][]).sort((a, b) => a[1] - b[1]);
    return first === undefined ? 'no limit is passed' : `${limitWord(first[0])} at the limit after ${formatClock(first[1])}`;
  };
  const out: string[] = [];
  if (fullThrottle.kind === 'settled')
    out.push(
      `Full throttle for ever settles at ${degrees(fullThrottle.temperatures.windingTemperature)} in the winding (${soonest(fullThrottle.timeToLimit)}).`,
    );
  else if (fullThrottle.kind === 'runaway')
    out.push(`Full throttle has no equilibrium: copper and magnets run away (${soonest(fullThrottle.timeToLimit)}).`);
  if (stall.motorCurrent > 0)
    out.push(
      `With the rotor held at full throttle ${amperes(stall.motorCurrent)} flow${Object.keys(stall.timeToLimit).length === 0 ? '' : `, ${soonest(stall.timeToLimit)}`}.`,
    );
  out.push(`A torque that stays the same at that speed has no equilibrium above ${amperes(runaway.current)}.`);
  return [...hardestSentences(rating, soonest), ...out];
}
