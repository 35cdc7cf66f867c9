/** The moment that a run's power flow and torque lines are shown for. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { HEAT_WAY_IDS, type HeatByWay, sharers } from '../../heat/heat-ways.js';
import { createKernel } from '../../kernel/kernel.js';
import type { PowerMoment, TorqueSpeedChart } from '../../results/run-result.js';
import { observe } from '../simulate/observe.js';
import { recordingOf, type Simulation } from '../simulate/simulate.js';
import { torqueSpeedChart } from './torque-speed-chart.js';

/** Share of each step whose beginning is not looked at: a vehicle that sets off shows what it costs, not what it does [1]. */
const SETTING_OFF = 0.1;

/** The sample of greatest battery power after each step's first tenth, and the torque–speed chart there. */
export function hardestMoment(
  simulation: Simulation,
  system: DriveSystem,
  profile: readonly ProfileStep[],
): { moment: PowerMoment; torqueSpeed: TorqueSpeedChart } {
  const { trace, states } = recordingOf(simulation);
  let best = -1;
  let index = 0;
  let to = 0;
  let at = 0;
  for (const [k, { duration }] of profile.entries()) {
    const from = to;
    to += duration;
    // a break is kept twice, for the step that ends there and for the one that begins
    for (let ended = false; !ended && trace.time[at] <= to; at++) {
      ended = trace.time[at] === to;
      if (
        trace.time[at] < from + SETTING_OFF * duration ||
        trace.batteryPower[at] <= (trace.batteryPower[best] ?? Number.NEGATIVE_INFINITY)
      )
        continue;
      best = at;
      index = k;
    }
  }
  // a run that ended while it set off
  best = Math.max(best, 0);
  const time = trace.time[best];
  const throttle = trace.throttle[best];
  const kernel = createKernel(system);
  const y = states[best].slice();
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
  // what is shown is the moment itself, also of a shaft that still gathers speed
  kernel.turnFreely(true);
  const channels = observe(kernel, 0, y);
  const power = { ...kernel.powers(y) };
  const outlets = kernel.heatOutlets(y);
  const leaves = Object.fromEntries(HEAT_WAY_IDS.map((way) => [way, outlets[way] / sharers(way, system.drives)])) as HeatByWay;
  return {
    moment: { time, label: profile[index].label ?? `step ${index + 1}`, power, channels, leaves },
    torqueSpeed: torqueSpeedChart(kernel, system, y, time, throttle),
  };
}
