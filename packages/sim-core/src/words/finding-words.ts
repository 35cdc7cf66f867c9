/** Every kind of finding as a sentence. @module */

import type { Held } from '../drive/profile.js';
import { type Dimension, formatNumber, formatQuantity } from '../quantities/index.js';
import type { Finding } from '../results/finding.js';
import type { CandidateResult, RunResult } from '../results/run-result.js';
import { drivesOnPack } from './flow-account.js';
import { clock, countWord, limitPrinting, quantityText } from './printing.js';
import { contradictionSentence } from './reading-words.js';
import { INSTANT } from './verdict.js';

/** What a step can hold, or give up. */
const HELD: Readonly<Record<Held | 'climb', { readonly words: string; readonly dimension: Dimension }>> = {
  throttle: { words: 'throttle', dimension: 'fraction' },
  vehicleSpeed: { words: 'vehicle speed', dimension: 'speed' },
  shaftSpeed: { words: 'motor speed', dimension: 'angularSpeed' },
  batteryPower: { words: 'battery power', dimension: 'power' },
  batteryCurrent: { words: 'battery current', dimension: 'current' },
  motorCurrent: { words: 'motor current', dimension: 'current' },
  thrust: { words: 'thrust', dimension: 'force' },
  climb: { words: 'climb rate', dimension: 'speed' },
};

/** A finding as a line of text. */
export interface FindingLine {
  readonly kind: Finding['kind'];
  readonly candidate: string;
  readonly sentence: string;
}

/** One line for each finding; those of one kind that recur in steps of one name, or without one that hold one thing, are told once, with their number. */
export function findingLines(result: RunResult): readonly FindingLine[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of result.findings) {
    const label =
      'label' in finding
        ? (finding.label ?? `step ${finding.step}`)
        : 'limit' in finding
          ? finding.limit
          : 'what' in finding
            ? finding.what
            : 'reading' in finding
              ? finding.reading
              : '';
    const held = finding.kind === 'step-not-held' ? (finding.what ?? result.scenario.steps[finding.step]?.hold) : undefined;
    const key = JSON.stringify([finding.candidate, finding.kind, label, held]);
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].map((group) => {
    const again =
      group.length > 1 ? ` The same ${group.length - 1 === 1 ? 'once more' : `${countWord(group.length - 1)} times more`}.` : '';
    return { kind: group[0].kind, candidate: group[0].candidate, sentence: sentenceOf(group[0], result) + again };
  });
}

/** Less than this of what is asked for is told as nothing [1]: a speed on its way to rest. */
const NEXT_TO_NOTHING = 1e-6;

