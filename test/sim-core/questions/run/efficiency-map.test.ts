import { fluxRatio, lossTorque, torqueConstantAt, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { expect, test } from 'vitest';
import { demo } from '../../../demo.ts';

const { candidates, scenario } = demo('survey-boat');
const [wide] = candidates;
const { motor } = realise(wide!.data);
const run = runCandidate(wide!, scenario.profile);
const map = run.efficiencyMap!;

test('every point of a contour has that efficiency by the motor’s own laws', () => {
  const k = torqueConstantAt(motor, map.magnetTemperature);
  const resistance = windingResistance(motor, map.windingTemperature);
  expect(map.contours.length).toBeGreaterThan(4);
  for (const { efficiency, speed, torque } of map.contours) {
    speed.forEach((w, index) => {
      const current = (torque[index]! + lossTorque(motor, w, fluxRatio(motor, map.magnetTemperature))) / k;
      expect((torque[index]! * w) / ((resistance * current + k * w) * current)).toBeCloseTo(efficiency, 9);
    });
  }
});

test('the visits account for the time under power', () => {
  const spent = map.visits.reduce((sum, { time }) => sum + time, 0);
  expect(spent).toBeLessThanOrEqual(scenario.profile.reduce((sum, { duration }) => sum + duration, 0) + 1e-6);
  expect(spent).toBeGreaterThan(0.98 * run.headline.runTime.nominal);
});
