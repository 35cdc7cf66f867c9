/** Small scenarios, each of which once ended in a crash, in numbers that are none, or in what cannot be. */
import { readdirSync, readFileSync } from 'node:fs';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { lawsBroken } from '../fuzz/run-laws.js';

const folder = new URL('../fuzz/cases/', import.meta.url);

/** How each ends: its run, or the key that is refused. */
const ENDS: Readonly<Record<string, string>> = {
  'asked-past-the-pack': 'finished',
  'battery-limit-alone': 'finished',
  'battery-limit-and-holds': 'finished,finished,finished',
  'boiling-water': 'conflict ambient.water',
  'brakes-a-collapsed-pack': 'empty',
  'braking-account': 'finished',
  'braking-at-the-limit': 'finished',
  'burnt-motor': 'burnt',
  'burnt-propeller': 'burnt',
  'cold-controller': 'conflict candidates[0].motor.no_load',
  'cold-pack-collapses': 'cut-off at once',
  'cold-water': 'finished,finished,finished',
  'colder-than-the-air': 'conflict candidates[0].motor.no_load',
  'collapse-at-the-limit': 'cut-off at once',
  'controller-takes-all': 'finished',
  'crawling-car': 'finished',
  'current-past-the-limiter': 'conflict candidates[0].motor.no_load',
  'cut-off-196': 'finished',
  'cut-off-502': 'cut-off at once',
  'cut-off-951': 'cut-off at once',
  'cut-off-at-once': 'cut-off at once',
  'cut-off-on-the-way': 'cut-off',
  'drag-at-rest-alone': 'missing-datum vehicle.drag',
  'drained-by-other-loads': 'cut-off',
  'emptied-in-a-second': 'cut-off',
  'emptied-beside-its-load': 'empty',
  'empty-at-start': 'empty at once',
  'empty-boat': 'empty at once',
  'feeds-nothing': 'cut-off at once',
  'friction-beyond-grip': 'finished',
  'full-throttle-from-rest': 'cut-off',
  'hunts-all-along': 'cut-off',
  'hunts-at-the-limit': 'cut-off',
  'impossible-no-load': 'conflict candidates[0].motor.no_load',
  'limit-below-half-the-voltage': 'finished',
  'limit-met-on-a-last-step': 'cut-off',
  'limit-leaves-next-to-nothing': 'finished',
  'limit-past-short-circuit': 'finished',
  'limit-past-the-pack': 'cut-off at once',
  'limiter-under-ripple': 'finished',
  'limits-as-the-pack-gives-way': 'cut-off',
  'loss-below-nothing': 'conflict candidates[0].motor.no_load',
  'motor-limit-on-the-way': 'burnt',
  nanosecond: 'out-of-range profile',
  'no-inertia': 'finished',
  'no-slow-resistance': 'finished',
  'no-slow-resistance-again': 'finished',
  'open-account': 'conflict candidates[0].motor.no_load',
  'other-loads-after-the-stop': 'finished',
  'other-loads-too-large': 'cut-off at once',
  'out-of-reach-by-a-jump': 'finished',
  'overrun-nan': 'cut-off at once',
  'peak-between-samples': 'finished',
  'power-between-samples': 'finished',
  'pushes-off-from-rest': 'cut-off',
  'ripple-lets-go': 'finished',
  'ripple-past-the-limit': 'finished',
  'ripple-tips-the-pack': 'cut-off',
  runaway: 'burnt',
  'sinusoidal-beside-other-loads': 'cut-off at once',
  'sinusoidal-kink': 'finished',
  'sinusoidal-overloaded': 'cut-off at once',
  'standing-car': 'burnt',
  'starved-by-other-loads': 'cut-off',
  'supply-told-empty': 'empty at once',
  'thrust-until-cut-off': 'cut-off',
  'tiny-motor': 'finished',
  'torque-lines': 'finished',
  'turns-out-of-nothing': 'out-of-range propeller.table',
  'two-speeds': 'cut-off at once',
  'up-to-the-collapse': 'cut-off',
  'weak-pack': 'finished',
  'wing-at-rest': 'burnt',
  'wires-take-all': 'cut-off at once',
};

describe('scenarios that broke', () => {
  const names = readdirSync(folder).map((file) => file.replace('.yaml', ''));

  it('are all told of here', () => expect(names.sort()).toEqual(Object.keys(ENDS).sort()));

  it.each(names)('%s', (name) => {
    const preparation = prepareScenario(new Map([[name, readFileSync(new URL(`${name}.yaml`, folder), 'utf8')]]), name);
    expect(preparation.ok).toBe(preparation.kind === 'ready');
    if (preparation.kind === 'needs') throw new Error('needs another file');
    if (preparation.kind !== 'ready') {
      expect(preparation.problems.map(({ kind, place }) => `${kind} ${place.path}`).join()).toBe(ENDS[name]);
      return;
    }
    const result = runScenario(preparation.prepared);
    expect(lawsBroken(preparation.prepared, result)).toEqual([]);
    expect(result.candidates.map(({ end, headline }) => `${end}${headline.runTime.nominal === 0 ? ' at once' : ''}`).join()).toBe(
      ENDS[name],
    );
  });
});
