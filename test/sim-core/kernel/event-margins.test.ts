import { changesDriving, EVENT_PLACE, endOf, KERNEL_EVENTS } from '@shaftwork/sim-core/kernel/event-margins';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { LIMIT_IDS } from '@shaftwork/sim-core/results/limits';
import { expect, it } from 'vitest';
import { candidates } from '../../bench/reference-system.js';

const system = realise(candidates[0].data);

it('every event has a margin of its own, and no other place is written', () => {
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.5, to: 0.5 } }, 0, false);
  const margins = new Float64Array(KERNEL_EVENTS.length + 1).fill(Number.NaN);
  kernel.margins(0, y, margins);
  for (const event of KERNEL_EVENTS) expect(margins[EVENT_PLACE[event]], event).not.toBeNaN();
  expect(margins[KERNEL_EVENTS.length]).toBeNaN();
});

it('a limit’s margin is the way left to that limit: moving the bound moves it and no other', () => {
  const limited = {
    ...system,
    limits: { ...system.limits, motorCurrent: 50, inputPower: 900, shaftSpeed: 2000, batteryCurrent: 40, batteryPower: 800, reserve: 0.1 },
  };
  const marginsOf = (limits: typeof system.limits): Float64Array => {
    const kernel = createKernel({ ...limited, limits });
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.5, to: 0.5 } }, 0, false);
    const margins = new Float64Array(KERNEL_EVENTS.length);
    kernel.margins(0, y, margins);
    return margins;
  };
  const before = marginsOf(limited.limits);
  const named = KERNEL_EVENTS.filter((event) => (LIMIT_IDS as readonly string[]).includes(event));
  expect(named.length).toBeGreaterThan(8);
  for (const event of named) {
    const id = event as keyof typeof system.limits;
    const after = marginsOf({ ...limited.limits, [id]: limited.limits[id] * 1.001 });
    for (const other of KERNEL_EVENTS) {
      const moved = after[EVENT_PLACE[other]] !== before[EVENT_PLACE[other]];
      // what is destroyed is never destroyed below its limit, and may move with it
      if (other !== 'burnt') expect(moved, `${id} moves ${other}`).toBe(other === event);
    }
  }
});

it('what ends a run limits it; what only changes how a step is driven does neither', () => {
  const driving = KERNEL_EVENTS.filter(changesDriving);
  expect(driving).toEqual(['holdLost', 'holdRegained', 'limiterEntered', 'limiterLeft']);
  for (const event of driving) expect(endOf(event)).toBeUndefined();
  expect(KERNEL_EVENTS.map(endOf).filter((end) => end !== undefined)).toEqual(['cut-off', 'empty', 'burnt']);
});
