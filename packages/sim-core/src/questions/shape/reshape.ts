/**
 * Long or wide: a family of one mass and one K_v along diameter : length, scaled from a reference (shape-laws.ts), each member completed
 * again and driven over the scenario's own profile.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { lossTorque, motorConstant, noLoadSpeed } from '../../parts/motor.js';
import { complete } from '../../provenance/complete/complete.js';
import { writtenOut } from '../../provenance/complete/complete-motor.js';
import type { Data } from '../../provenance/datum.js';
import type { Objective } from '../../provenance/given.js';
import { realise } from '../../provenance/realise.js';
import { formatQuantity } from '../../quantities/index.js';
import type { ShapePoint, ShapeResult } from '../../results/shape-result.js';
import { ROTOR_SHARE } from '../audit/marks.js';
import type { RunInput } from '../candidate.js';
import { END_TURNS, reshaped, type Shape, shapeAt, shearTorque } from '../frame/shape-laws.js';
import { stackOf } from '../frame/stack-of.js';
import { type Outcome, outcomeOf } from '../judge/outcome.js';
import { compareStandings } from '../judge/rank.js';
import { pointOf } from '../point.js';
import { continuousCurrent } from '../rate/rated-current.js';
import { howFlat, shapeSentences } from './shape-sentences.js';

/** Diameter : length looked at [1], from as wide as a coin stack to as long as a pen, and how many unless it is said. */
const WIDEST = 2;
const LONGEST = 0.2;
const MEMBERS = 21;
/** A shape that just fills the space lies within it by this, so that rounding does not put it outside [1]. */
const WITHIN = 1 + 1e-9;
/** Gap diameter over can diameter [1]. */
const GAP_SHARE = { inrunner: ROTOR_SHARE.inrunner, outrunner: 0.83 } as const;

interface Member {
  readonly input: RunInput;
  readonly outcome: Outcome;
  readonly point: ShapePoint;
}

/**
 * The family of `reference` (a candidate's name) on `profile`, in `count` shapes, and the candidates beside it. Throws RangeError where there is no such
 * candidate.
 */
