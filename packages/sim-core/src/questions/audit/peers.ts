/** Candidates against one another: by mass, by shape, and winds of one frame. @module */

import { listed } from '../../problems/listed.js';
import { MOTOR_CONSTANT } from '../../provenance/rules/rules-motor.js';
import type { FrameAudit, Oddity } from '../../results/audit-result.js';
import { END_TURNS, motorConstantSquared } from '../frame/shape-laws.js';
import { stackOf } from '../frame/stack-of.js';
import type { SheetFigures } from './figures.js';
import { PEER_FACTOR, SAME_FRAME, SAME_MASS } from './marks.js';
import { oddity, PHYSICS, type Remark } from './remark.js';
import { constantText, lossAtTorque, percent, slipOf, text } from './words.js';

/** Motors out of line with the middle of their own kind in this scenario, unless that was told already. */
export function peerRemarks(sheets: readonly SheetFigures[], told: readonly Remark[]): Remark[] {
  const found: Remark[] = [];
  for (const layout of ['inrunner', 'outrunner'] as const) {
    const kin = sheets.filter(({ system }) => system.motor.layout === layout);
    const levels = kin.map((sheet) => sheet.motorConstant / sheet.system.motor.mass ** MOTOR_CONSTANT.exponent);
    if (new Set(levels).size < 3) continue;
    const middle = [...levels].sort((a, b) => a - b)[Math.floor(levels.length / 2)];
    kin.forEach((sheet, k) => {
      const candidate = sheet.input.name;
      const ratio = levels[k] / middle;
      if (ratio < PEER_FACTOR && ratio > 1 / PEER_FACTOR) return;
      if (told.some((each) => each.kind === 'motor-constant-out-of-line' && each.candidate === candidate)) return;
      const expected = sheet.motorConstant / ratio;
      found.push({
        kind: 'motor-constant-out-of-line',
        candidate,
        weight: 'unusual',
        says: `motor constant ${constantText(sheet.motorConstant)} where the other ${layout}s of this scenario, scaled to its mass, have about ${constantText(expected)}${slipOf(ratio, sheet)}`,
        basis: 'similarity, from the other candidates',
        value: sheet.motorConstant,
        bound: expected,
        unit: 'N·m/√W',
      });
    });
  }
  return found;
}

/**
 * Motors of one layout, mass and Kv but another shape against the one of them that claims most for its own: R ∝ (L + k·D)/(D⁴L²)·K_v⁻²
 * (shape-laws 2, 4). `frames` holds those of one shape.
 */
export function shapeRemarks(sheets: readonly SheetFigures[], frames: readonly FrameAudit[]): Remark[] {
  // R·K_v² over what the shape gives it: the less, the more a sheet claims
  const claim = ({ input, system: { motor } }: SheetFigures): number =>
    (motor.resistance / motor.torqueConstant ** 2) * motorConstantSquared(motor.canDiameter, stackOf(input), END_TURNS[motor.layout]);
  const rivals = (a: SheetFigures, b: SheetFigures): boolean => {
    const [m, o] = [a.system.motor, b.system.motor];
    const apart = Math.abs(Math.log(m.torqueConstant / o.torqueConstant));
    return (
      m.layout === o.layout &&
      Math.abs(m.mass / o.mass - 1) <= SAME_MASS.mass &&
      apart <= Math.log(SAME_MASS.kv) &&
      !frames.some(({ candidates }) => candidates.includes(a.input.name) && candidates.includes(b.input.name))
    );
  };
  return sheets.flatMap((sheet): Remark[] => {
    const kin = sheets.filter((other) => rivals(sheet, other));
    if (kin.length === 0) return [];
    const best = kin.reduce((a, b) => (claim(b) < claim(a) ? b : a));
    const ratio = claim(sheet) / claim(best);
    if (ratio <= SAME_MASS.spread) return [];
    const { resistance } = sheet.system.motor;
    const expected = resistance / ratio;
    return [
      {
        kind: 'shapes-disagree',
        candidate: sheet.input.name,
        weight: 'note',
        says: `by the figures of ${best.input.name}, which weighs about the same, a can of this shape should have ${text(expected, 'resistance')} at this Kv; its sheet says ${text(resistance, 'resistance')} (+${percent(ratio - 1)})`,
        basis: 'shape laws, D⁴L²/(L + k·D); Hanselman 2003, ch. 4',
        value: resistance,
        bound: expected,
        unit: 'Ω',
      },
    ];
  });
}

/** Candidates of one layout, can and mass with different windings. */
export function framesOf(sheets: readonly SheetFigures[]): FrameAudit[] {
  const close = (a: number, b: number, share: number): boolean => Math.abs(a / b - 1) <= share;
  const left = [...sheets];
  const frames: FrameAudit[] = [];
  for (let first = left.shift(); first !== undefined; first = left.shift()) {
    const m = first.system.motor;
    const kin = [first];
    for (const other of [...left]) {
      const o = other.system.motor;
      const same =
        o.layout === m.layout &&
        close(o.canDiameter, m.canDiameter, SAME_FRAME.size) &&
        close(o.canLength, m.canLength, SAME_FRAME.size) &&
        close(o.mass, m.mass, SAME_FRAME.mass);
      if (!same) continue;
      left.splice(left.indexOf(other), 1);
      // the same motor again, on another gear, is no other wind
      if (!kin.some(({ system }) => system.motor.torqueConstant === o.torqueConstant && system.motor.resistance === o.resistance))
        kin.push(other);
    }
    if (kin.length < 2) continue;
    const products = kin.map(({ motorConstant: km }) => km ** -2);
    frames.push({
      candidates: kin.map(({ input }) => input.name),
      resistanceTimesKvSquared: products,
      spread: Math.max(...products) / Math.min(...products),
    });
  }
  return frames;
}

export function windRemarks(frames: readonly FrameAudit[]): Oddity[] {
  return frames
    .filter(({ spread }) => spread > SAME_FRAME.spread)
    .map(({ candidates, resistanceTimesKvSquared: products, spread }) =>
      oddity(
        'winds-disagree',
        candidates,
        'contradiction',
        `${listed(candidates)} share can and mass, yet their copper losses at one torque are ${listed(products.map(lossAtTorque))}.`,
        { basis: PHYSICS, value: spread, bound: SAME_FRAME.spread, unit: '1' },
      ),
    );
}
