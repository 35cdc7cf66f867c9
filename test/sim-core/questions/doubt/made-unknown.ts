/** An unknown that the tests of the draws make up. */
import type { UnknownEntry } from '@shaftwork/sim-core/provenance/unknowns';

export const madeUnknown = (key: string, candidates: readonly string[], group = key): UnknownEntry => ({
  key,
  group,
  subject: key,
  words: `the ${key}`,
  candidates,
  value: 1,
  dimension: 'ratio',
  spread: { shape: 'normal', sd: 0.1 },
});
