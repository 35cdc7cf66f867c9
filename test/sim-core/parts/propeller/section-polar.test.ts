import { thinSectionPolar, zeroLiftAngle } from '@shaftwork/sim-core/parts/propeller/section-polar';
import { describe, expect, it } from 'vitest';

const degrees = (angle: number) => (angle * Math.PI) / 180;
const still = thinSectionPolar({ camber: 0.04, thickness: 0.08 }, 0);
const turning = thinSectionPolar({ camber: 0.04, thickness: 0.08 }, 0.5);
const flat = thinSectionPolar({ camber: 0, thickness: 0.04 }, 0);

describe('a thin section at low Reynolds number', () => {
  it('has no lift at its zero-lift angle, which tends to thin-airfoil theory', () => {
    expect(zeroLiftAngle(0.04, 1e9)).toBeCloseTo(-0.08, 5);
    expect(Math.abs(still(1e5)(zeroLiftAngle(0.04, 1e5)).lift)).toBeLessThan(0.01);
  });
  it('is a mirror image of itself without camber', () => {
    for (const angle of [2, 9, 15, 40, 80].map(degrees)) {
      expect(flat(7e4)(-angle).lift).toBeCloseTo(-flat(7e4)(angle).lift, 12);
      expect(flat(7e4)(-angle).drag).toBeCloseTo(flat(7e4)(angle).drag, 12);
    }
  });
  // levels from memory of wind-tunnel trends of thin cambered sections at Re 6·10⁴–10⁵
  it('reaches a lift of 1.1 to 1.5 before it stalls, and a drag of 0.015 to 0.035 at small lift', () => {
    const lifts = Array.from({ length: 60 }, (_, i) => still(8e4)(degrees(i / 2)).lift);
    const best = Math.max(...lifts);
    expect(best).toBeGreaterThan(1.1);
    expect(best).toBeLessThan(1.5);
    expect(lifts.indexOf(best) / 2).toBeGreaterThan(8);
    expect(lifts.indexOf(best) / 2).toBeLessThan(16);
    expect(still(8e4)(0).drag).toBeGreaterThan(0.015);
    expect(still(8e4)(0).drag).toBeLessThan(0.035);
  });
  it('drags more at lower Reynolds number and when stalled, never less than nothing', () => {
    expect(still(2e4)(0).drag).toBeGreaterThan(1.8 * still(1e5)(0).drag);
    expect(still(8e4)(degrees(20)).drag).toBeGreaterThan(4 * still(8e4)(degrees(5)).drag);
    for (let angle = -90; angle <= 90; angle++) expect(still(5e4)(degrees(angle)).drag).toBeGreaterThan(0);
  });
  it('is a plate across the stream at 90°, turning or not', () => {
    for (const polar of [still, turning]) {
      expect(polar(8e4)(Math.PI / 2).lift).toBeCloseTo(0, 4);
      expect(polar(8e4)(Math.PI / 2).drag).toBeGreaterThan(1.1);
      expect(polar(8e4)(Math.PI / 2).drag).toBeLessThan(1.4);
    }
  });
  it('stalls later near the axis of a turning blade', () => {
    expect(turning(8e4)(degrees(20)).lift).toBeGreaterThan(still(8e4)(degrees(20)).lift + 0.3);
    expect(turning(8e4)(degrees(4)).lift).toBeCloseTo(still(8e4)(degrees(4)).lift, 2);
  });
  it('has no step anywhere', () => {
    for (const polar of [still, turning]) {
      for (let i = -900; i < 900; i++) {
        const [a, b] = [polar(8e4)(degrees(i / 10)), polar(8e4)(degrees((i + 1) / 10))];
        expect(Math.abs(b.lift - a.lift)).toBeLessThan(0.03);
        expect(Math.abs(b.drag - a.drag)).toBeLessThan(0.03);
      }
    }
  });
});