export function reshape(
  candidates: readonly RunInput[],
  profile: readonly ProfileStep[],
  objective: Objective,
  reference: string,
  count = MEMBERS,
): ShapeResult {
  const base = candidates.find(({ name }) => name === reference);
  if (base === undefined) throw new RangeError(`There is no candidate ${reference}.`);
  const { motor } = base.data;
  const endTurns = END_TURNS[motor.layout];
  const from: Shape = { diameter: motor.canDiameter.value, length: motor.canLength.value, stack: stackOf(base) };
  const { frictionTorque } = realise(base.data).motor;
  const free = freeLoss(realise(base.data));
  const frictionShare = frictionTorque / free.torque;
  const look = (input: RunInput, name?: string): Member => memberOf(input, profile, objective, free.speed, name);
  const made = new Map<number, Member | undefined>();
  const at = (ratio: number): Member | undefined => {
    if (!made.has(ratio)) made.set(ratio, memberAt(ratio));
    return made.get(ratio);
  };
  const memberAt = (ratio: number): Member | undefined => {
    let to: Shape;
    try {
      to = shapeAt(from, ratio);
    } catch (error) {
      if (error instanceof RangeError) return undefined;
      throw error;
    }
    const given = reshaped(writtenOut(base.given, motor), from, to, frictionShare);
    const completion = complete(reference, given);
    return completion.ok ? look({ name: reference, given, data: completion.data, choices: completion.choices }) : undefined;
  };
  const { space } = base.given;
  // the cooling stands round every shape
  const widest = space?.diameter === undefined ? undefined : space.diameter.value - 2 * base.data.heat.addedThickness.value;
  const volume = from.diameter ** 2 * from.length;
  const edges = [
    ...(widest === undefined ? [] : [widest ** 3 / volume / WITHIN]),
    ...(space?.length === undefined ? [] : [(Math.sqrt(volume / space.length.value) / space.length.value) * WITHIN]),
  ];
  const even = Array.from({ length: count }, (_, k) => WIDEST * (LONGEST / WIDEST) ** (k / (count - 1)));
  const ratios = [...even, from.diameter / from.length, ...edges].filter((ratio) => ratio >= LONGEST && ratio <= WIDEST);
  const members = [...new Set(ratios)].flatMap((ratio) => at(ratio) ?? []);
  const better = (a: Member, b: Member): number => compareStandings(a.outcome.standing, b.outcome.standing);
  const best = refined(members, at, better);
  const anywhere = (member: Member): Member => ({
    ...member,
    outcome: { ...member.outcome, standing: { ...member.outcome.standing, fits: true } },
  });
  const bestUnbounded = refined(members.map(anywhere), (ratio) => optional(at(ratio), anywhere), better);
  const good = ({ point }: Member): boolean => point.meetsLimits;
  const unbounded = bestUnbounded !== undefined && good(bestUnbounded) ? bestUnbounded.point : undefined;
  const own = look(base);
  const chosen = best !== undefined && good(best) && best.point.fits ? best : undefined;
  const drivers = chosen === undefined ? [] : driversOf(base, own, chosen, profile, objective);
  return {
    schema: 'shaftwork.reshape/1',
    reference,
    objective,
    family: [...members].sort((a, b) => b.point.ratio - a.point.ratio).map(({ point }) => point),
    real: candidates.map((input) => look(input, input.name).point),
    ...(chosen === undefined ? {} : { best: chosen.point }),
    ...(unbounded === undefined ? {} : { bestUnbounded: unbounded }),
    ...(space?.diameter === undefined && space?.length === undefined
      ? {}
      : {
          space: {
            ...(space.diameter === undefined ? {} : { diameter: space.diameter.value }),
            ...(space.length === undefined ? {} : { length: space.length.value }),
          },
        }),
    drivers,
    laws: [
      `motor constant² ∝ D⁴L²/(L + ${endTurns}·D), L the stack and ${endTurns}·D what end turns add to it (Hanselman 2003, ch. 4; ${endTurns} is common practice)`,
      `equal mass: D² × can length is kept, ${formatQuantity(from.length - from.stack, 'length', { unit: 'mm', decimals: 0 })} of the can is no stack in every member`,
      'equal Kv, so equal torque constant; resistance = kt²/Km²; iron loss ∝ D²L, friction kept',
      'heat: winding to iron and iron to can ∝ D·L, a jacket with the can’s side; the surface from its own area',
      'the stress in the gap that a shape stands is not constant; --json gives it for each',
    ],
    sentences: [
      ...shapeSentences(own.point, chosen?.point, unbounded, drivers),
      ...(chosen === undefined
        ? []
        : howFlat(
            chosen.point,
            members.map(({ point }) => point),
          )),
    ],
  };
}

const optional = <T, U>(value: T | undefined, map: (value: T) => U): U | undefined => (value === undefined ? undefined : map(value));

/** The best of `members`, then of shapes between it and its neighbours, three times in thirds. */
export function refined<M extends { readonly point: Pick<ShapePoint, 'ratio'> }>(
  members: readonly M[],
  at: (ratio: number) => M | undefined,
  better: (a: M, b: M) => number,
): M | undefined {
  const sorted = [...members].sort((a, b) => a.point.ratio - b.point.ratio);
  let best = [...members].sort(better)[0];
  if (best === undefined) return undefined;
  const place = sorted.indexOf(best);
  let low = sorted[Math.max(0, place - 1)].point.ratio;
  let high = sorted[Math.min(sorted.length - 1, place + 1)].point.ratio;
  for (let pass = 0; pass < 3; pass++) {
    const middle = best.point.ratio;
    const tried = [Math.sqrt(low * middle), Math.sqrt(high * middle)].flatMap((ratio) => at(ratio) ?? []);
    const next = [best, ...tried].sort(better)[0];
    if (next === best) {
      low = Math.sqrt(low * middle);
      high = Math.sqrt(high * middle);
    } else if (next.point.ratio < middle) high = middle;
    else low = middle;
    best = next;
  }
  return best;
}

