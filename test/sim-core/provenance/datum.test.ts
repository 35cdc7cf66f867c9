/** A number that knows where it stands: lines are the identity of its unknown. */
import { givenDatum, isDatum } from '@shaftwork/sim-core/provenance/datum';
import { NO_SPREAD } from '@shaftwork/sim-core/quantities/spread';
import { expect, it } from 'vitest';

const place = { file: 'boat.yaml', line: 12, column: 7, path: 'motor.mass' };

it('a given datum is known by file, line and column, and keeps what was said of its source', () => {
  const datum = givenDatum('motor.mass', 'mass', 0.2, NO_SPREAD, place, 'kitchen scale');
  expect(datum).toEqual({
    dimension: 'mass',
    value: 0.2,
    unknown: { key: 'boat.yaml:12:7', spread: NO_SPREAD },
    origin: { kind: 'given', place, subject: 'motor.mass' },
    source: 'kitchen scale',
  });
  expect(givenDatum('motor.mass', 'mass', 0.2, NO_SPREAD, place)).not.toHaveProperty('source');
});

it('nothing else is taken for a datum', () => {
  expect(isDatum(givenDatum('motor.mass', 'mass', 0.2, NO_SPREAD, place))).toBe(true);
  for (const other of [null, undefined, 3, 'x', {}, { origin: 1 }, { unknown: 1 }]) expect(isDatum(other)).toBe(false);
});
