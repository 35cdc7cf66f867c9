/**
 * What is no number and yet must be something: kinds, counts and conditions that a scenario may leave out, with what is then taken, the key to write it
 * under, and why. `check` and the report list each that was taken.
 *
 * @module
 */

import { PRACTICE } from './spreads.js';

/** A choice as it is where nothing is said. */
interface Default<K extends string | number | boolean> {
  readonly words: string;
  readonly value: K;
  /** Path of the key that says otherwise, without candidate. */
  readonly key: string;
  readonly source: string;
}

const choice = <const K extends string | number | boolean>(
  key: string,
  words: string,
  value: K,
  source: string = PRACTICE,
): Default<K> => ({
  words,
  value,
  key,
  source,
});

const PLAIN = 'nothing was said';

export const CHOICES = {
  drives: choice('drives', 'equal drives on the pack', 1, PLAIN),
  'shaft-speed': choice(
    'solver.shaft_speed',
    'how the shaft’s speed follows',
    'quasi-steady',
    'rotor and propeller settle within tenths of a second',
  ),
  vehicle: choice('vehicle', 'what the drive moves', 'nothing: it is held on a bench', PLAIN),

  chemistry: choice('battery.chemistry', 'kind of the cells', 'lithium-polymer', 'what most packs of models are'),
  'parallel-strings': choice('battery.cells.parallel', 'strings of cells in parallel', 1, 'the label of a pack in parallel says so'),
  braking: choice('controller.braking', 'braking by the controller', 'none', 'what controllers of boats and aircraft do as delivered'),
  drive: choice('controller.drive', 'commutation', 'block', 'what most controllers of models do'),

  'inrunner-poles': choice('motor.poles', 'magnet poles of the inrunner', 4, 'as most of this layout have'),
  'outrunner-poles': choice('motor.poles', 'magnet poles of the outrunner', 14, 'as most of this layout have'),
  'kv-measured': choice('motor.kv_measured', 'how Kv was found', 'no-load', 'what data sheets print'),
  'resistance-between': choice('motor.resistance_between', 'what the resistance is measured between', 'lines', 'what data sheets print'),
  'resistance-at': choice(
    'motor.resistance_at',
    'winding temperature that the resistance is stated at',
    '20 °C',
    'IEC 60034-1 and most sheets refer to a cold winding',
  ),

  'screw-blades': choice('propeller.blades', 'blades of the screw', 3),
  'propeller-blades': choice('propeller.blades', 'blades of the propeller', 2),
  family: choice('propeller.family', 'family of the blades', 'thin'),
  folding: choice('propeller.folding', 'blades that fold', false, PLAIN),
  medium: choice('propeller.medium', 'what the propeller turns in', 'air', PLAIN),
  'measured-at': choice('propeller.measured_at', 'air that the propeller was measured in', 'as in this scenario', PLAIN),
  'measured-with': choice(
    'propeller.measured_with',
    'what turned the propeller as it was measured',
    'the motor and gear of this candidate',
    PLAIN,
  ),
  water: choice('ambient.water_kind', 'kind of the water', 'fresh', PLAIN),

  'air-from': choice('cooling.air.from', 'air round the motor', 'outside', PLAIN),
  'jacket-covers': choice('cooling.water_jacket.covers', 'what the water jacket covers', 'can', PLAIN),
  'coil-covers': choice('cooling.water_coil.covers', 'what the water coil covers', 'can', PLAIN),
  'sink-covers': choice('cooling.heat_sink.covers', 'what the heat sink stands on', 'can', PLAIN),
  'sink-joint': choice('cooling.heat_sink.joint', 'joint under the heat sink', 'paste'),
  'sink-material': choice('cooling.heat_sink.material', 'material of the heat sink', 'aluminium'),
  'strap-covers': choice('cooling.strap.covers', 'where the strap takes the heat', 'can', PLAIN),
  'strap-material': choice('cooling.strap.material', 'material of the strap', 'copper'),
} as const satisfies Record<string, Default<string | number | boolean>>;

/** The name of a choice that stands in where none was made. */
export type ChoiceId = keyof typeof CHOICES;
/** What such a choice may be. */
export type ChoiceValue<Id extends ChoiceId> = (typeof CHOICES)[Id]['value'];

/** A kind, count or condition that nobody gave. */
export interface Chosen<Id extends ChoiceId = ChoiceId> {
  readonly choice: Id;
  readonly value: ChoiceValue<Id>;
}
