/** A short run for tests to change one thing of: what a judge looks at, and how it was found. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import type { Data } from '@shaftwork/sim-core/provenance/datum';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import type { Peak } from '@shaftwork/sim-core/questions/simulate/extremes-watch';
import { recordingOf, type Simulation, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { CHANNEL_IDS, type ChannelId } from '@shaftwork/sim-core/results/channels';

export const FULL = [{ duration: 2, hold: 'throttle' as const, value: { from: 0.5, to: 0.5 } }];

export const simulated = (data: DriveSystem<Data>): Simulation => simulate(realise(data), FULL);

/** The run with other extremes. */
export const withExtremes = (
  run: Simulation,
  highest: Partial<Record<ChannelId, Peak>>,
  lowest: Partial<Record<ChannelId, Peak>> = {},
): Simulation => ({ ...run, highest: { ...run.highest, ...highest }, lowest: { ...run.lowest, ...lowest } });

/** The run with other curves, over times of its own. */
export function withTrace(run: Simulation, time: readonly number[], curves: Partial<Record<ChannelId, readonly number[]>>): Simulation {
  const recorded = recordingOf(run);
  const nothing = time.map(() => 0);
  const blank = recordOf(CHANNEL_IDS, () => nothing);
  return { ...run, recorded: { ...recorded, trace: { ...blank, ...curves, time } } };
}
