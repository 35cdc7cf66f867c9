/**
 * Why one candidate runs hotter, or longer, than another: every mixture of the parts in which they differ is really run, and the
 * difference is shared out by Shapley values, so that the parts sum to it and no order of exchange is preferred.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { shapleyValues } from '../../numerics/shapley.js';
import type { Data } from '../../provenance/datum.js';
import { realise } from '../../provenance/realise.js';
import type { Dimension } from '../../quantities/index.js';
import type { TemperatureChannel } from '../../results/channels.js';
import {
  type WayPart,
  type WayPartId,
  WHY_PARTS,
  type WhyPart,
  type WhyPartId,
  type WhyResult,
  type WhySplit,
} from '../../results/why-result.js';
import { whySentence } from '../../words/why-sentence.js';
import { simulate } from '../simulate/simulate.js';
import { assertEnds, differsIn, mixedDrive, overridesThatDiffer, waysThatDiffer, withWays } from './mixed-drive.js';

const WHY_WORDS: Readonly<Record<WhyPartId, string>> = {
  speedConstant: 'the choice of winding (Kv)',
  motorConstant: 'the motor constant',
  lossTorque: 'iron and friction loss',
  heatPaths: 'the motor’s own heat paths',
  heatCapacity: 'heat capacity and mass',
  overrides: 'what else differs',
};

const WAY_WORDS: Readonly<Record<WayPartId, string>> = {
  inside: 'the way from winding to can',
  side: 'the can’s side',
  ends: 'its ends',
  elsewhere: 'mount and the air through it',
};

/** Where the gears differ, taken at the driven shaft. */
const GEARED_WORDS: Readonly<Partial<Record<WhyPartId, string>>> = {
  speedConstant: 'the choice of winding and gear',
  motorConstant: 'the motor constant behind its gear',
  lossTorque: 'iron and friction loss behind the gear',
  heatPaths: 'the motor’s own heat paths and the speed it turns at',
};

export interface WhyCandidate {
  readonly name: string;
  readonly data: DriveSystem<Data>;
}

export interface WhyAsk {
  /** Body whose peak is split. */
  readonly body: TemperatureChannel;
  readonly bodyWords: string;
  /** Split the time to cut-off too, the profile driven again and again: costs as many long runs. */
  readonly lasting?: boolean;
}

interface Figures {
  readonly peak: number;
  readonly runTime: number;
  readonly lasting: number;
  readonly failed: boolean;
}

/** Whether a set, a bit for each place, has one; none of fewer than 31 has the place −1 of what is not among them. */
const holds = (set: number, place: number): boolean => (set & (1 << place)) !== 0;

