/** What the label of a pack says against its mass, or against packs that models carry. @module */

import { openCircuitVoltage } from '../../parts/battery/battery.js';
import { fromUnit } from '../../quantities/convert.js';
import { formatNumber, toUnit } from '../../quantities/index.js';
import type { SheetFigures } from './figures.js';
import { PACK_CAPACITY, SPECIFIC_ENERGY } from './marks.js';
import { PRACTICE, type Remark } from './remark.js';
import { text } from './words.js';

/** Milliampere taken for ampere, or the other way [1]. */
const SLIPS = [1e-3, 1e3] as const;

/** Remarks on the pack as it was written; none where it is a supply, or nothing was written. */
export function packRemarks({ input, system: { battery } }: Pick<SheetFigures, 'input' | 'system'>): Remark[] {
  const { capacity, mass } = input.given.battery ?? {};
  if (capacity === undefined) return [];
  const volts = battery.cellsInSeries * (openCircuitVoltage(battery.openCircuit, 0.5) + battery.voltageOffset);
  const [held, unit, si, { low, high }] =
    mass === undefined
      ? ([capacity.value, 'A·h', 'A·s', PACK_CAPACITY] as const)
      : ([(capacity.value * volts) / mass.value, 'W·h', 'J/kg', SPECIFIC_ENERGY] as const);
  const value = toUnit(held, unit);
  const usual = (factor: number): boolean => value * factor >= low && value * factor <= high;
  if (usual(1)) return [];
  const slip = SLIPS.find(usual);
  const meant = slip === undefined ? '' : `; with ${text(slip * capacity.value, 'charge')} it would be in line`;
  const charge = text(capacity.value, 'charge');
  const says =
    mass === undefined
      ? `a pack of ${charge}, where those that models carry have ${low} to ${high} A·h`
      : `a pack of ${charge} at ${text(volts, 'voltage', 'V', 1)} and ${text(mass.value, 'mass')} would hold ${formatNumber(Number(value.toPrecision(2)))} W·h/kg, where packs hold ${low} or more, and lithium-ion ${high} at most in theory`;
  return [
    {
      kind: 'pack-capacity-unlikely',
      candidate: input.name,
      weight: 'unusual',
      says: `${says}${meant}`,
      basis: value > high && mass !== undefined ? SPECIFIC_ENERGY.source : PRACTICE,
      value: held,
      bound: fromUnit(value < low ? low : high, unit),
      unit: si,
    },
  ];
}
