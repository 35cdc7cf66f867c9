/** What the integrators throw. @module */

/** Why an integration could not go on. */
export type IntegrationFailureKind = 'derivative-not-finite' | 'margin-not-finite' | 'step-too-small' | 'too-many-steps' | 'too-much-work';

const SENTENCES: Readonly<Record<IntegrationFailureKind, string>> = {
  'derivative-not-finite': 'a rate of change is not a finite number',
  'margin-not-finite': 'the margin of an event is not a number',
  'step-too-small': 'the step fell below what the clock resolves without meeting the tolerance',
  'too-many-steps': 'the limit on the number of steps was reached',
  'too-much-work': 'the laws change so fast, again and again, that it was given up',
};

/** Thrown instead of a result when an integration cannot go on; a class so that it keeps its stack and can be told from a bug. */
export class IntegrationFailure extends Error {
  override readonly name = 'IntegrationFailure';
  /** last time that was reached with a good state [s] */
  readonly time: number;
  readonly kind: IntegrationFailureKind;

  constructor(kind: IntegrationFailureKind, time: number) {
    super(`The integration stopped at t = ${time} s: ${SENTENCES[kind]}.`);
    this.kind = kind;
    this.time = time;
  }
}
