/** The section where one of its terms stands alone: friction at no lift, thin-airfoil lift, the plate across the stream, turning blades near the axis. */
import { thinSectionPolar, zeroLiftAngle } from '@shaftwork/sim-core/parts/propeller/section-polar';
import { expect, it } from 'vitest';

const DEGREE = Math.PI / 180;

it('at no lift drags by Blasius’ friction of both sides times Hoerner’s form, on a floor: √((2.2·(1 + 2t + 60t⁴)·2.656)²/Re + 0.0065²)', () => {
  for (const [thickness, reynolds] of [
    [0.08, 8e4],
    [0.2, 2e4],
    [0.04, 3e6],
  ] as const) {
    const laminar = (2.2 * (1 + 2 * thickness + 60 * thickness ** 4) * 2.656) / Math.sqrt(reynolds);
    expect(thinSectionPolar({ camber: 0, thickness }, 0)(reynolds)(0).drag).toBeCloseTo(Math.hypot(laminar, 0.0065), 12);
  }
});

it('lifts from the angle that a circular arc has, −2f, less what thick boundary layers take', () => {
  expect(zeroLiftAngle(0.04, 2.2e4)).toBeCloseTo(-0.04, 12);
  expect(zeroLiftAngle(0.04, 6.6e4)).toBeCloseTo(-0.06, 12);
});

it('attached, lift goes by 5.8·sin(α − α0), and seven hundredths of its suction are lost as drag', () => {
  const polar = thinSectionPolar({ camber: 0.04, thickness: 0.08 }, 0)(6.6e4);
  // at half a degree not a millionth has come off
  const angle = 0.5 * DEGREE;
  expect(polar(angle).lift).toBeCloseTo(5.8 * Math.sin(angle + 0.06), 6);
  const flat = thinSectionPolar({ camber: 0, thickness: 0.08 }, 0)(6.6e4);
  expect(flat(2 * DEGREE).drag - flat(0).drag).toBeCloseTo(0.07 * 5.8 * Math.sin(2 * DEGREE) ** 2, 5);
});

it('half of the flow is off at 14°; fully off, a plate has sin α/(0.222 + 0.55·sin α) across itself', () => {
  const flat = thinSectionPolar({ camber: 0, thickness: 0.04 }, 0)(1e5);
  const plate = (angle: number): number => Math.sin(angle) / (0.222 + 0.55 * Math.sin(angle));
  const angle = 14 * DEGREE;
  expect(flat(angle).lift).toBeCloseTo(0.5 * 5.8 * Math.sin(angle) + 0.5 * plate(angle) * Math.cos(angle), 9);
  for (const steep of [70 * DEGREE, 90 * DEGREE]) {
    expect(flat(steep).lift).toBeCloseTo(plate(steep) * Math.cos(steep), 4);
    expect(flat(steep).drag - flat(0).drag).toBeCloseTo(plate(steep) * Math.sin(steep), 4);
  }
});

it('turning holds the flow on near the axis: by 3.1·(c/r)² of what a plate lacks, all of it at most, up to 30°, none from 50° on', () => {
  const at = (chordOverRadius: number, degrees: number): number =>
    thinSectionPolar({ camber: 0, thickness: 0.04 }, chordOverRadius)(1e5)(degrees * DEGREE).lift;
  // attached less plate, by the cosine, where all is off but (14/25)⁸
  const angle = 25 * DEGREE;
  const lacks = (5.8 * Math.sin(angle) - Math.sin(angle) / (0.222 + 0.55 * Math.sin(angle))) * Math.cos(angle);
  const off = 1 - 1 / (1 + (25 / 14) ** 8);
  expect(at(0.3, 25) - at(0, 25)).toBeCloseTo(off * 3.1 * 0.09 * lacks, 9);
  expect(at(0.9, 25) - at(0, 25)).toBeCloseTo(off * lacks, 9);
  expect((at(0.3, 40) - at(0, 40)) / (at(0.3, 29.9) - at(0, 29.9))).toBeLessThan(0.75);
  for (const steep of [50, 80]) expect(at(0.9, steep)).toBeCloseTo(at(0, steep), 12);
  // the other way round
  expect(at(0.3, -25) + at(0.3, 25)).toBeCloseTo(0, 12);
});
