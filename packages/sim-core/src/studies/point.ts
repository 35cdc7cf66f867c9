/** The steady operating point of one candidate: full pack as the scenario starts it, starting temperatures. */

import type { Held } from '../drive/profile.js';
import { createKernel } from '../kernel/kernel.js';
import { realise } from '../provenance/realise.js';
import type { ChannelId } from '../results/channels.js';
import type { Equilibrium } from '../results/equilibrium-result.js';
import { POWER_TERM_IDS, type PowerAccount } from '../results/power-terms.js';
import { equilibriumAt } from './equilibrium.js';
import { observe } from './observe.js';
import type { RunInput } from './run.js';

/** What is held, and the vehicle's speed beside it; left out, the vehicle takes the speed at which its drag is met. */
export interface PointAsk {
  readonly hold: Held;
  readonly value: number;
  readonly vehicleSpeed: number | undefined;
}

export interface PointResult {
  readonly name: string;
  readonly channels: Readonly<Record<ChannelId, number>>;
  readonly powers: PowerAccount;
  /** False where the demand is out of reach and full throttle stands in. */
  readonly reached: boolean;
  /** Held like this for ever, the pack at its starting charge; `none` where the heat finds no equilibrium; absent where a vehicle's speed was set beside the hold. */
  readonly settled?: Equilibrium | 'none';
}

export function steadyPoint(input: RunInput, ask: PointAsk): PointResult {
  const system = realise(input.data);
  const kernel = createKernel();
  kernel.load(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const speed = kernel.dimension - 1;
  const step = { duration: 1, hold: ask.hold, value: { from: ask.value, to: ask.value } };
  kernel.begin(step, 0, false);
  const at = (v: number): number => {
    y[speed] = v;
    kernel.solve(0, y);
    return kernel.point.acceleration;
  };
  const settle = (): void => {
    // steady speed: where the vehicle no longer accelerates
    let [low, high] = [0, 1];
    if (at(0) <= 0) return;
    while (at(high) > 0 && high < 400) high *= 2;
    for (let k = 0; k < 60; k++) {
      const middle = 0.5 * (low + high);
      if (at(middle) > 0) low = middle;
      else high = middle;
    }
    at(0.5 * (low + high));
  };
  // a held shaft speed already says how fast a wheel rolls
  const moves = system.vehicle.carriedBy !== 'bench' && !(ask.hold === 'shaftSpeed' && system.load.kind === 'wheel');
  if (ask.vehicleSpeed !== undefined) at(ask.vehicleSpeed);
  else if (moves) settle();
  else at(0);
  let reached = true;
  if (ask.hold !== 'throttle' && !(kernel.point.dutyAsked <= 1)) {
    reached = false;
    kernel.begin(step, 0, true);
    if (ask.hold === 'vehicleSpeed') settle();
    else kernel.solve(0, y);
  }
  const channels = observe(kernel, 0, y);
  const watts = new Float64Array(POWER_TERM_IDS.length);
  kernel.powers(y, watts);
  const powers = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, watts[k]])) as PowerAccount;
  // a speed that is set is not the one the drive settles at; a drive that is off or held fast settles at nothing a person asks for
  const imposed = ask.vehicleSpeed !== undefined && (moves || ask.vehicleSpeed > 0);
  if (imposed || !(channels.throttle > 0) || kernel.point.stalled) return { name: input.name, channels, powers, reached };
  const settled = equilibriumAt(system, channels.throttle, system.start.charge) ?? 'none';
  return { name: input.name, channels, powers, reached, settled };
}
