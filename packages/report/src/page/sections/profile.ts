/** The section that tells what was driven. @module */

import { type CandidateResult, CHANNELS, type RunResult } from '@shaftwork/sim-core';
import { certain, lastOf } from '@shaftwork/sim-core/problems';
import { capital, channelPrinting, clock, countWord, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { stepAt } from '../../drawing/step-at.js';
import { numberedSteps } from '../../drawing/time-panels.js';
import { profileDrawing, stripChannels } from '../../figures/profile-strips.js';
import { html } from '../../html/html.js';
import { overTimeTable } from '../../tables/figure-data.js';
import type { ReportView, Section } from '../report-view.js';

/** When the run itself found the peak, where a limit tells; else the time of the highest sample. */
function peakTime({ limits, trace }: CandidateResult, channel: 'motorCurrent' | 'windingTemperature'): number {
  return limits.find(({ id }) => id === channel)?.worstTime ?? trace.time[highest(trace[channel])];
}

const highest = (values: readonly number[]): number => values.reduce((best, value, index) => (value > values[best] ? index : best), 0);

/** Where a current leaps between two steps, the trace has both sides of the same moment: whether the peak is on the later one. */
function afterLeap({ trace: { time, motorCurrent } }: CandidateResult, at: number): boolean {
  const sides = time.flatMap((t, index) => (Math.abs(t - at) < SAME_MOMENT ? [motorCurrent[index]] : []));
  return sides.length > 1 && lastOf(sides) > sides[0];
}
/** [s] */
const SAME_MOMENT = 1e-6;

/** The current peaks in one step and the heat perhaps in another: which is the point of calculating the whole run. */
export function profileHeading({ result, best }: ReportView): string {
  const lead =
    best !== undefined && best.trace.time.length > 1
      ? best
      : certain(
          result.candidates.find(({ trace }) => trace.time.length > 1),
          'candidate that ran',
        );
  const current = peakTime(lead, 'motorCurrent');
  const heat = peakTime(lead, 'windingTemperature');
  const currentStep = stepAt(result, current + (afterLeap(lead, current) ? SAME_MOMENT : 0));
  const heatStep = stepAt(result, heat);
  const amperes = quantityText(lead.headline.peakMotorCurrent.nominal, channelPrinting('motorCurrent'));
  if (currentStep === undefined || heatStep === undefined)
    return `${lead.name} draws its greatest motor current, ${amperes}, at ${clock(current)} and is hottest at ${clock(heat)}`;
  if (currentStep === heatStep) return `“${heatStep}” sets both the greatest motor current of ${lead.name}, ${amperes}, and its heat`;
  return `“${currentStep}” sets the greatest motor current of ${lead.name}, ${amperes}; “${heatStep}” sets its heat`;
}

const braked = ({ candidates }: RunResult): boolean => candidates.some(({ trace }) => trace.batteryCurrent.some((current) => current < 0));

export async function profileSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks, best } = view;
  if (!result.candidates.some(({ trace }) => trace.time.length > 1)) return undefined;
  const wide = profileDrawing(result, looks, 'wide');
  const narrow = profileDrawing(result, looks, 'narrow');
  const { laps } = wide;
  const channels = stripChannels(result);
  const told = result.candidates
    .filter(({ trace }) => trace.time.length > 1)
    .map(({ name, headline: { peakMotorCurrent, peakBatteryCurrent, chargeLeft } }) => {
      const amperes = (value: number): string => quantityText(value, channelPrinting('motorCurrent'));
      return `${name}: motor current up to ${amperes(peakMotorCurrent.nominal)}, battery current up to ${amperes(peakBatteryCurrent.nominal)}, ${quantityText(chargeLeft.nominal, channelPrinting('charge'))} charge left`;
    });
  const drawn = await figure({
    id: 'figure-profile',
    number: view.nextFigure(),
    label: `Strips over the run: ${channels.map((id) => CHANNELS[id].words).join(', ')}`,
    description: `${told.join('; ')}.`,
    drawings: { wide: wide.drawing, narrow: narrow.drawing },
    caption: html`${capital(countWord(channels.length))} quantities on one time axis; the values at the right are those at the end.${laps === undefined ? '' : ` Above, the band between the least and the greatest value of each of the ${laps.count} laps; beneath, lap ${laps.hottest.number} large, the hottest of ${best?.name ?? result.candidates[0].name}.`}${braked(result) ? ' Below nought the motor brakes and charges the pack.' : ' The motor carries more current than the battery gives wherever the throttle is below 100\u202f%.'}${numberedSteps(wide.head, narrow.head)}`,
    data: overTimeTable(result, channels, 'Over the run'),
  });
  return { id: 'profile', word: 'Profile', heading: profileHeading(view), body: drawn };
}
