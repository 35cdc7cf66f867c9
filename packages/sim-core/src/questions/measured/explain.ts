/**
 * Which assumption explains a misfit best: every uncertain number moved alone, in its own deviations z, to where the squares are least.
 *
 *   (1) s = (r(0) − r(z₁))/z₁,  z₁ = 1.96;  z = r·s/s·s, |z| ≤ 3, lowers the squares r·r most along the line
 *   (2) the most promising are then moved there in earnest, and once more from the slope found on the way
 *
 * r — weighed residuals (misfit.ts). A number that would have to lie more than three of its deviations off is not believed.
 * *Leaves out* two numbers that are off together. *Source*: the Gauss–Newton step of one unknown, in any textbook of least squares.
 * @module
 */
import type { ProfileStep } from '../../drive/profile.js';
import { THERMOMETER_PLACES } from '../../heat/thermometer.js';
import { CURRENT_SENSOR, measurableOf } from '../../provenance/measurables.js';
import { type Draw, NOMINAL, realiser } from '../../provenance/realise.js';
import { unknownsOf } from '../../provenance/unknowns.js';
import { type Dimension, drawn, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { MeasuredExplanation, MeasuredMove, SensorScale } from '../../results/measured-result.js';
import type { RunInput } from '../candidate.js';
import type { NumberLooks } from '../doubt/costly-numbers.js';
import { groupOf, numbersOf } from '../doubt/numbers.js';
import { MODEL_ERROR } from '../doubt/plan.js';
import { simulate } from '../simulate/simulate.js';
import { shareFactor, type Watched, watchSystem } from '../simulate/watch.js';
import { dot, misfitOf } from './misfit.js';
import { type Moments, samplesIn } from './moments.js';

/** Tolerance of the runs that are compared with one another: what they have in common falls out. */
const TOLERANCE = 1e-3;
/** z₁: the end of the 95 % interval, to which the costly numbers are moved as well. */
const FIRST_MOVE = STANDARD_DEVIATIONS_95;
const MOST_DEVIATIONS = 3;
/** Numbers that are moved in earnest. */
const MOST_TRIED = 6;
/** A move that takes away this share of the squares explains them; one that takes nearly as much cannot be told from it. */
const EXPLAINS = 0.5;
const NEARLY = 0.9;
const MOST_ALIKE = 4;
/** Squares of what instruments err by are 1 in the mean; less than this is nothing to explain. */
const WITHIN_INSTRUMENTS = 2;

/** A number and what is predicted with it moved. */
interface Movable extends Pick<MeasuredMove, 'subject' | 'words' | 'dimension' | 'value'> {
  readonly movedTo: (z: number) => number;
  readonly predicted: (z: number) => readonly Float64Array[];
}

export interface Explained {
  readonly squares: number;
  readonly moved: number;
  readonly explanation: MeasuredExplanation;
  readonly sensor?: SensorScale;
}

/** `looks` are runs that were watched by the way; what is not among them is run. */
export function explain(
  input: RunInput,
  profile: readonly ProfileStep[],
  moments: Moments,
  nominal: readonly Float64Array[],
  looks: NumberLooks,
): Explained {
  const { watch, columns } = moments;
  const misfit = misfitOf(columns, nominal);
  const r = misfit.residuals(nominal);
  const squares = dot(r, r);
  const sensor = sensorScale(moments, nominal, r, misfit.begins);
  const more = sensor === undefined ? {} : { sensor };
  if (squares < WITHIN_INSTRUMENTS) return { squares, moved: 0, explanation: { kind: 'nothing-to-explain' }, ...more };

  const systemOf = realiser(input.data);
  const watchedUnder = (draw: Draw): Watched => {
    const system = systemOf(draw);
    const watched = watchSystem(system, watch);
    simulate(system, profile, { method: 'dormand-prince', relative: TOLERANCE, record: false, watch: watched.watch });
    return watched;
  };
  const unmoved = watchedUnder(NOMINAL);
  const movables: readonly Movable[] = [
    ...numbersOf(unknownsOf([input])).map((number): Movable => {
      const { first, subject, spread, direction } = number;
      const seen = looks.series.get(groupOf(number));
      return {
        subject,
        words: first.words,
        dimension: first.dimension,
        value: first.value,
        movedTo: (z) => drawn(first.value, spread, z),
        predicted: (z) =>
          samplesIn(moments, seen !== undefined && z === FIRST_MOVE ? seen : watchedUnder((key) => z * (direction.get(key) ?? 0)).series()),
      };
    }),
    ...instruments(moments, unmoved),
  ];
  const quick = misfit.residuals(samplesIn(moments, unmoved.series()));
  /** Residuals of a move: of the accurate prediction, changed as the quick one changes. */
  const residualsAt = ({ predicted }: Movable, z: number): Float64Array => {
    const off = misfit.residuals(predicted(z));
    return r.map((each, k) => each + off[k] - quick[k]);
  };
  const slope = (moved: Float64Array, z: number): Float64Array => r.map((each, k) => (each - moved[k]) / z);
  const best = (s: Float64Array): number => {
    const z = dot(r, s) / dot(s, s);
    return Number.isFinite(z) ? Math.min(MOST_DEVIATIONS, Math.max(-MOST_DEVIATIONS, z)) : 0;
  };
  const promising = movables
    .map((movable) => {
      const s = slope(residualsAt(movable, FIRST_MOVE), FIRST_MOVE);
      const z = best(s);
      return { movable, z, gain: z * (2 * dot(r, s) - z * dot(s, s)) };
    })
    .sort((a, b) => b.gain - a.gain)
    .slice(0, MOST_TRIED);
  const moves = promising
    .filter(({ gain }) => gain > 0)
    .map(({ movable, z: z1 }): MeasuredMove => {
      const first = residualsAt(movable, z1);
      const z2 = best(slope(first, z1));
      const second = residualsAt(movable, z2);
      const [z, left] = dot(second, second) < dot(first, first) ? [z2, second] : [z1, first];
      const { subject, words, dimension, value } = movable;
      return { subject, words, dimension, value, moved: movable.movedTo(z), deviations: z, explains: 1 - dot(left, left) / squares };
    })
    .sort((a, b) => b.explains - a.explains);
  return { squares, moved: movables.length, explanation: explanationOf(moves), ...more };
}

/** A number that has come as far as it may is not believed: it would have to lie farther off. */
const believed = ({ deviations }: MeasuredMove): boolean => Math.abs(deviations) < MOST_DEVIATIONS;

/** The one that explains most, with those that cannot be told from it; moves are ordered, the best first. */
export function explanationOf(moves: readonly MeasuredMove[]): MeasuredExplanation {
  const [best, ...others] = moves.filter((move) => believed(move) && move.explains > EXPLAINS);
  if (best === undefined) {
    const [nearest] = moves.filter(({ explains }) => explains > 0);
    return nearest === undefined ? { kind: 'none' } : { kind: 'none', best: nearest };
  }
  return { kind: 'one', best, alike: others.filter(({ explains }) => explains > NEARLY * best.explains).slice(0, MOST_ALIKE) };
}

/** The model's own error and the shares of thermometers, which no datum carries: read off the `unmoved` run. */
function instruments(moments: Moments, unmoved: Watched): readonly Movable[] {
  const places = moments.watch.ids.flatMap((id) => measurableOf(id).place ?? []);
  if (places.length === 0) return [];
  const e = MODEL_ERROR.halfWidth / STANDARD_DEVIATIONS_95;
  const plain: { readonly dimension: Dimension } = { dimension: 'fraction' };
  return [
    {
      ...plain,
      subject: 'model',
      words: MODEL_ERROR.words,
      value: 1,
      movedTo: (z) => 1 + e * z,
      predicted: (z) => samplesIn(moments, unmoved.series(1 + e * z)),
    },
    ...places.map((place): Movable => {
      const { share, words } = THERMOMETER_PLACES[place];
      return {
        ...plain,
        subject: place,
        words: `share of the excess that a thermometer ${words} takes`,
        value: share,
        movedTo: (z) => share * shareFactor(place, z),
        predicted: (z) =>
          samplesIn(
            moments,
            unmoved.series(1, (each) => (each === place ? shareFactor(place, z) : 1)),
          ),
      };
    }),
  ];
}

/** The one sensor whose scale alone takes away most of the squares, where it takes that much and is farther off than such sensors are. */
export function sensorScale(
  { columns }: Moments,
  nominal: readonly Float64Array[],
  r: Float64Array,
  begins: readonly number[],
): SensorScale | undefined {
  const squares = dot(r, r);
  const scales = columns.flatMap(({ id, measured }, c): SensorScale[] => {
    const { error, place } = measurableOf(id);
    if (place !== undefined || 'amount' in error) return [];
    // what one sensor shows is scaled together; the first of its columns speaks for it
    const sensor = columns.flatMap((column, k) =>
      k === c || (CURRENT_SENSOR.includes(id) && CURRENT_SENSOR.includes(column.id)) ? [k] : [],
    );
    if (sensor[0] !== c) return [];
    // what is met exactly weighs nothing known
    const off = sensor
      .flatMap((k) => Array.from(columns[k].measured, (m, i) => ({ m, p: nominal[k][i], before: r[begins[k] + i] })))
      .filter(({ m, p }) => m !== p);
    let mp = 0;
    let pp = 0;
    for (const { m, p, before } of off) {
      // weight over σ², as in the residual itself
      const weight = (before / (m - p)) ** 2;
      mp += weight * m * p;
      pp += weight * p * p;
    }
    const factor = mp / pp;
    if (!(Math.abs(factor - 1) > error.share) || measured.length < 3) return [];
    const gain = off.reduce((sum, { m, p, before }) => sum + (before ** 2 - ((before / (m - p)) * (m - factor * p)) ** 2), 0);
    return [{ id, factor, explains: gain / squares }];
  });
  return scales.filter(({ explains }) => explains > EXPLAINS).sort((a, b) => b.explains - a.explains)[0];
}
