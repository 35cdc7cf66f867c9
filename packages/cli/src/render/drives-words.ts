/** Which figures are one drive's and which the whole pack's, where a vehicle has several drives on one pack. @module */

import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';

/** A sentence, or nothing where every candidate has one drive. */
export function drivesWords({ candidates }: PreparedScenario): string | undefined {
  const several = candidates.filter(({ data }) => data.drives > 1);
  if (several.length === 0) return undefined;
  const counts = [...new Set(several.map(({ data }) => data.drives))].join(' or ');
  const whose = several.length === candidates.length ? '' : ` (${several.map(({ name }) => name).join(', ')})`;
  return `With ${counts} drives on one pack${whose}: current, torque, power, thrust and losses of motor, controller and propeller are those of one drive, and so is each loss of the pack; battery current, battery power, charge and energy are the whole pack’s.`;
}
