/** The moment that a run's power flow and torque lines are shown for. */
import type { DriveSystem } from '../drive/drive-system.js';
import type { ProfileStep } from '../drive/profile.js';
import { createKernel } from '../kernel/kernel.js';
import { POWER_TERM_IDS, type PowerAccount } from '../results/power-terms.js';
import type { PowerMoment, TorqueSpeedChart } from '../results/run-result.js';
import { observe } from './observe.js';
import type { Simulation } from './simulate.js';
import { torqueSpeedChart } from './torque-speed-chart.js';

/** The last sample of greatest battery power, and the torque–speed chart there. */
export function hardestMoment(
  simulation: Simulation,
  system: DriveSystem,
  profile: readonly ProfileStep[],
): { moment: PowerMoment; torqueSpeed: TorqueSpeedChart } {
  const { trace, states } = simulation.recorded!;
  let best = 0;
  // the last sample of the hardest stretch says more than its first instant: look from the end
  for (let k = trace.time.length - 1; k >= 0; k--) if (trace.batteryPower[k] > trace.batteryPower[best] * 1.0001) best = k;
  const time = trace.time[best];
  let from = 0;
  let index = 0;
  while (index < profile.length - 1 && from + profile[index].duration < time) from += profile[index++].duration;
  const throttle = trace.throttle[best];
  const kernel = createKernel();
  kernel.load(system);
  const y = states[best].slice();
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
  // what is shown is the moment itself, also of a shaft that still gathers speed
  kernel.turnFreely(true);
  const channels = observe(kernel, 0, y);
  const powers = new Float64Array(POWER_TERM_IDS.length);
  kernel.powers(y, powers);
  const power = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, powers[k]])) as PowerAccount;
  return {
    moment: { time, label: profile[index].label ?? `step ${index + 1}`, power, channels },
    torqueSpeed: torqueSpeedChart(kernel, system, y, time, throttle),
  };
}