/** Splits the difference `to` less `from` over the profile. */
export function why(from: WhyCandidate, to: WhyCandidate, profile: readonly ProfileStep[], ask: WhyAsk): WhyResult {
  const [a, b] = [realise(from.data), realise(to.data)];
  const players = WHY_PARTS.filter((part) => differsIn(part, a, b));
  assertEnds(a, b, players);
  const others = overridesThatDiffer(a, b);
  const geared = a.gearbox.ratio !== b.gearbox.ratio;
  const words = (id: WhyPartId): string =>
    id === 'overrides' ? others.join(', ') : ((geared ? GEARED_WORDS[id] : undefined) ?? WHY_WORDS[id]);
  const runs: Figures[] = [];
  const capped: string[] = [];
  let simulations = 0;
  for (let set = 0; set < 2 ** players.length; set++) {
    const taken = (part: WhyPartId): boolean => holds(set, players.indexOf(part));
    // both ends are the candidates themselves
    const system = set === 2 ** players.length - 1 ? b : set === 0 ? a : mixedDrive(a, b, taken);
    const options = { method: 'dormand-prince', relative: 1e-5, record: false } as const;
    const run = simulate(system, profile, options);
    simulations++;
    let lasting = Number.NaN;
    if (ask.lasting) {
      lasting = simulate(system, profile, { ...options, again: true }).time;
      simulations++;
    }
    const failed = run.end === 'failed';
    if (failed) {
      const parts = players.filter(taken).map(words);
      capped.push(parts.length === 0 ? from.name : `${from.name} with ${parts.join(', ')} of ${to.name}`);
    }
    runs.push({ peak: run.highest[ask.body].value, runTime: run.time, lasting, failed });
  }
  const peaks = peaksOf(runs);
  const ways = players.includes('heatPaths') ? waysOf(a, b) : undefined;
  const splits = [withWayParts(split('peak', ask.bodyWords, 'temperature', players, words, peaks), ways)];
  const times = runs.map(({ runTime }) => runTime);
  if (Math.abs(times[times.length - 1] - times[0]) > 1) splits.push(split('runTime', 'run time', 'time', players, words, times));
  if (ask.lasting) {
    splits.push(
      split(
        'timeToCutoff',
        'time to cut-off',
        'time',
        players,
        words,
        runs.map(({ lasting }) => lasting),
      ),
    );
  }
  const found = { schema: 'shaftwork.why/1', from: from.name, to: to.name, splits, simulations, capped } as const;
  return { ...found, sentence: whySentence(found) };

  /**
   * The peak's change by each way alone, heat paths exchanged one by one: their Shapley values with all else the first's, and with all else the
   * second's, in the mean.
   */
  function waysOf(first: DriveSystem, second: DriveSystem): WayPart[] | undefined {
    const differing = waysThatDiffer(first, second);
    if (differing.length < 2) return undefined;
    const options = { method: 'dormand-prince', relative: 1e-5, record: false } as const;
    const sums = new Float64Array(differing.length);
    for (const [drive, ways, sign] of [
      [first, second, 1],
      [second, first, -1],
    ] as const) {
      const peaks = Array.from({ length: 2 ** differing.length }, (_, set) => {
        simulations++;
        const run = simulate(
          withWays(drive, ways, (way) => holds(set, differing.indexOf(way))),
          profile,
          options,
        );
        return run.end === 'failed' ? Number.NaN : run.highest[ask.body].value;
      });
      shapleyValues(differing.length, peaks).parts.forEach((part, k) => {
        sums[k] += 0.5 * sign * part;
      });
    }
    if (sums.some(Number.isNaN)) return undefined;
    return differing.map((id, k) => ({ id, words: WAY_WORDS[id], value: sums[k] }));
  }
}

/** Peaks of the mixtures. One that cannot run says nothing of its own: it counts as hot as the hottest that can. */
export function peaksOf(runs: readonly { readonly peak: number; readonly failed: boolean }[]): number[] {
  const able = runs.filter(({ failed }) => !failed);
  const hottest = Math.max(...able.map(({ peak }) => peak));
  return runs.map(({ peak, failed }) => (failed && able.length > 0 ? hottest : peak));
}

/** The split with its heat paths told way by way; what they act beyond their own mean is shared out evenly, so that they sum to the part. */
export function withWayParts(whole: WhySplit, ways: readonly WayPart[] | undefined): WhySplit {
  if (ways === undefined) return whole;
  const sum = ways.reduce((total, { value }) => total + value, 0);
  return {
    ...whole,
    parts: whole.parts.map((part) => {
      if (part.id !== 'heatPaths') return part;
      const more = (part.value - sum) / ways.length;
      const told = ways.map((way) => ({ ...way, value: way.value + more }));
      return { ...part, ways: told.sort((p, q) => Math.abs(q.value) - Math.abs(p.value)) };
    }),
  };
}

/** A difference shared out: `values` by set of players, none of them first, all of them last. */
export function split(
  quantity: WhySplit['quantity'],
  words: string,
  dimension: Dimension,
  players: readonly WhyPartId[],
  wordsOf: (id: WhyPartId) => string,
  values: readonly number[],
): WhySplit {
  const shares = shapleyValues(players.length, values);
  const parts: WhyPart[] = players.map((id, k) => ({ id, words: wordsOf(id), value: shares.parts[k] }));
  const strongest = [...shares.interactions].sort((p, q) => Math.abs(q.value) - Math.abs(p.value))[0];
  const largest = Math.max(0, ...parts.map(({ value }) => Math.abs(value)));
  const [from, to] = [values[0], values[values.length - 1]];
  return {
    quantity,
    words,
    dimension,
    from,
    to,
    difference: to - from,
    parts: parts.sort((p, q) => Math.abs(q.value) - Math.abs(p.value)),
    interaction:
      strongest === undefined ? undefined : { between: [players[strongest.pair[0]], players[strongest.pair[1]]], value: strongest.value },
    interactionsExceedParts: strongest !== undefined && Math.abs(strongest.value) > largest,
  };
}
