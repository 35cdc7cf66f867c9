/**
 * Which winding of a frame: the K_v that best serves the objective under the limits, K_m and loss torque kept (shape-laws.ts, `rewound`), each
 * completed again and driven over the scenario's own profile. A wind must do the job: hold every step of the profile, and give 95 % of the
 * greatest thrust and of the top speed that the present one gives, for at a set throttle the coolest winding is the one that does least, and
 * wheels that spin give the same thrust with every winding.
 * Turns are counted in no scenario, so that K_v is continuous here; real winds come in whole turns near it.
 *
 * @module
 */

import type { ProfileStep } from '../../drive/profile.js';
import { lossTorque, noLoadSpeed } from '../../parts/motor.js';
import { complete } from '../../provenance/complete/complete.js';
import { writtenOut } from '../../provenance/complete/complete-motor.js';
import type { Objective } from '../../provenance/given.js';
import { realise } from '../../provenance/realise.js';
import { formatClock, formatQuantity } from '../../quantities/index.js';
import { fallsShort } from '../../results/finding.js';
import { OBJECTIVE } from '../../results/objectives.js';
import type { WindingCandidate, WindingPoint, WindingResult } from '../../results/winding-result.js';
import type { RunInput } from '../candidate.js';
import { rewound } from '../frame/shape-laws.js';
import { type Outcome, outcomeOf } from '../judge/outcome.js';
import { compareStandings } from '../judge/rank.js';

/** A wind that keeps less than this of the present one's greatest thrust or top speed does less [1]; judgement. */
const SAME_JOB = 0.95;
/** Gains below these are none: kelvins, or a share of any other objective. */
const NO_GAIN = { kelvin: 0.5, share: 0.005 } as const;
/** K_v looked at, as a factor on the present one [1], and how many. */
const MOST = 2.5;
const WINDS = 33;
/** From 1/MOST to MOST in even steps, the present one in the middle; `k` from 0 to WINDS − 1, or between. */
const factorAt = (k: number): number => MOST ** ((2 * k) / (WINDS - 1) - 1);
const PASSES = 12;

interface Wind {
  readonly factor: number;
  readonly outcome: Outcome;
  readonly point: WindingPoint;
}

/** Rewinds every candidate of `names` (all where none is named). Throws RangeError for a name that is no candidate's. */
export function rewind(
  candidates: readonly RunInput[],
  profile: readonly ProfileStep[],
  objective: Objective,
  names: readonly string[] = candidates.map(({ name }) => name),
): WindingResult {
  return {
    schema: 'shaftwork.rewind/1',
    candidates: names.map((name) => {
      const input = candidates.find((each) => each.name === name);
      if (input === undefined) throw new RangeError(`There is no candidate ${name}.`);
      return rewindOne(input, profile, objective);
    }),
  };
}

