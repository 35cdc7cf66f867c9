/** Whole runs of a second that end otherwise than well, find what is rare, or drive nothing: what is told and what is left out. */
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import type { Datum } from '@shaftwork/sim-core/provenance/datum';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { withRunaway } from '@shaftwork/sim-core/questions/run/runaway';
import type { SimulateOptions } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { expect, it } from 'vitest';
import { boat, OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const throttle = (duration: number, value: number, more: object = {}): ProfileStep =>
  stepOfParts({ duration, hold: 'throttle', value: { from: value, to: value }, ...more });
const inputOf = (more: Section = {}) => preparedOf(more).candidates[0];
const at = <D extends Datum>(datum: D, value: number): D => ({ ...datum, value });
const run = (more: Section, profile: readonly ProfileStep[], options?: SimulateOptions) => runCandidate(inputOf(more), profile, options);

it('a plain one finds nothing and is told with how it was found', () => {
  const shown = run({}, [throttle(600, 0.5)]);
  expect([shown.findings, shown.end, shown.feasible]).toEqual([[], 'finished', true]);
  // side and both ends of a can of 27 mm × 32 mm
  expect([shown.facts.sideArea, shown.facts.endArea]).toEqual([expect.closeTo(2.7143e-3, 7), expect.closeTo(1.14511e-3, 8)]);
  expect(shown.afterStop?.stoppedAt).toBe(600);
  expect(shown.efficiencyMap?.contours.length).toBeGreaterThan(0);
  expect(shown.statistics).toMatchObject({ method: 'odex', tolerance: 1e-8 });
});

it('is found as it is asked to be', () => {
  const quick = run({}, [throttle(600, 0.5)], { method: 'dormand-prince', relative: 1e-5 });
  expect(quick.statistics).toMatchObject({ method: 'dormand-prince', tolerance: 1e-5 });
  expect(quick.headline.energy.nominal / quick.trace.batteryPower[600] / 600).toBeCloseTo(1, 1);
});

it('has the energy at the terminals, and the share of it that moves the vehicle', () => {
  const { headline, trace } = run(boat(), [throttle(100, 0.6)]);
  const over = (watts: (k: number) => number): number =>
    trace.time.reduce((sum, t, k) => (k === 0 ? 0 : sum + 0.5 * (watts(k) + watts(k - 1)) * (t - trace.time[k - 1])), 0);
  const out = over((k) => trace.batteryPower[k]);
  // wires are behind the terminals and before the controller
  expect(headline.energy.nominal / out).toBeGreaterThan(1);
  expect(headline.energy.nominal / over((k) => 3 * trace.cellVoltage[k] * trace.batteryCurrent[k])).toBeCloseTo(1, 4);
  // out of the cells, with what their own resistance takes
  const { driveEfficiency } = headline;
  expect(driveEfficiency.nominal).toBeGreaterThan(0.1);
  expect(driveEfficiency.nominal).toBeLessThan(0.8);
});

it('that draws nothing makes nothing of it', () => {
  const { headline } = run({ controller: { idle_current: '0 A' } }, [throttle(7200, 0)]);
  expect([headline.energy.nominal, headline.driveEfficiency.nominal, headline.chargeLeft.nominal]).toEqual([0, 0, 1]);
});

it('that cannot start has no lines and no map, and stands where it began', () => {
  const input = inputOf();
  const { controller } = input.data;
  const dead = { ...input, data: { ...input.data, controller: { ...controller, idleCurrent: at(controller.idleCurrent, 1e5) } } };
  const told = runCandidate(dead, [throttle(600, 0.5)]);
  expect([told.end, told.headline.runTime.nominal, told.feasible]).toEqual(['cut-off', 0, false]);
  expect(told).not.toHaveProperty('efficiencyMap');
  expect(told.torqueSpeed.lines).toEqual([]);
});

it('that fails says so, also driven again and again, and nothing follows its stop', () => {
  const input = inputOf();
  const { battery } = input.data;
  const lost = { ...input, data: { ...input.data, battery: { ...battery, capacity: at(battery.capacity, Number.NaN) } } };
  const told = runCandidate(lost, [throttle(600, 0.5)]);
  expect([told.end, told.endsRepeated, told.feasible]).toEqual(['failed', 'failed', false]);
  expect(told).not.toHaveProperty('afterStop');
  // it stands as it began
  expect([told.headline.chargeLeft.nominal, told.headline.topShaftSpeed.nominal > 0]).toEqual([1, true]);
  expect(told.findings).toMatchObject([
    { kind: 'no-operating-point', step: 0, time: 0, why: expect.stringContaining('not a finite number') },
  ]);
});

it('tells of magnets that are weakened, and of several points where a drive may run', () => {
  const input = inputOf({ motor: { ...OUTRUNNER, magnet_thickness: '1 mm', magnet_grade: 'N' } });
  const magnet = input.data.magnet ?? expect.fail();
  const weak = {
    ...input,
    data: { ...input.data, magnet: { ...magnet, coercivity: at(magnet.coercivity, 0.1 * magnet.coercivity.value) } },
  };
  const magnets = runCandidate(weak, [throttle(60, 1)]);
  expect(magnets.findings.map(({ kind }) => kind)).toContain('magnets-weakened');
  // a screw that takes much at half its advance and little before and beyond: with 10 m/s three speeds balance full throttle
  const table = [
    { advance_ratio: 0, thrust: 0.05, power: 0.02 },
    { advance_ratio: 0.25, thrust: 0.05, power: 0.02 },
    { advance_ratio: 0.5, thrust: 0.05, power: 0.5 },
    { advance_ratio: 1, thrust: 0.005, power: 0.02 },
  ];
  const several = run({ propeller: { kind: 'coefficients', diameter: '333 mm', table } }, [
    throttle(60, 1, { vehicleSpeed: { from: 10, to: 10 } }),
  ]);
  expect(several.findings.find(({ kind }) => kind === 'several-operating-points')).toMatchObject({ candidate: 'A', count: 3 });
});

it('that would run away at full throttle is told so, another is as it was', () => {
  const hot = inputOf({ motor: { ...OUTRUNNER, kv: '2500 rpm/V', thermal: { winding_to_stator: '0.05 W/K' } } });
  const before = { name: 'A', findings: [] } as Partial<CandidateResult> as CandidateResult;
  const after = withRunaway(hot, before);
  expect(after.findings).toHaveLength(1);
  const away = after.findings.find((finding) => finding.kind === 'thermal-runaway') ?? expect.fail();
  expect(away.candidate).toBe('A');
  expect(away.value).toBeGreaterThan(away.bound);
  expect(withRunaway(inputOf(), before)).toBe(before);
});
