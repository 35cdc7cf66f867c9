/** The section on what is left to each limit. @module */

import { type CandidateResult, decidingLimit, type LimitPassed, type LimitResult, limitNotes } from '@shaftwork/sim-core';
import { clock, countWord, differenceText, limitPrinting, listed, printedDifference, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { FARTHEST, marginDrawing, marginGroups } from '../../figures/margins.js';
import { html } from '../../html/html.js';
import { marginsTable } from '../../tables/figure-data.js';
import type { ReportView, Section } from '../report-view.js';

const past = ({ limits }: CandidateResult): readonly (LimitResult & { readonly passed: LimitPassed })[] =>
  limits.flatMap((limit) => (limit.passed === undefined ? [] : [{ ...limit, passed: limit.passed }]));
/** The way to a limit of which less than this share is left counts as near. */
const NEAR = 0.1;

function leftText(limit: LimitResult): string {
  const printing = limitPrinting(limit);
  const difference = printedDifference(limit.bound, limit.worst, printing);
  return differenceText(difference, printing);
}

export function marginsHeading({ result, best }: ReportView): string {
  const lead = best ?? result.candidates[0];
  const deciding = decidingLimit(lead, result.doubt);
  const failing = result.candidates.filter((candidate) => candidate !== lead && past(candidate).length > 0);
  const others =
    failing.length === 0
      ? ''
      : failing.length <= 2
        ? `; ${listed(failing.map((each) => `${each.name} passes ${countWord(past(each).length)}`))}`
        : `; ${countWord(failing.length)} others pass one or more`;
  if (deciding === undefined) return `${lead.name} has no limits to keep${others}`;
  const passed = past(lead);
  if (passed.length > 0)
    return `${lead.name} passes ${countWord(passed.length)} of its ${lead.limits.length} limits (${listed(passed.map(({ words }) => words))})${others}`;
  const { limit, passed: inSome } = deciding;
  return inSome === undefined
    ? `For ${lead.name} the ${limit.words} binds first, with ${leftText(limit)} left${others}`
    : `For ${lead.name} the ${limit.words} is the most likely to be passed, in ${inSome.count} of ${inSome.of} draws${others}`;
}

export async function marginsSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks } = view;
  const groups = marginGroups(result, looks);
  if (groups.length === 0) return undefined;
  const told = result.candidates.map((candidate) => {
    const [first] = candidate.limits;
    const passed = past(candidate);
    if (passed.length > 0) {
      return `${candidate.name} is past ${listed(passed.map((limit) => `its limit of ${quantityText(limit.bound, limitPrinting(limit))} (${limit.words}) from ${clock(limit.passed.at)} on`))}`;
    }
    return first === undefined
      ? `${candidate.name} has no limits`
      : `${candidate.name} comes closest to its limit with the ${first.words}, ${leftText(first)} left`;
  });
  const near = result.candidates.flatMap(({ name, limits }) =>
    limits.filter(({ passed, marginShare }) => passed === undefined && marginShare < NEAR).map(({ words }) => `${name} (${words})`),
  );
  const drawn = await figure({
    id: 'figure-margins',
    number: view.nextFigure(),
    label: 'Bars from the value at the start to the worst value, against each limit',
    description: `${told.join('. ')}.`,
    drawings: { wide: marginDrawing(result, looks, 'wide'), narrow: marginDrawing(result, looks, 'narrow') },
    caption: html`Each line runs from the value at the start to the worst of the run, scaled so that every limit is the one upright rule; beyond the rule is past the limit.${near.length === 0 ? '' : ` Less than a tenth of the way is left to ${listed(near)}.`}${result.candidates.length > 1 ? ` In each group the lines follow the order ${listed(result.candidates.map(({ name }) => name))}.` : ''}${groups.some(({ bars }) => bars.some(({ used }) => used > FARTHEST)) ? ' A bar that is cut off ends in ».' : ''}`,
    data: marginsTable(result),
  });
  return {
    id: 'margins',
    word: 'Margins',
    heading: marginsHeading(view),
    body: html`${drawn}${limitNotes(result).map((note) => html`<p>${note}</p>\n`)}`,
  };
}