function sentenceOf(finding: Finding, result: RunResult): string {
  const candidate = result.candidates.find(({ name }) => name === finding.candidate);
  const at = finding.time === undefined ? '' : ` at ${clock(finding.time)}`;
  const step = 'step' in finding ? ` in ${finding.label === undefined ? `step ${finding.step + 1}` : `“${finding.label}”`}` : '';
  switch (finding.kind) {
    case 'limit-passed':
      return limitSentence(finding, candidate);
    case 'step-not-held': {
      const what = finding.what ?? result.scenario.steps[finding.step]?.hold;
      const held = what && HELD[what];
      const show = (value: number): string => (held === undefined ? formatNumber(value) : formatQuantity(value, held.dimension));
      const [from, to] = [finding.time, finding.until].map((time) => (time === undefined ? undefined : clock(time)));
      const when = to === undefined || to === from ? `${at}: ` : `, from ${from} to ${to}: at last `;
      return `Does not hold the ${held?.words ?? 'value'} asked for${step}${when}${show(Math.abs(finding.reached) < NEXT_TO_NOTHING * Math.abs(finding.wanted) ? 0 : finding.reached)} instead of ${show(finding.wanted)}.`;
    }
    case 'no-operating-point':
      return `Finds no operating point${step}${at}: ${finding.why.replace(/[.\s]+$/, '')}.`;
    case 'magnets-weakened':
      return `Weakens its magnets for good${at}: ${formatQuantity(finding.value, 'current')} with the magnets at ${formatQuantity(finding.temperature, 'temperature')}, which bear ${formatQuantity(finding.bound, 'current')}.`;
    case 'thermal-runaway':
      return `Has no thermal equilibrium at full throttle, which begins at ${formatQuantity(finding.value, 'current')} and grows as the magnets weaken; a torque that stays the same has none above ${formatQuantity(finding.bound, 'current')}. Bursts are another matter.`;
    case 'several-operating-points':
      return `Motor and load meet at ${finding.count} speeds; the run settles at the one it reaches from the side it comes from.`;
    case 'motor-stalled':
      return `The motor stands still under current${step}${at}.`;
    case 'current-limited': {
      // a controller's limit is that of its own drive, while the battery current of the tables is the whole pack's
      const drives = candidate === undefined ? 1 : drivesOnPack(candidate.moment);
      const whose = finding.by === 'battery' && drives > 1 ? ` of each of the ${drives} drives` : '';
      return `The ${finding.by === 'heat' ? 'hot controller' : 'controller'} limits the ${finding.by === 'battery' ? 'battery' : 'motor'} current${whose} to ${formatQuantity(finding.bound, 'current')}${step}${at}: ${formatQuantity(finding.throttle, 'fraction', { unit: '%', decimals: 0 })} throttle.`;
    }
    case 'burnt-out':
      return `Burns out${at}: the ${finding.body} at ${formatQuantity(finding.value, 'temperature', { unit: '°C', decimals: 0 })}; the run ends there.`;
    case 'cut-off-reached':
      return `The cells reach the cut-off of ${formatQuantity(finding.bound, 'voltage')} each${at}; the run ends there.`;
    case 'battery-empty':
      return `The battery is empty${at}.`;
    case 'outside-propeller-table':
      return finding.bound === 0
        ? `Its propeller was measured at rest alone: at speed thrust and power follow the usual fall, and where thrust ends is known to a factor of 1.5. A point with vehicle_speed settles it.`
        : `Leaves the propeller’s table${at}: ${finding.value === undefined ? 'it all but stands still in the stream,' : formatNumber(finding.value)} where the table ends at ${formatNumber(finding.bound)}.`;
    case 'outside-drag-table':
      return `Leaves the drag table${at}: ${formatQuantity(finding.value, 'speed')} where the table ends at ${formatQuantity(finding.bound, 'speed')}.`;
    case 'does-not-fit': {
      const dimension = finding.what === 'mass' ? 'mass' : 'length';
      return `Does not fit: ${finding.what} ${formatQuantity(finding.value, dimension)} where ${formatQuantity(finding.bound, dimension)} are allowed.`;
    }
    case 'braked-beyond-drive':
      return `The vehicle is slower than what drives it alone would leave it${step}${at}: the drive does not brake that much here.`;
    case 'wheels-spin':
      return `The wheels spin or skid${step}${at}: the ground takes no more than ${formatQuantity(finding.bound, 'force')}.`;
    case 'below-stall-speed':
      return `Flies at ${formatQuantity(finding.value, 'speed')}${step}${at}, too slow for the wing, which carries the weight from ${formatQuantity(finding.bound, 'speed')} on. Write the vehicle_speed that is flown beside the throttle.`;
    case 'steeper-than-vertical':
      return `Keeps its speed only straight ${finding.value > 0 ? 'up' : 'down'}${step}${at}, and not even so: thrust less drag is ${formatQuantity(finding.value, 'force')}, the weight ${formatQuantity(finding.bound, 'force')}.`;
    case 'pack-overcharged':
      return `Charges the pack to ${formatQuantity(finding.value, 'fraction', { unit: '%' })}${at}: lithium cells do not survive that.`;
    case 'motor-overrun':
      return `Is turned so fast${step}${at} that the motor’s own voltage, ${formatQuantity(finding.value, 'voltage')}, passes the pack’s ${formatQuantity(finding.bound, 'voltage')}: the controller’s diodes would conduct and brake, which is not calculated.`;
    case 'blade-area-small':
      return `May cavitate for ${clock(finding.lasting)} in all: ${formatQuantity(finding.thrust, 'force')} of thrust${at} want ${formatNumber(finding.bound, { decimals: 2 })} of the disc as blade area, the screw has ${formatNumber(finding.value, { decimals: 2 })} (Keller’s rule for ships: a caution).`;
    case 'reading-contradicts':
      return contradictionSentence(finding);
  }
}

function limitSentence(finding: Extract<Finding, { kind: 'limit-passed' }>, candidate: CandidateResult | undefined): string {
  const limit = candidate?.limits.find(({ id }) => id === finding.limit);
  if (limit === undefined) return `Passes a limit${finding.time === undefined ? '' : ` at ${clock(finding.time)}`}.`;
  const show = (value: number): string => quantityText(value, limitPrinting(limit));
  const from = limit.passed?.at ?? finding.time;
  const lasting = limit.passed?.lasting;
  const span =
    lasting === undefined
      ? ''
      : lasting < INSTANT
        ? ''
        : lasting < 10
          ? `, past it for ${formatQuantity(lasting, 'time', { unit: 's', significant: 2 })} in all`
          : `, past it for ${clock(lasting)} in all`;
  const burnt = limit.id === 'windingTemperature' && limit.worst > NO_WINDING ? '; no winding survives that' : '';
  return `Passes the limit of ${show(limit.bound)} (${limit.words})${from === undefined ? '' : ` at ${clock(from)}`}; worst ${show(limit.worst)} at ${clock(limit.worstTime)}${span}${burnt}.`;
}

/** 300 °C [K], above the class of any wire enamel; common practice, no published source. */
const NO_WINDING = 573;
