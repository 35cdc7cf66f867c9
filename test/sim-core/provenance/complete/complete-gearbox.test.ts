/** A gear as given, or none. */
import { expect, it } from 'vitest';
import { dataOf, type Section } from '../drives.js';

const gear = (more: Section) => {
  const { ratio, efficiency, mass } = dataOf(more).gearbox;
  return [ratio.value, efficiency.value, mass.value];
};

it('without a gear the motor turns the load itself, without loss or mass', () => expect(gear({})).toEqual([1, 1, 0]));
it('a gear of which only the ratio is known loses a twentieth and weighs nothing', () =>
  expect(gear({ gearbox: { ratio: 3 } })).toEqual([3, 0.95, 0]));
it('a gear is what was given', () =>
  expect(gear({ gearbox: { ratio: 5.2, efficiency: '97 %', mass: '34 g' } })).toEqual([5.2, 0.97, 0.034]));
