/** The cautions that every report carries: nothing that can hurt is left out, and every question's report has them. */
import { CAUTIONS } from '@shaftwork/sim-core/words/cautions';
import { expect, it } from 'vitest';

it.each([
  ['estimates are no clearance', /estimates, not a clearance/],
  ['what is measured decides', /meter, a thermometer/],
  ['a surprise stops the run', /stop when a reading surprises/],
  ['propellers cut', /propellers cut/],
  ['nobody in the plane of the disc', /stand behind its plane/],
  ['the propeller off for set-up', /Take the propeller off/],
  ['packs burn', /packs can burn/],
  ['a fuse', /fuse the supply/],
  ['no damaged pack', /never run a damaged or swollen pack/],
  ['what stays hot', /hot after a run/],
  ['rules come first', /Local rules/],
  ['who decides where people can be hurt', /licensed engineer decides/],
])('%s', (_, words) => {
  expect(CAUTIONS.filter((caution) => words.test(caution))).toHaveLength(1);
});

it('are whole sentences, each once', () => {
  expect(new Set(CAUTIONS).size).toBe(CAUTIONS.length);
  for (const caution of CAUTIONS) expect(caution).toMatch(/^[A-Z].*\.$/);
});
