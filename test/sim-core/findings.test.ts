import { realise } from '@shaftwork/sim-core/provenance/realise';
import { runCandidate } from '@shaftwork/sim-core/studies/run';
import { simulate } from '@shaftwork/sim-core/studies/simulate';
import { crossingsOf } from '@shaftwork/sim-core/studies/torque-speed-chart';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const { candidates } = demo('survey-boat');
const [wide] = candidates;
const full = [{ duration: 5, hold: 'throttle' as const, value: { from: 1, to: 1 } }];

describe('what the physics says is a finding, never a number', () => {
  it('a pack that cannot feed its other loads has no operating point: the run ends, says why, and is not feasible', () => {
    const data = { ...wide.data, otherLoads: { ...wide.data.otherLoads, value: 50_000 } };
    const result = runCandidate({ ...wide, data }, full);
    expect(result.end).toBe('failed');
    expect(result.feasible).toBe(false);
    expect(result.findings.map((finding) => finding.kind)).toContain('no-operating-point');
  });

  it('a screw too stiff for a tiny current limit stalls the motor and says so', () => {
    const system = realise(wide.data);
    const stiff = {
      ...system,
      motor: { ...system.motor, hysteresisTorque: 0.5 },
      controller: { ...system.controller, motorCurrentLimit: 5 },
    };
    const run = simulate(stiff, full);
    expect(run.stalled.has(0)).toBe(true);
    expect(run.highest.shaftSpeed.value).toBe(0);
  });

  it('a speed that full throttle cannot hold is told with what was reached', () => {
    const result = runCandidate(wide, [{ duration: 20, hold: 'vehicleSpeed', value: { from: 7, to: 7 } }]);
    const finding = result.findings.find((each) => each.kind === 'step-not-held');
    expect(finding).toMatchObject({ step: 0, wanted: 7 });
    if (finding?.kind === 'step-not-held') {
      expect(finding.reached).toBeGreaterThan(4);
      expect(finding.reached).toBeLessThan(5.5);
    }
    expect(result.findings.map((each) => each.kind)).toContain('outside-drag-table');
  });

  it('counts the crossings of torque and load', () => {
    const chart = { time: 0, vehicleSpeed: 0, charge: 1, speed: [0, 1, 2, 3], crossings: [], load: [0, 3, 1, 3] };
    expect(crossingsOf({ ...chart, lines: [{ throttle: 1, torque: [2, 2, 2, 2] }] })).toBe(3);
    expect(crossingsOf({ ...chart, lines: [{ throttle: 1, torque: [5, 4, 3, 2] }] })).toBe(1);
  });
});
