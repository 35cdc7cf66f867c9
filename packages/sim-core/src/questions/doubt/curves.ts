/** Bands of temperature over time, and the peaks draw by draw, from the samples. @module */

import { sortedSample } from '../../numerics/quantiles.js';
import { recordOf } from '../../problems/record-of.js';
import type { Objective } from '../../provenance/given.js';
import { TEMPERATURE_CHANNELS, type TemperatureChannel } from '../../results/channels.js';
import type { CurveBand, CurveBands, PeakDraws } from '../../results/doubt-result.js';
import { OBJECTIVE } from '../../results/objectives.js';
import type { CandidateResult } from '../../results/run-result.js';
import { band, type Samples } from './columns.js';
import type { DoubtPlan } from './plan.js';

/** Bands of the temperatures over time, as far as at least half of the samples run. */
export function curvesOf(plan: DoubtPlan, { at }: Samples): CurveBands {
  const { samples, times } = plan;
  const running = times.map((_, t) => {
    let count = 0;
    for (let i = 0; i < samples; i++) if (!Number.isNaN(at(i, 0, t))) count++;
    return count / samples;
  });
  const cut = running.findIndex((share) => share < 0.5);
  const length = cut < 0 ? times.length : cut;
  const channels = recordOf(TEMPERATURE_CHANNELS, (_, body): CurveBand => {
    const bands = Array.from({ length }, (_, t) => {
      const values: number[] = [];
      for (let i = 0; i < samples; i++) if (!Number.isNaN(at(i, body, t))) values.push(at(i, body, t));
      return band(values);
    });
    return { p05: bands.map((b) => b.p05), p50: bands.map((b) => b.p50), p95: bands.map((b) => b.p95) };
  });
  return { time: times.slice(0, length), running: running.slice(0, length), channels };
}

const isTemperature = (id: string): id is TemperatureChannel => (TEMPERATURE_CHANNELS as readonly string[]).includes(id);

/**
 * The body that is spoken of: the winding where the coolest wins, since that is what is compared; else, of the two leaders, the body nearest
 * to its limit on either; the winding where no temperature is limited.
 */
export function bodyInQuestion(leaders: readonly CandidateResult[], objective: Objective): TemperatureChannel {
  if (OBJECTIVE[objective].figure === 'winding') return 'windingTemperature';
  const limits = leaders.flatMap((each) => each.limits.filter(({ id }) => isTemperature(id)));
  const [nearest] = limits.sort((a, b) => a.marginShare - b.marginShare);
  return nearest !== undefined && isTemperature(nearest.id) ? nearest.id : 'windingTemperature';
}

export const BODY_WORDS: Readonly<Record<TemperatureChannel, string>> = {
  windingTemperature: 'peak winding temperature',
  statorTemperature: 'peak stator temperature',
  canTemperature: 'peak can temperature',
  magnetTemperature: 'peak magnet temperature',
  controllerTemperature: 'peak controller temperature',
  cellTemperature: 'peak cell temperature',
};

/** The peaks of `channel`, draw by draw. */
export const peaksOf = (all: readonly Samples[], channel: TemperatureChannel): PeakDraws => ({
  channel,
  words: BODY_WORDS[channel],
  candidates: all.map(({ result, column }) => {
    const bound = result.limits.find((limit) => limit.id === channel)?.bound;
    return { name: result.name, draws: [...sortedSample(column(channel))], ...(bound === undefined ? {} : { bound }) };
  }),
});
