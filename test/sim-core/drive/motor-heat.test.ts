/** Where a motor's losses turn into heat: all of them once, each in the part that the picture of the machine has it in. */
import { motorHeat } from '@shaftwork/sim-core/drive/motor-heat';
import { lossTorque, windageTorqueAt } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';
import { demo } from '../../demo.js';

const { motor: bare } = realise(demo('survey-boat').candidates[0].data);
const motor = { ...bare, windageTorque: 3e-9 };
const heatOf = (layout: 'inrunner' | 'outrunner'): Float64Array => {
  const loss = new Float64Array(4);
  motorHeat(motor, layout, 1200, 0.93, 21, 1.7, loss);
  return loss;
};

it.each(['inrunner', 'outrunner'] as const)(
  '%s: copper, ripple and the loss torque’s power, windage left out, arise once each',
  (layout) => {
    const power = (lossTorque(motor, 1200, 0.93) - windageTorqueAt(motor, 1200)) * 1200;
    expect(heatOf(layout).reduce((sum, each) => sum + each, 0)).toBeCloseTo(21 + 1.7 + power, 10);
  },
);

it('bearings warm the housing of an inrunner and the stator’s tube of an outrunner, by friction torque times speed', () => {
  const [inside, outside] = [heatOf('inrunner'), heatOf('outrunner')];
  expect(inside[2]).toBeCloseTo(motor.frictionTorque * 1200, 12);
  expect(outside[2]).toBe(0);
  expect(outside[1] - inside[1]).toBeCloseTo(motor.frictionTorque * 1200, 12);
});

it('copper heats the winding alone, the magnets take their share of the iron loss', () => {
  const iron = (motor.hysteresisTorque + motor.eddyTorque * 1200) * 0.93 ** 2 * 1200;
  const [winding, stator, , magnets] = heatOf('inrunner');
  expect(winding).toBe(21);
  expect(magnets).toBeCloseTo(motor.magnetLossShare * iron, 10);
  expect(stator).toBeCloseTo((1 - motor.magnetLossShare) * iron + 1.7, 10);
});
