/** What a run noted becomes findings: each with its step, its label and its numbers, and nothing that was held. */
import { damageTemperatures } from '@shaftwork/sim-core/drive/damage';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { findingsOf } from '@shaftwork/sim-core/questions/judge/run-findings';
import type { SimulationFailure, SimulationFound } from '@shaftwork/sim-core/questions/simulate/simulation';
import type { RunEnd } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { boat, preparedOf, type Section } from '../../provenance/drives.js';
import { simulated, withExtremes } from './simulated.js';

const [input] = preparedOf({}).candidates;
const system = realise(input.data);
const run = simulated(input.data);
const step = { duration: 1, hold: 'throttle' as const, value: { from: 1, to: 1 } };
const profile = [step, { ...step, label: 'climb' }];
type How = { readonly end: Exclude<RunEnd, 'failed'> } | { readonly end: 'failed'; readonly failure: SimulationFailure };
const found = (more: Partial<SimulationFound>, how: How = { end: 'finished' }, of = system, given = input.given) =>
  findingsOf('A', { ...run, ...more, ...how }, of, profile, given).map(({ candidate, ...finding }) => {
    expect(candidate).toBe('A');
    return finding;
  });

it('nothing is found where nothing was noted', () => expect(found({})).toEqual([]));

describe('a hold that was lost', () => {
  const lost = { step: 1, time: 3, wanted: 10, reached: 7, climb: false };
  it('is told once a step, with what was wanted and reached', () => {
    expect(found({ lost: [lost, { ...lost, time: 4 }, { ...lost, step: 0, until: 9, climb: true }] })).toEqual([
      { time: 3, kind: 'step-not-held', step: 1, label: 'climb', wanted: 10, reached: 7 },
      { time: 3, kind: 'step-not-held', step: 0, until: 9, what: 'climb', wanted: 10, reached: 7 },
    ]);
  });
  it('by a thousandth is held, either way', () => {
    const missed = (reached: number, wanted = 10): number => found({ lost: [{ ...lost, wanted, reached }] }).length;
    expect([missed(9.991), missed(10.009), missed(9.989), missed(10.011)]).toEqual([0, 0, 1, 1]);
    expect([missed(-9.991, -10), missed(-9.98, -10), missed(999, 1000)]).toEqual([0, 1, 0]);
    // one that is held does not hide a later loss of the same step
    expect(found({ lost: [{ ...lost, reached: 9.9999 }, lost] })).toHaveLength(1);
  });
});

it('each note of a step has its own finding', () => {
  const limited = { time: 1, by: 'motor', bound: 20, throttle: 0.6 } as const;
  expect(
    found({
      limited: new Map([[1, limited]]),
      braked: new Set([0]),
      stalled: new Set([1]),
      spun: new Map([[0, { time: 2, bound: 30 }]]),
      tooSlow: new Map([[1, { time: 3, speed: 7, bound: 8 }]]),
      vertical: new Map([[1, { time: 4, left: 12, weight: 11 }]]),
      overrun: new Map([[0, { time: 5, voltage: 14, bound: 12 }]]),
    }),
  ).toEqual([
    { kind: 'current-limited', step: 1, label: 'climb', ...limited },
    { kind: 'braked-beyond-drive', step: 0 },
    { kind: 'motor-stalled', step: 1, label: 'climb' },
    { time: 2, kind: 'wheels-spin', step: 0, bound: 30 },
    { time: 3, kind: 'below-stall-speed', step: 1, label: 'climb', value: 7, bound: 8 },
    { time: 4, kind: 'steeper-than-vertical', step: 1, label: 'climb', value: 12, bound: 11 },
    { time: 5, kind: 'motor-overrun', step: 0, value: 14, bound: 12 },
  ]);
});

it('an unstable crossing and a failure are told as no operating point', () => {
  const [unstable, failure] = found({ unstable: new Set([1]) }, { end: 'failed', failure: { step: 0, time: 0.5, why: 'no current' } });
  expect(unstable).toMatchObject({
    kind: 'no-operating-point',
    step: 1,
    label: 'climb',
    why: expect.stringContaining('torque rises faster'),
  });
  expect(failure).toEqual({ time: 0.5, kind: 'no-operating-point', step: 0, why: 'no current' });
});

