/** The part of the package odex 2.0.4 that is used here; the package ships no declarations. @module */

/** What `solve` reports. A right-hand side that is not a number also ends as Converged. */
export declare enum Outcome {
  Converged = 0,
  MaxStepsExceeded = 1,
  EarlyReturn = 2,
}

/** Dense output: component (from 0) and time; valid only inside the observer's call. */
export type DenseOutput = (component: number, x: number) => number;

export interface Solution {
  readonly y: readonly number[];
  readonly outcome: Outcome;
  /** echoes the requested end, even after an early return */
  readonly xEnd: number;
  readonly nStep: number;
  readonly nAccept: number;
  readonly nReject: number;
  readonly nEval: number;
}

export declare class Solver {
  constructor(dimension: number);
  maxSteps: number;
  initialStepSize: number;
  /** 0 stands for the whole span */
  maxStepSize: number;
  denseOutput: boolean;
  relativeTolerance: number | readonly number[];
  absoluteTolerance: number | readonly number[];
  /** The initial state must be a plain array (a typed array gives NaN); the observer's first call, n = 1, is the start itself. */
  solve(
    derivative: (x: number, y: readonly number[]) => ArrayLike<number>,
    x0: number,
    y0: readonly number[],
    xEnd: number,
    observer: (n: number, xOld: number, x: number, y: readonly number[], dense: DenseOutput) => boolean,
  ): Solution;
}
