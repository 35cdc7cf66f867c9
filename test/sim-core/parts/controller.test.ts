/** The controller's losses, each by hand from its own equation (R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2 and 4). */
import {
  conductionLoss,
  conductionResistance,
  controllerLoss,
  deadTimeDrop,
  deratingShare,
  idleLoss,
  rippleLoss,
  type SwitchingStage,
  switchingLoss,
  switchingShare,
} from '@shaftwork/sim-core/parts/controller';
import { expect, it } from 'vitest';

const stage: SwitchingStage = {
  pathResistance: 4e-3,
  diodeDrop: 0.7,
  // 200 ns at 16 kHz: half of 3.2 ‰
  switchingShare: switchingShare({ switchingTime: 200e-9, pwmFrequency: 16e3 }),
  // 0.8 V in 1 µs of every 62.5 µs
  deadTimeDrop: deadTimeDrop({ deadTimeDrop: 0.8, deadTime: 1e-6, pwmFrequency: 16e3 }),
  idleCurrent: 0.06,
};

it('switching loses half of voltage times current over rise and fall, dead times the drop of a diode', () => {
  expect(stage.switchingShare).toBeCloseTo(0.0016, 12);
  expect(stage.deadTimeDrop).toBeCloseTo(0.8 / 62.5, 12);
  expect(switchingLoss(stage, 30, 12)).toBeCloseTo(0.5 * 12 * 30 * 200e-9 * 16e3 + (30 * 0.8) / 62.5, 12);
  expect(switchingLoss(stage, -30, 12)).toBe(switchingLoss(stage, 30, 12));
});

it('while a diode freewheels the path has one transistor on less: d·R + (1 − d)·R/2 and (1 − d)·V_f·i', () => {
  expect(conductionResistance(stage, 0.6)).toBeCloseTo(0.6 * 4e-3 + 0.4 * 2e-3, 15);
  expect(conductionLoss(stage, 30, 0.6)).toBeCloseTo(900 * (0.6 * 4e-3 + 0.4 * 2e-3) + 0.4 * 0.7 * 30, 12);
  expect(conductionLoss({ ...stage, diodeDrop: 0 }, 30, 0.6)).toBeCloseTo(900 * 4e-3, 12);
});

it('the whole heat is the sum of what the energy account tells apart', () => {
  const apart = conductionLoss(stage, 30, 0.6) + switchingLoss(stage, 30, 12) + idleLoss(stage, 12) + 1.3;
  expect(controllerLoss(stage, 30, 12, 0.6, 1.3)).toBeCloseTo(apart, 12);
  expect(idleLoss(stage, 12)).toBeCloseTo(0.72, 12);
});

it('ripple loses most at half throttle, nothing at none and all of it, as its square goes', () => {
  expect(rippleLoss(2e-3, 12, 0.5)).toBeCloseTo(2e-3 * 3 * 3, 15);
  expect(rippleLoss(2e-3, 12, 0.25) / rippleLoss(2e-3, 12, 0.5)).toBeCloseTo((0.1875 / 0.25) ** 2, 12);
  expect(rippleLoss(2e-3, 12, 1)).toBe(0);
  expect(rippleLoss(2e-3, 12, 0)).toBe(0);
});

it('derating leaves all below its first temperature, none above its second, half in the middle', () => {
  const derating = { deratingFrom: 360, deratingTo: 380 };
  expect([350, 360, 370, 380, 400].map((t) => deratingShare(derating, t))).toEqual([1, 1, 0.5, 0, 0]);
});
