/** The controller against the averaged buck stage (R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2; from memory). */
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { type ElectricalChain, emptyChainPoint, solveForCurrent } from '@shaftwork/sim-core/drive/electrical-chain';
import { deadTimeDrop, deratingShare, switchingShare } from '@shaftwork/sim-core/parts/controller';
import { expect, it } from 'vitest';

const ideal: ElectricalChain = {
  emf: 12,
  sourceResistance: 1e-9,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  reactiveShare: 0,
  sinusoidal: false,
  switchingShare: 0,
  rippleLoss: 0,
  diodeDrop: 0,
  deadTimeDrop: 0,
  regenerative: false,
};

it('V_out = D·V_in and I_in = D·I_out without losses', () => {
  const out = emptyChainPoint();
  for (const duty of [0.1, 0.35, 0.8, 1]) {
    solveAtDuty(ideal, duty, 1, out);
    expect(out.current * 1 + 1).toBeCloseTo(duty * 12, 7);
    expect(out.busCurrent).toBeCloseTo(duty * out.current, 9);
  }
});

it('conduction 1.25 W and switching 0.15 W at 50 mΩ, 5 A, 12 V, 50 ns, 100 kHz (from memory)', () => {
  const share = switchingShare({ switchingTime: 50e-9, pwmFrequency: 100e3 });
  expect(share * 5 * 12).toBeCloseTo(0.15, 12);
  const out = emptyChainPoint();
  const chain = { ...ideal, pathResistance: 0.05, windingResistance: 0.95, switchingShare: share };
  solveForCurrent(chain, 5, 1, out);
  // what enters the bus less what the motor takes is those two losses
  expect(out.busVoltage * out.busCurrent - (0.95 * 5 + 1) * 5).toBeCloseTo(1.4, 6);
});

it('dead time costs V_d·I·t_d·f and takes V_d·t_d·f off the motor’s voltage (ROHM application note 64AN035E)', () => {
  // 0.8 V, two dead times of 100 ns, 100 kHz, 5 A: 0.08 W
  const drop = deadTimeDrop({ deadTime: 200e-9, deadTimeDrop: 0.8, pwmFrequency: 100e3 });
  expect(drop * 5).toBeCloseTo(0.08, 12);
  const out = emptyChainPoint();
  const chain = { ...ideal, deadTimeDrop: drop };
  solveAtDuty(chain, 0.6, 1, out);
  expect(out.current).toBeCloseTo(0.6 * 12 - 1 - drop, 6);
  expect(out.busVoltage * out.busCurrent - (out.current + 1) * out.current).toBeCloseTo(drop * out.current, 6);
  // braking into the pack it is lost too
  solveAtDuty({ ...chain, regenerative: true }, 0.05, 1, out);
  expect(out.current).toBeLessThan(0);
  expect(out.busVoltage * out.busCurrent - (out.current + 1) * out.current).toBeCloseTo(-drop * out.current, 6);
});

it('derates evenly between its two temperatures', () => {
  const controller = { deratingFrom: 360, deratingTo: 380 };
  expect([350, 360, 365, 380, 400].map((kelvin) => deratingShare(controller, kelvin))).toEqual([1, 1, 0.75, 0, 0]);
  const never = { deratingFrom: Number.POSITIVE_INFINITY, deratingTo: Number.POSITIVE_INFINITY };
  expect(deratingShare(never, 500)).toBe(1);
});
