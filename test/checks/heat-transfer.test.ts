/** The law that stands beside ours in outside/heat.ts is the book's: Nu 50.5 at Re 7992 (Incropera et al., 6th ed., example 7.4; 0.3 %). */
import { expect, it } from 'vitest';
import { zukauskas } from './outside/heat.js';

it('Zukauskas’ law, Nu = 0.26·Re^0.6·Pr^0.37·(Pr/Prs)^¼', () => {
  expect(Math.abs(zukauskas() / 50.5 - 1)).toBeLessThan(0.003);
});
