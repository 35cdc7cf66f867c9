/** The controller against the averaged buck stage (R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2; from memory). */
import { type ElectricalChain, emptyChainPoint, solveAtDuty, solveForCurrent } from '@shaftwork/sim-core/drive/electrical-chain';
import { switchingShare } from '@shaftwork/sim-core/parts/controller';
import { expect, it } from 'vitest';

const ideal: ElectricalChain = {
  emf: 12,
  sourceResistance: 1e-9,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  switchingShare: 0,
  voltageLoss: 0,
  diodeDrop: 0,
  regenerative: false,
};

it('V_out = D·V_in and I_in = D·I_out without losses', () => {
  const out = emptyChainPoint();
  for (const duty of [0.1, 0.35, 0.8, 1]) {
    solveAtDuty(ideal, duty, 0.01, 100, out);
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