/** Loss torque [N·m] and speed [rad/s] unloaded at ten volts, where no-load currents are usually given. */
function freeLoss({ motor }: DriveSystem): { readonly torque: number; readonly speed: number } {
  const speed = noLoadSpeed(motor, 10, 0);
  return { torque: lossTorque(motor, speed, 1), speed };
}

function memberOf(input: RunInput, profile: readonly ProfileStep[], objective: Objective, freeSpeed: number, name?: string): Member {
  const outcome = outcomeOf(input, profile, objective);
  const system = realise(input.data);
  const { motor } = system;
  const { highest } = outcome.simulation;
  const full = pointOf(system, { hold: 'throttle', value: 1 }).channels;
  const current = full.shaftSpeed > 0 ? continuousCurrent(system, full.shaftSpeed, full) : undefined;
  const stack = stackOf(input);
  const gap = GAP_SHARE[motor.layout] * motor.canDiameter;
  const [nearest] = outcome.limits;
  const point: ShapePoint = {
    ...(name === undefined ? {} : { name }),
    ratio: motor.canDiameter / motor.canLength,
    diameter: motor.canDiameter,
    length: motor.canLength,
    stackLength: stack,
    mass: motor.mass,
    sideArea: Math.PI * motor.canDiameter * motor.canLength,
    endArea: 0.5 * Math.PI * motor.canDiameter ** 2,
    resistance: motor.resistance,
    noLoadCurrent: lossTorque(motor, freeSpeed, 1) / motor.torqueConstant,
    motorConstant: motorConstant(motor),
    shearStress: highest.motorTorque.value / shearTorque(1, gap, stack),
    rotorSurfaceSpeed: 0.5 * ROTOR_SHARE[motor.layout] * motor.canDiameter * highest.shaftSpeed.value,
    peakWindingTemperature: highest.windingTemperature.value,
    peakCanTemperature: highest.canTemperature.value,
    peakMotorCurrent: highest.motorCurrent.value,
    ...(current === undefined ? {} : { continuousCurrent: current }),
    ...(nearest === undefined ? {} : { binding: { limit: nearest.id, words: nearest.words, marginShare: nearest.marginShare } }),
    meetsLimits: outcome.standing.feasible,
    fits: outcome.standing.fits,
  };
  return { input, outcome, point };
}

/** The reference with one group of the best shape's properties, driven again: what each alone does to the peak. */
function driversOf(
  base: RunInput,
  own: Member,
  best: Member,
  profile: readonly ProfileStep[],
  objective: Objective,
): ShapeResult['drivers'] {
  const [a, b] = [base.data, best.input.data];
  const peak = (data: DriveSystem<Data>): number =>
    outcomeOf({ given: base.given, data }, profile, objective).simulation.highest.windingTemperature.value;
  const { windingToStator, statorToCan, statorToMagnets, magnetsToCan } = b.heat;
  const { hysteresisTorque, eddyTorque, frictionTorque } = b.motor;
  const inside = { windingToStator, statorToCan, statorToMagnets, magnetsToCan };
  const groups = [
    ['copper', 'copper loss (motor constant)', { ...a, motor: { ...a.motor, resistance: b.motor.resistance } }],
    ['no-load', 'iron and friction', { ...a, motor: { ...a.motor, hysteresisTorque, eddyTorque, frictionTorque } }],
    ['heat-inside', 'heat paths from winding to can', { ...a, heat: { ...a.heat, ...inside } }],
    ['surface', 'surface, jacket and mount', { ...a, heat: { ...b.heat, ...pick(a.heat) } }],
  ] as const;
  return groups.map(([id, words, data]) => ({ id, words, change: peak(data) - own.point.peakWindingTemperature }));
}

const pick = ({ windingToStator, statorToCan, statorToMagnets, magnetsToCan, capacity }: DriveSystem<Data>['heat']) => ({
  windingToStator,
  statorToCan,
  statorToMagnets,
  magnetsToCan,
  capacity,
});
