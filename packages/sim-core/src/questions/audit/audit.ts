/**
 * Audit of the spec sheets: what they say when held against physics, against each other and against what the trade usually sees.
 *
 *   (1) P ≤ V·I      (2) n_0 = (V − i_0·R)/k_t      (3) K_m = k_t/√R = c·m^(5/6)      (4) R·K_v² is one value for all winds of a frame
 *   (5) η_max = (1 − √(i_0·R/V))² at i = √(i_0·V/R)      (6) R ∝ (L + k·D)/(D⁴L²)·K_v⁻² at one mass: shape-laws.ts
 *
 * *Holds for* what was given; a figure that a gap leaves open is left out, never guessed.
 * *Source* (1)–(5) parts/motor.ts; the marks stand in audit-marks.ts, each labelled.
 *
 * @module
 */

import type { AuditResult } from '../../results/audit-result.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { sheetFigures } from './figures.js';
import { packRemarks } from './pack.js';
import { framesOf, peerRemarks, shapeRemarks, windRemarks } from './peers.js';
import { together } from './remark.js';
import { runRemarks } from './run.js';
import { sheetRemarks } from './sheet.js';
import { figuresOf } from './table.js';
import { numberRemarks } from './written-numbers.js';

/** Audits `candidates` with their nominal runs, in the same order. */
export function audit(candidates: readonly RunInput[], runs: readonly Pick<CandidateResult, 'trace' | 'headline'>[]): AuditResult {
  const sheets = candidates.map((input, k) => sheetFigures(input, runs[k]));
  const remarks = sheets.flatMap((sheet, k) => [
    ...numberRemarks(sheet),
    ...sheetRemarks(sheet),
    ...packRemarks(sheet),
    ...runRemarks(sheet, runs[k]),
  ]);
  const windings = sheets.filter(({ motorConstant }) => Number.isFinite(motorConstant));
  const frames = framesOf(windings);
  const oddities = [
    ...together([...remarks, ...peerRemarks(windings, remarks), ...shapeRemarks(windings, frames)]),
    ...windRemarks(frames),
  ];
  const order = { contradiction: 0, unusual: 1, note: 2 };
  return {
    candidates: sheets.map((sheet, k) => ({ name: sheet.input.name, figures: figuresOf(sheet, runs[k]) })),
    frames,
    oddities: oddities.sort((a, b) => order[a.weight] - order[b.weight]),
  };
}
