/** Two candidates compared in words: by the objective, and by what else the second does better. @module */

import type { Objective } from '../provenance/given.js';
import {
  type Dimension,
  formatClock,
  formatNumber,
  formatQuantity,
  massText,
  NARROW_SPACE,
  printedDifference,
  type UnitOf,
} from '../quantities/index.js';
import { objectiveFigures } from '../results/objectives.js';
import type { CandidateResult } from '../results/run-result.js';

const lasting = (candidate: CandidateResult): number => objectiveFigures(candidate).time;
const winding = (candidate: CandidateResult): number => objectiveFigures(candidate).winding;

/** Motors below this are told apart by hundredths of a gram [kg]. */
const LIGHT = 0.01;

/** Whether its run ended where the winding burnt out: the peak is what was reached till then. */
export const windingBurns = ({ findings }: CandidateResult): boolean =>
  findings.some((finding) => finding.kind === 'burnt-out' && finding.body === 'winding');

/** "Its winding peaks 25 K cooler than that of", "It lasts 3:20 longer than": the first against the second, to be followed by a name. */
export function comparedWith(first: CandidateResult, second: CandidateResult, objective: Objective): string {
  const gapOf = (a: number, b: number, unit: UnitOf<Dimension>, decimals: number) => {
    const gap = printedDifference(a, b, unit, decimals);
    return { gap, text: `${formatNumber(Math.abs(gap), { decimals })}${NARROW_SPACE}${unit}` };
  };
  const none = (text: string): boolean => !/[1-9]/.test(text);
  switch (objective) {
    case 'longest': {
      const gap = lasting(first) - lasting(second);
      const text = formatClock(Math.abs(gap));
      const atLeast = (gap > 0 ? first : second).outlasts === undefined ? '' : 'at least ';
      return none(text) ? 'It lasts as long as' : `It lasts ${atLeast}${text} ${gap > 0 ? 'longer' : 'shorter'} than`;
    }
    case 'fastest': {
      const { gap, text } = gapOf(first.headline.topSpeed.nominal, second.headline.topSpeed.nominal, 'm/s', 2);
      return none(text) ? 'It is as fast as' : `It is ${text} ${gap > 0 ? 'faster' : 'slower'} than`;
    }
    case 'lightest': {
      const masses = [second.facts.mass, first.facts.mass] as const;
      const { gap, text } = gapOf(...masses, 'g', Math.min(...masses) < LIGHT ? 2 : 0);
      return none(text) ? 'It is as heavy as' : `It is ${text} ${gap > 0 ? 'lighter' : 'heavier'} than`;
    }
    case 'coolest': {
      // the difference of the values, as report and reasons tell it; that of the rounded ones may be one more
      const gap = winding(second) - winding(first);
      const text = `${formatNumber(Math.abs(gap), { decimals: 0 })}${NARROW_SPACE}K`;
      // a run ends where its winding burns out, and nobody knows how hot it would have become
      if (windingBurns(first) && windingBurns(second)) return 'Its winding burns out like that of';
      const atLeast = windingBurns(gap > 0 ? second : first) ? 'at least ' : '';
      return none(text)
        ? 'Its winding peaks as warm as that of'
        : `Its winding peaks ${atLeast}${text} ${gap > 0 ? 'cooler' : 'hotter'} than that of`;
    }
  }
}

interface Quality {
  /** The objective that ranks by it, where there is one. */
  readonly objective?: Objective;
  readonly words: string;
  /** Greater is better. */
  readonly worth: (candidate: CandidateResult) => number;
  readonly show: (candidate: CandidateResult) => string;
}

const QUALITIES: readonly Quality[] = [
  {
    objective: 'lightest',
    words: 'weight matters more',
    worth: ({ facts }) => -facts.mass,
    show: ({ facts }) => massText(facts.mass),
  },
  {
    objective: 'fastest',
    words: 'top speed matters more',
    worth: ({ headline }) => headline.topSpeed.nominal,
    show: ({ headline }) => formatQuantity(headline.topSpeed.nominal, 'speed', { unit: 'm/s', decimals: 2 }),
  },
  {
    objective: 'longest',
    words: 'lasting matters more',
    worth: lasting,
    show: (candidate) => `${candidate.outlasts === undefined ? '' : 'over '}${formatClock(lasting(candidate))}`,
  },
  {
    words: 'length is short',
    worth: ({ facts }) => -facts.canLength,
    show: ({ facts }) => formatQuantity(facts.canLength, 'length', { unit: 'mm', decimals: 0 }),
  },
  {
    words: 'width is short',
    worth: ({ facts }) => -facts.canDiameter,
    show: ({ facts }) => formatQuantity(facts.canDiameter, 'length', { unit: 'mm', decimals: 0 }),
  },
];

/** Less than this share is no reason to prefer anything. */
const WORTH_NAMING = 0.01;

/** Where the second serves better than the first, by the greatest share: "top speed matters more (4.82 m/s against 4.74 m/s)". */
export function advantageOf(first: CandidateResult, second: CandidateResult, objective: Objective): string | undefined {
  let best: Quality | undefined;
  let most = WORTH_NAMING;
  for (const quality of QUALITIES) {
    if (quality.objective === objective) continue;
    const [a, b] = [quality.worth(first), quality.worth(second)];
    const share = (b - a) / Math.max(Math.abs(a), Math.abs(b));
    if (share > most && quality.show(first) !== quality.show(second)) {
      best = quality;
      most = share;
    }
  }
  return best === undefined ? undefined : `${best.words} (${best.show(second)} against ${best.show(first)})`;
}
