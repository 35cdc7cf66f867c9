/** What lasts just below full throttle is never told as full. */
import { throttleText } from '@shaftwork/sim-core/words';
import { expect, it } from 'vitest';

it.each([
  [1, '100 %'],
  [0.9999, '99.9 %'],
  [0.9967, '99.6 %'],
  [0.995, '99.5 %'],
  [0.9949, '99 %'],
  [0.924, '92 %'],
])('%f is %s', (throttle, text) => expect(throttleText(throttle).replace('\u202f', ' ')).toBe(text));
