/** What changed, in words. @module */
import { formatNumber } from '../quantities/index.js';
import type { ChangedNumber, ChangeFinding, ChangeResult } from '../results/change-result.js';

/** What each finding means and what to do. */
export const CHANGE_WORDS: Readonly<Record<ChangeFinding, string>> = {
  'flux-lost':
    'Kv is up and the resistance is not down: the magnets have lost flux, as from heat. They do not get it back; mind their temperature from now on.',
  'shorted-turn':
    'The resistance is down, Kv and the loss without load are up: turns of the winding are shorted. Do not run it: such a winding burns.',
  'bad-joint': 'The resistance is up and nothing else is: look for a bad joint, a plug or a cable, and feel what gets warm.',
  'more-friction': 'The loss without load is up and nothing else is: bearings, dirt, or something that rubs.',
  'other-propeller': 'The propeller asks for another torque and the motor is the same: it is bent, chipped or another one.',
  'aged-pack':
    'The resistance is up, with it the capacity down or the slow part up: the pack has aged. Do not ask of it what it gave when new.',
  'capacity-lost': 'The capacity is down and the resistance is not up: not charged as full as before, or aged.',
  'no-pattern': 'Something changed that fits no pattern known here; the table says what.',
  nothing: 'Nothing changed that lies outside the intervals.',
};

const percent = (share: number): string => `${share > 0 ? '+' : ''}${formatNumber(100 * share, { significant: 2 })}\u202f%`;

/** The change and its interval: "+6.1 %", "+2.0 to +10 %". */
export const changeParts = ({
  change,
  low,
  high,
}: Pick<ChangedNumber, 'change' | 'low' | 'high'>): { readonly change: string; readonly interval: string } => ({
  change: percent(change),
  interval: `${percent(low)} to ${percent(high)}`,
});

/** What all of it comes to. */
export const changeSentence = ({ findings, settled }: ChangeResult): string =>
  settled ? findings.map((each) => CHANGE_WORDS[each]).join(' ') : 'A fit did not settle: do not use its numbers.';
