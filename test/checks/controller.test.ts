/** What of the controller has no published value: its derating, and the sign of a current that brakes. The rest stands in outside/electrics.ts. */
import { deratingShare } from '@shaftwork/sim-core/parts/controller';
import { expect, it } from 'vitest';
import { idealAt } from './outside/electrics.js';

it('brakes into the pack below the duty of its back-EMF', () => {
  expect(idealAt({ regenerative: true }, 0.05).current).toBeLessThan(0);
});

it('derates evenly between its two temperatures', () => {
  const controller = { deratingFrom: 360, deratingTo: 380 };
  expect([350, 360, 365, 380, 400].map((kelvin) => deratingShare(controller, kelvin))).toEqual([1, 1, 0.75, 0, 0]);
  const never = { deratingFrom: Number.POSITIVE_INFINITY, deratingTo: Number.POSITIVE_INFINITY };
  expect(deratingShare(never, 500)).toBe(1);
});
