/** Rows of a doubt study → bands, chances, sensitivities and advice. Pure: equal rows give an equal answer, whoever worked them. @module */

import { isHeatLimit } from '../../drive/heat-limits.js';
import { type FitInputs, fitInputs } from '../../numerics/additive-fit.js';
import type { Dimension } from '../../quantities/index.js';
import { chanceOf } from '../../results/chance.js';
import type { TemperatureChannel } from '../../results/channels.js';
import { type CandidateDoubt, type Comparison, DISTINGUISHABLE, type DoubtResult } from '../../results/doubt-result.js';
import { HEADLINE_IDS, type HeadlineId } from '../../results/headlines.js';
import { OBJECTIVE } from '../../results/objectives.js';
import type { CandidateResult, FigureBand } from '../../results/run-result.js';
import { compareStandings } from '../judge/rank.js';
import { band, differences, nominalObjective, type Samples, samplesOf } from './columns.js';
import { BODY_WORDS, bodyInQuestion, curvesOf, peaksOf } from './curves.js';
import { type DoubtPlan, MODEL_ERROR } from './plan.js';
import { limitBits, type RowFigure, rowLength, sampleStart } from './sample.js';
import { inputColumns, sensitivityOf } from './sensitivity.js';

export type HeadlineBands = { readonly [K in HeadlineId]?: FigureBand };

export interface GatheredDoubt {
  readonly doubt: DoubtResult;
  /** 5–95 % of headline figures by candidate. */
  readonly bands: ReadonlyMap<string, HeadlineBands>;
}

/** The figure of a row that each headline is drawn as; undefined where it is not drawn. */
const DRAWN: { readonly [K in HeadlineId]: RowFigure | undefined } = {
  peakWindingTemperature: 'windingTemperature',
  peakCanTemperature: 'canTemperature',
  peakMagnetTemperature: 'magnetTemperature',
  peakControllerTemperature: 'controllerTemperature',
  peakCellTemperature: 'cellTemperature',
  peakMotorCurrent: 'motorCurrent',
  peakBatteryCurrent: 'batteryCurrent',
  peakInputPower: 'inputPower',
  peakBatteryPower: 'batteryPower',
  peakThrust: 'thrust',
  topShaftSpeed: 'shaftSpeed',
  topSpeed: 'topSpeed',
  chargeLeft: 'chargeLeft',
  runTime: 'runTime',
  timeToCutoff: 'timeToCutoff',
  timeToReserve: 'timeToReserve',
  energy: undefined,
  driveEfficiency: undefined,
};

/** Reads `rows`, all jobs' rows joined in order, beside the nominal results; `ranking` names the best first. */
export function gatherDoubt(
  plan: DoubtPlan,
  rows: Float64Array,
  results: readonly CandidateResult[],
  ranking: readonly string[],
): GatheredDoubt {
  const { samples, objective, names } = plan;
  const length = rowLength(plan);
  if (rows.length !== sampleStart(plan, samples)) throw new RangeError('The rows are not those of this plan.');
  const all = results.map((result, c) => samplesOf(plan, rows, result, c, length));
  const ranked = ranking.map((name) => all[names.indexOf(name)]);
  const inputs = fitInputs(inputColumns(plan));
  const wins = (a: Samples, b: Samples): number =>
    a.standings.filter((standing, i) => compareStandings(standing, b.standings[i]) < 0).length;
  const comparisons: Comparison[] = [];
  for (let a = 0; a < ranked.length; a++) {
    for (let b = a + 1; b < ranked.length; b++) {
      const [better, worse] = [ranked[a], ranked[b]];
      const chance = chanceOf(wins(better, worse), samples);
      const { words, difference } = OBJECTIVE[objective];
      comparisons.push({
        better: better.result.name,
        worse: worse.result.name,
        wins: chance,
        distinguishable: chance.low >= DISTINGUISHABLE,
        difference: {
          words,
          dimension: difference,
          nominal: nominalObjective(worse.result, objective) - nominalObjective(better.result, objective),
          ...band(differences(better, worse)),
        },
      });
    }
  }
  const firsts = Array.from({ length: samples }, (_, i) => {
    let best = ranked[0];
    for (const each of ranked) if (compareStandings(each.standings[i], best.standings[i]) < 0) best = each;
    return best;
  });
  const [leader, second] = ranked;
  const body = bodyInQuestion(
    ranked.slice(0, 2).map(({ result }) => result),
    objective,
  );
  const doubt: DoubtResult = {
    schema: 'shaftwork.doubt/1',
    samples,
    seed: plan.seed,
    unknowns: plan.unknowns.length,
    quasiRandom: plan.quasiRandom,
    modelError: MODEL_ERROR,
    candidates: all.map((each) => candidateDoubt(plan, inputs, each, firsts.filter((first) => first === each).length, body)),
    comparisons,
    peaks: peaksOf(all, body),
    ...(second === undefined
      ? {}
      : {
          leaders: {
            better: leader.result.name,
            worse: second.result.name,
            sensitivity: sensitivityOf(
              plan,
              inputs,
              `difference of ${OBJECTIVE[objective].words} between ${leader.result.name} and ${second.result.name}`,
              OBJECTIVE[objective].difference,
              differences(leader, second),
              [leader.result.name, second.result.name],
            ),
          },
        }),
  };
  return { doubt, bands: new Map(all.map((each) => [each.result.name, headlineBands(each)])) };
}

function headlineBands({ column, result }: Samples): HeadlineBands {
  const bands: { [K in HeadlineId]?: FigureBand } = {};
  for (const headline of HEADLINE_IDS) {
    const figure = DRAWN[headline];
    if (figure === undefined) continue;
    const values = column(figure);
    if (result.headline[headline] === undefined || values.some(Number.isNaN)) continue;
    const { p05, p95 } = band(values);
    bands[headline] = { p05, p95 };
  }
  return bands;
}

function candidateDoubt(plan: DoubtPlan, inputs: FitInputs, each: Samples, first: number, body: TemperatureChannel): CandidateDoubt {
  const { samples } = plan;
  const { result, standings, column } = each;
  const passed = column('passed');
  const ends = column('end');
  const stops = column('canAfterStop');
  const figures: readonly (readonly [string, Dimension, Float64Array])[] = [
    [BODY_WORDS[body], 'temperatureDifference', column(body)],
    ['peak motor current', 'current', column('motorCurrent')],
    ['charge left', 'fraction', column('chargeLeft')],
    ['run time', 'time', column('runTime')],
    ['top speed', 'speed', column('topSpeed')],
  ];
  return {
    name: result.name,
    feasible: chanceOf(standings.filter((standing) => standing.feasible).length, samples),
    first: chanceOf(first, samples),
    limits: result.limits.map(({ id, words }) => {
      const count = passed.filter((mask) => (mask & limitBits([id])) !== 0).length;
      const [most] =
        count > 0 && isHeatLimit(id) ? sensitivityOf(plan, inputs, words, 'temperatureDifference', column(id), [result.name]).shares : [];
      return {
        id,
        words,
        passed: chanceOf(count, samples),
        ...(most === undefined ? {} : { spreadBy: { words: most.words, share: most.share } }),
      };
    }),
    ended: chanceOf(ends.filter((end) => end !== 0).length, samples),
    curves: curvesOf(plan, each),
    ...(stops.some(Number.isNaN) ? {} : { canAfterStop: band(stops) }),
    sensitivities: figures
      .map(([words, dimension, values]) => sensitivityOf(plan, inputs, words, dimension, values, [result.name]))
      .filter((sensitivity) => sensitivity.shares.length > 0),
  };
}
