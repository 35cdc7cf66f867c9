/** The first moment of a run at which current and heat pass what the magnets bear, where their thickness and grade are known. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { demagnetisingCurrent } from '../../parts/magnets.js';
import { torqueConstantAt } from '../../parts/motor.js';
import type { Finding } from '../../results/finding.js';
import type { Simulation } from '../simulate/simulate.js';

export function magnetsWeakened(
  { magnet, motor }: DriveSystem,
  { recorded }: Pick<Simulation, 'recorded'>,
): (Extract<Finding, { kind: 'magnets-weakened' }> extends infer F ? Omit<F, 'candidate'> : never) | undefined {
  if (magnet === undefined || recorded === undefined) return undefined;
  const { time, motorCurrent, magnetTemperature } = recorded.trace;
  for (let k = 0; k < time.length; k++) {
    const temperature = magnetTemperature[k];
    const bound = demagnetisingCurrent(magnet, motor.polePairs, torqueConstantAt(motor, temperature), temperature);
    if (Math.abs(motorCurrent[k]) > bound)
      return { time: time[k], kind: 'magnets-weakened', value: Math.abs(motorCurrent[k]), bound, temperature };
  }
  return undefined;
}
