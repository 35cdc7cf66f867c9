import { flowBands, spaced } from '@shaftwork/report/drawing/flow-bands';
import { atBattery, drivesOnPack, hasFlow, inflow, outflows } from '@shaftwork/sim-core/words/flow-account';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

const { moment } = sampleResult().candidates[0]!;

test('what leaves and what is useful are what flows in', () => {
  const out = outflows(moment.power).reduce((sum, { power }) => sum + power, 0);
  expect(out + moment.power.useful).toBeCloseTo(inflow(moment.power), 9);
});

test('the slow part of the cells is a source when it gives back and a stream when it takes', () => {
  const giving = { ...moment.power, polarisationStored: -5 };
  expect(inflow(giving)).toBe(moment.power.batteryChemical + 5);
  expect(outflows(giving).flatMap(({ terms }) => terms)).not.toContain('polarisationStored');
  expect(outflows({ ...moment.power, polarisationStored: 5 })[1]).toMatchObject({ terms: ['polarisationStored'], power: 5 });
});

test('several drives on one pack are counted, and one has its share', () => {
  const share = atBattery(moment.power);
  const four = { ...moment, channels: { ...moment.channels, batteryPower: 4 * share } };
  expect(drivesOnPack(four)).toBe(4);
  expect(drivesOnPack({ ...moment, channels: { ...moment.channels, batteryPower: share } })).toBe(1);
});

test('braking and standstill are no flow', () => {
  const candidate = sampleResult().candidates[0]!;
  const withPower = (change: object) => ({ ...candidate, moment: { ...moment, power: { ...moment.power, ...change } } });
  expect(hasFlow(candidate)).toBe(true);
  expect(hasFlow(withPower({ batteryChemical: 0 }))).toBe(false);
  expect(hasFlow(withPower({ useful: -3 }))).toBe(false);
});

test('bands have widths to scale and lie edge to edge', () => {
  const losses = outflows(moment.power);
  const total = inflow(moment.power);
  const bands = flowBands(moment.power.useful, losses, total, 'red', {
    thickness: 100,
    radius: 10,
    start: 0,
    end: 500,
    outlets: spaced(
      losses.map(() => 1),
      0,
      500,
    ),
    stop: 150,
    tip: 10,
    place: (u, v) => `${u},${v}`,
    upright: false,
  });
  const sides = bands.map(({ path }) => {
    const [, from] = /^M0,([\d.e-]+)/.exec(path)!;
    const [, to] = /L0,([\d.e-]+)Z$/.exec(path)!;
    return { from: Number(from), to: Number(to) };
  });
  losses.forEach(({ power }, index) => {
    expect(sides[index]!.to - sides[index]!.from).toBeCloseTo((power / total) * 100, 6);
    expect(sides[index]!.from).toBeCloseTo(sides[index + 1]!.to, 9);
  });
  expect(sides[0]!.to).toBeCloseTo(100, 6);
  expect(sides.at(-1)!.from).toBe(0);
});