function rewindOne(base: RunInput, profile: readonly ProfileStep[], objective: Objective): WindingCandidate {
  const present = outcomeOf(base, profile, objective);
  const job: Job = {
    leastThrust: SAME_JOB * present.simulation.highest.thrust.value,
    leastSpeed: SAME_JOB * present.simulation.highest.vehicleSpeed.value,
  };
  const { motor } = realise(base.data);
  const freeSpeed = noLoadSpeed(motor, 10, 0);
  const at = (factor: number): Wind => {
    const given = rewound(writtenOut(base.given, base.data.motor), factor);
    const completion = complete(base.name, given);
    if (!completion.ok) throw new RangeError(`${base.name} rewound by ${factor} is no longer complete.`);
    const outcome = factor === 1 ? present : outcomeOf({ given, data: completion.data }, profile, objective);
    const system = realise(completion.data);
    const { highest, state, kernel, time } = outcome.simulation;
    const less = weaker(outcome, job);
    const [nearest] = outcome.limits;
    const peak = highest.windingTemperature.value;
    const point: WindingPoint = {
      speedConstant: 1 / system.motor.torqueConstant,
      resistance: system.motor.resistance,
      noLoadCurrent: lossTorque(system.motor, freeSpeed, 1) / system.motor.torqueConstant,
      peakWindingTemperature: peak,
      peakMotorCurrent: highest.motorCurrent.value,
      peakBatteryCurrent: highest.batteryCurrent.value,
      topSpeed: highest.vehicleSpeed.value,
      chargeLeft: state[kernel.at.charge],
      runTime: time,
      objective: outcome.figures[OBJECTIVE[objective].figure],
      meetsLimits: outcome.standing.feasible,
      ...(nearest === undefined ? {} : { binding: { limit: nearest.id, words: nearest.words, marginShare: nearest.marginShare } }),
      stepsNotHeld: stepsNotHeld(outcome, profile).length,
      ...(less === undefined ? {} : { less }),
    };
    return { factor, outcome, point };
  };
  const winds = Array.from({ length: WINDS }, (_, k) => at(factorAt(k)));
  const reference = at(1);

  /** The edge of what is good between a good wind and its bad neighbour. */
  const edge = (inside: Wind, outside: Wind): { readonly inside: Wind; readonly outside: Wind } => {
    let [a, b] = [inside, outside];
    for (let pass = 0; pass < PASSES; pass++) {
      const middle = at(Math.sqrt(a.factor * b.factor));
      if (good(middle)) a = middle;
      else b = middle;
    }
    return { inside: a, outside: b };
  };
  const better = (a: Wind, b: Wind): number => compareStandings(a.outcome.standing, b.outcome.standing);
  const served = winds.filter(good);
  let best = [...served].sort(better)[0];
  // the stretch of good winds round the best
  let range: WindingCandidate['range'];
  if (best !== undefined) {
    const place = winds.indexOf(best);
    let [first, last] = [place, place];
    while (first > 0 && good(winds[first - 1])) first--;
    while (last < winds.length - 1 && good(winds[last + 1])) last++;
    const low = first === 0 ? undefined : edge(winds[first], winds[first - 1]);
    const high = last === winds.length - 1 ? undefined : edge(winds[last], winds[last + 1]);
    range = {
      from: (low?.inside ?? winds[first]).point.speedConstant,
      to: (high?.inside ?? winds[last]).point.speedConstant,
      ...(low === undefined ? {} : { below: whyNot(low.outside, profile) }),
      ...(high === undefined ? {} : { above: whyNot(high.outside, profile) }),
    };
    const near = [low?.inside, high?.inside, ...between(place).map((k) => at(factorAt(k)))].filter(
      (wind) => wind !== undefined && good(wind),
    ) as Wind[];
    best = [best, ...near].sort(better)[0];
  }
  const { words, unit } = OBJECTIVE[objective];
  return {
    name: base.name,
    objective,
    objectiveWords: words,
    objectiveUnit: unit,
    points: winds.map(({ point }) => point),
    reference: reference.point,
    ...(best === undefined ? {} : { best: best.point }),
    ...(range === undefined ? {} : { range }),
    sentences: windingSentences(base.name, reference.point, best?.point, range, { words, unit }),
  };
}

/** Whether it may take the present one's place. */
const serves = ({ meetsLimits, stepsNotHeld, less }: WindingPoint): boolean => meetsLimits && stepsNotHeld === 0 && less === undefined;
const good = ({ point }: Wind): boolean => serves(point);

/** Places between that of the best of the grid and its neighbours. */
const between = (place: number): number[] => [-0.5, -0.25, 0.25, 0.5].map((share) => place + share).filter((k) => k > 0 && k < WINDS - 1);

/** What a winding must give at least of the present one's greatest thrust [N] and top speed [m/s]. */
interface Job {
  readonly leastThrust: number;
  readonly leastSpeed: number;
}

/** What came of a run, as far as its steps tell. */
interface Driven {
  readonly simulation: {
    readonly lost: readonly { readonly step: number; readonly wanted: number; readonly reached: number }[];
    readonly time: number;
    readonly end: Outcome['simulation']['end'];
  };
}

