/**
 * Audit and costly numbers at the JSON edge: temperatures in °C and K with their unit in the key; figures carry their SI unit beside them.
 *
 * @module
 */

import { toUnit } from '../quantities/index.js';
import type { AuditResult } from '../results/audit-result.js';
import type { CostlyResult } from '../results/costly-result.js';

/** The audit as plain JSON, units in the keys. */
export const auditJson = ({ candidates, frames, oddities }: AuditResult): object => ({
  candidates,
  frames: frames.map(({ candidates: names, resistanceTimesKvSquared, spread }) => ({
    candidates: names,
    resistanceTimesKvSquared_W_per_N2m2: resistanceTimesKvSquared,
    spread,
  })),
  oddities: oddities.map(({ bound, ...rest }) => ({ ...rest, ...(bound === undefined ? {} : { bound }) })),
});

/** Numbers stand in the SI unit of their `dimension`; an effect in the unit that it names. */
export const costlyJson = ({ numbers, all, ranking, leading, simulations }: CostlyResult): object => ({
  numbers: numbers.map(({ effects, ...rest }) => ({
    ...rest,
    effects: effects.map(({ nominal, low, high, before, after, shown, ...each }) => {
      const level = (value: number): number => toUnit(value, shown);
      // a span of temperatures is in kelvins
      const span = (value: number): number => (each.dimension === 'temperature' ? value : level(value));
      return {
        ...each,
        unit: shown,
        nominal: level(nominal),
        low: level(low),
        high: level(high),
        before: span(before),
        ...(after === undefined ? {} : { after: span(after) }),
      };
    }),
  })),
  all: all.map(({ before, ...rest }) => ({ ...rest, before_K: before })),
  ranking,
  leading,
  simulations,
});
