/** Magnets at the first moment that current and heat are too much for them, on curves drawn by hand. */
import { demagnetisingCurrent } from '@shaftwork/sim-core/parts/magnets';
import { torqueConstantAt } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { magnetsWeakened } from '@shaftwork/sim-core/questions/judge/magnets-weakened';
import { expect, it } from 'vitest';
import { dataOf, OUTRUNNER } from '../../provenance/drives.js';
import { simulated, withTrace } from './simulated.js';

const data = dataOf({ motor: { ...OUTRUNNER, magnet_thickness: '1.5 mm', magnet_grade: 'M' } });
const system = realise(data);
const run = simulated(data);
const boundAt = (temperature: number): number => {
  if (system.magnet === undefined) throw new Error('magnets');
  return demagnetisingCurrent(system.magnet, system.motor.polePairs, torqueConstantAt(system.motor, temperature), temperature);
};
const HOT = 383.15;
const weakened = (motorCurrent: readonly number[]) =>
  magnetsWeakened(system, withTrace(run, [0, 1, 2, 3], { motorCurrent, magnetTemperature: [HOT, HOT, HOT, HOT] }));

it('are told at the first moment, braking too, with what they bear at their temperature', () => {
  const bound = boundAt(HOT);
  expect(weakened([0, bound * 0.999, bound * 1.001, bound * 2])).toEqual({
    kind: 'magnets-weakened',
    time: 2,
    value: bound * 1.001,
    bound,
    temperature: HOT,
  });
  expect(weakened([0, -bound * 1.5, 0, 0])).toMatchObject({ time: 1, value: bound * 1.5 });
  expect(weakened([0, bound, -bound, 0])).toBeUndefined();
});

it('bear less the hotter they are', () => expect(boundAt(HOT)).toBeLessThan(boundAt(293.15)));

it('are not judged where they are not known, or nothing was recorded', () => {
  const { magnet: _, ...unknown } = system;
  expect(magnetsWeakened({ ...unknown, magnet: undefined }, withTrace(run, [0], { motorCurrent: [1e6] }))).toBeUndefined();
  expect(magnetsWeakened(system, { recorded: undefined })).toBeUndefined();
});