/** Steps that fall short of what they ask for, or that are not driven to their end; counted from 0. */
export function stepsNotHeld({ simulation: { lost, time, end } }: Driven, profile: readonly ProfileStep[]): readonly number[] {
  const short = new Set(lost.filter(fallsShort).map(({ step }) => step));
  let ends = 0;
  return profile.flatMap(({ duration }, step) => {
    ends += duration;
    return short.has(step) || (end !== 'finished' && ends > time) ? [step] : [];
  });
}

/** What falls off by more than a twentieth; undefined where nothing does. */
function weaker({ simulation: { highest } }: Outcome, { leastThrust, leastSpeed }: Job): WindingPoint['less'] {
  if (highest.thrust.value < leastThrust) return 'thrust';
  return highest.vehicleSpeed.value < leastSpeed ? 'top speed' : undefined;
}

const stepName = (profile: readonly ProfileStep[], step: number): string => profile[step].label ?? `step ${step + 1}`;

/** What stands against a wind, in words. */
export function whyNot(
  { outcome, point }: { readonly outcome: Driven; readonly point: Pick<WindingPoint, 'less' | 'binding'> },
  profile: readonly ProfileStep[],
): string {
  const lost = outcome.simulation.lost.find(fallsShort);
  if (lost !== undefined) return `full throttle no longer holds ${stepName(profile, lost.step)}`;
  if (outcome.simulation.end === 'cut-off') return 'the cells reach their cut-off';
  if (outcome.simulation.end === 'empty') return 'the cells are empty before the end';
  if (outcome.simulation.end === 'burnt') return 'it burns out';
  if (outcome.simulation.end === 'failed') return 'there is no operating point';
  if (point.less !== undefined) return `its ${point.less} falls off by more than a twentieth`;
  return `${point.binding?.words ?? 'a limit'} binds`;
}

const kv = (value: number): string => formatQuantity(value, 'speedConstant', { unit: 'rpm/V', decimals: 0 });
const celsius = (value: number): string => formatQuantity(value, 'temperature', { unit: '°C', decimals: 0 });
/** The objective's figure as people see it. */
function aim(value: number, unit: string): string {
  switch (unit) {
    case 's':
      return formatClock(value);
    case 'm/s':
      return speed(value);
    case 'kg':
      return formatQuantity(value, 'mass');
    default:
      return celsius(value);
  }
}
const speed = (value: number): string => formatQuantity(value, 'speed', { unit: 'm/s', decimals: 2 });

/** What is said of the windings of `name`: which serve, and whether one serves better than its `own`. */
export function windingSentences(
  name: string,
  own: WindingPoint,
  best: WindingPoint | undefined,
  range: WindingCandidate['range'],
  { words, unit }: { readonly words: string; readonly unit: string },
): string[] {
  if (best === undefined || range === undefined)
    return [`No winding of ${name} meets every limit, holds every step and gives the thrust and speed of the present one.`];
  const gain = serves(own) ? best.objective - own.objective : Number.POSITIVE_INFINITY;
  const edges = [
    ...(range.below === undefined ? [] : [`below it ${range.below}`]),
    ...(range.above === undefined ? [] : [`above it ${range.above}`]),
  ];
  const moves = own.topSpeed > 0 ? `; top speed ${speed(best.topSpeed)}, now ${speed(own.topSpeed)}` : '';
  const fails = own.stepsNotHeld > 0 ? ', which does not hold every step' : own.meetsLimits ? '' : ', which passes a limit';
  const same = Math.abs(gain) < (unit === 'K' ? NO_GAIN.kelvin : NO_GAIN.share * Math.abs(own.objective));
  return [
    `${name}: ${kv(range.from)} to ${kv(range.to)} meet every limit, hold every step and give the present winding’s thrust and speed to a twentieth${edges.length === 0 ? '' : `; ${edges.join(', ')}`}.`,
    same
      ? `The present ${kv(own.speedConstant)} serve as well as any.`
      : `${kv(best.speedConstant)} serve best: ${words} ${aim(best.objective, unit)}, now ${aim(own.objective, unit)} at ${kv(own.speedConstant)}${fails}${moves}.`,
  ];
}