describe('the end of a run', () => {
  it.each([
    ['cut-off', { kind: 'cut-off-reached', bound: 3.3 }],
    ['empty', { kind: 'battery-empty' }],
  ] as const)('%s', (end, finding) => expect(found({ time: 70 }, { end })).toEqual([{ time: 70, ...finding }]));
  it('burnt: the body that is farthest past its damage', () => {
    const { at } = run.kernel;
    const state = Float64Array.from(run.state);
    state[at.winding] = 600;
    state[at.controller] = 500;
    // solder melts at 217 °C, enamel softens at 320 °C: 9.85 K and 6.85 K beyond
    expect(found({ time: 8, state }, { end: 'burnt' })).toEqual([{ time: 8, kind: 'burnt-out', body: 'controller', value: 500 }]);
    state[at.winding] = 604;
    expect(found({ time: 8, state }, { end: 'burnt' })).toEqual([{ time: 8, kind: 'burnt-out', body: 'winding', value: 604 }]);
    // both just as far: the first of them
    const damage = damageTemperatures(system.limits);
    state[at.winding] = damage.windingTemperature;
    state[at.controller] = damage.controllerTemperature;
    expect(found({ time: 8, state }, { end: 'burnt' })).toMatchObject([{ body: 'winding' }]);
  });
});

describe('what was left', () => {
  it('a propeller’s table, past its end or before its beginning', () => {
    if (system.load.kind !== 'propeller') throw new Error('a propeller');
    const { from, to } = system.load.table.supported;
    const passed = new Map([['propellerTable', 2]] as const);
    expect(found({ passed, outsideTable: 0.3 })).toEqual([{ time: 2, kind: 'outside-propeller-table', value: to + 0.3, bound: to }]);
    expect(found({ passed, outsideTable: -0.2 })).toEqual([{ time: 2, kind: 'outside-propeller-table', value: from - 0.2, bound: from }]);
    // all but stopped in the stream its advance ratio has no value
    expect(found({ passed, outsideTable: Number.POSITIVE_INFINITY })).toEqual([{ time: 2, kind: 'outside-propeller-table', bound: to }]);
    expect(found({ passed, outsideTable: 0 })).toEqual([{ time: 2, kind: 'outside-propeller-table', value: to, bound: to }]);
    expect(found({ outsideTable: 0.3 })).toEqual([]);
  });
  it('the rows of a drag table, at its last speed', () => {
    const drag = [
      { speed: '3 m/s', force: '12 N' },
      { speed: '6 m/s', force: '40 N' },
    ];
    const [hull] = preparedOf(boat({ vehicle: { mass: '3 kg', drag } })).candidates;
    const fast = withExtremes(simulated(hull.data), { vehicleSpeed: { value: 7.5, time: 5 } });
    const told = findingsOf('A', { ...fast, passed: new Map([['dragTable', 4]] as const) }, realise(hull.data), profile, hull.given);
    expect(told).toContainEqual({ candidate: 'A', time: 4, kind: 'outside-drag-table', value: 7.5, bound: 6 });
  });
  it('the charge that a pack takes', () => {
    const charged = (value: number) => found(withExtremes(run, { charge: { value, time: 9 } }));
    expect(charged(1.0021)).toEqual([{ time: 9, kind: 'pack-overcharged', value: 1.0021, bound: 1 }]);
    expect([charged(1.0019), charged(1.002)]).toEqual([[], []]);
  });
  it('the space, by each side that it has too little of', () => {
    const sized = (space: Section) => {
      const [each] = preparedOf({ space }).candidates;
      return found({}, undefined, realise(each.data), each.given);
    };
    expect(sized({ diameter: '27 mm', length: '32 mm', mass: '66 g' })).toEqual([]);
    expect(sized({ diameter: '26 mm', length: '31 mm', mass: '60 g' })).toEqual([
      { kind: 'does-not-fit', what: 'diameter', value: 0.027, bound: 0.026 },
      { kind: 'does-not-fit', what: 'length', value: 0.032, bound: 0.031 },
      { kind: 'does-not-fit', what: 'mass', value: 0.066, bound: 0.06 },
    ]);
  });
});
