/** Limits that nobody gave, of hand-made runs: which are told, of whom, and in which words. */
import type { LimitResult } from '@shaftwork/sim-core/results/limit-result';
import type { LimitId } from '@shaftwork/sim-core/results/limits';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { limitNotes } from '@shaftwork/sim-core/words/limit-notes';
import { expect, it } from 'vitest';
import { limitResult } from './limit-result.js';

const candidate = (name: string, ids: readonly LimitId[], assumed: readonly LimitId[] = []): CandidateResult => {
  const limits: readonly LimitResult[] = ids.map((id) =>
    limitResult({ id, bound: 303.15, ...(assumed.includes(id) ? { assumed: true as const } : {}) }),
  );
  return { name, limits } as CandidateResult;
};
const notes = (...candidates: CandidateResult[]): string[] => limitNotes({ candidates }).map((text) => text.replaceAll('\u202f', ' '));
const USUAL = ['motorCurrent', 'batteryCurrent'] as const;

it('nothing is told where all were given', () => expect(notes(candidate('A', USUAL))).toEqual([]));

it('assumed ones are told once, with their value', () => {
  const both = ['windingTemperature', 'cellVoltage'] as const;
  expect(notes(candidate('A', [...USUAL, ...both], both), candidate('B', [...USUAL, ...both], both))).toEqual([
    'Limits assumed, since nobody gave them: winding temperature 30 °C and loaded cell voltage 303.1 V.',
  ]);
});

it('a current that nobody limits is told, of all or of whom', () => {
  expect(notes(candidate('A', []))).toEqual([
    'No limit of motor current (maker) or battery current (rating) was given, so none was checked.',
  ]);
  expect(notes(candidate('A', USUAL), candidate('B', ['batteryCurrent']), candidate('C', ['batteryCurrent']))).toEqual([
    'No limit of motor current (maker) of B and C was given, so none was checked.',
  ]);
});

it('what only some must keep is told of the others, and what none must is not', () => {
  expect(notes(candidate('A', [...USUAL, 'inputPower']), candidate('B', USUAL))).toEqual([
    'No limit of input power (maker) of B was given, so none was checked.',
  ]);
  expect(notes(candidate('A', USUAL), candidate('B', USUAL))).toEqual([]);
});
