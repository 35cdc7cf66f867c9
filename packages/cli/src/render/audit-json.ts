/** Audit and costly numbers at the JSON edge: temperatures in °C and K with their unit in the key; figures carry their SI unit beside them. */
import type { AuditResult, CostlyResult } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';

const celsius = (value: number): number => toUnit(value, '°C');

export const auditJson = ({ candidates, frames, oddities }: AuditResult): object => ({
  candidates,
  frames: frames.map(({ candidates: names, resistanceTimesKvSquared, spread }) => ({
    candidates: names,
    resistanceTimesKvSquared_W_per_N2m2: resistanceTimesKvSquared,
    spread,
  })),
  // an infinite bound is none
  oddities: oddities.map(({ bound, ...rest }) => ({ ...rest, ...(Number.isFinite(bound) ? { bound } : {}) })),
});

export const costlyJson = ({ numbers, all, ranking, simulations }: CostlyResult): object => ({
  numbers: numbers.map(({ effects, before, after, ...rest }) => ({
    ...rest,
    before_K: before,
    after_K: after,
    effects: effects.map(({ nominal, low, high, before: now, after: then, ...each }) => ({
      ...each,
      nominal_degC: celsius(nominal),
      low_degC: celsius(low),
      high_degC: celsius(high),
      before_K: now,
      after_K: then,
    })),
  })),
  all: all.map(({ before, ...rest }) => ({ ...rest, before_K: before })),
  ranking,
  simulations,
});
