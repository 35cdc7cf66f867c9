/** Public names of the simulation core; texts and schemas are in `@shaftwork/sim-core/scenario` and `/run-scenario`. */

export { CAUTIONS } from './results/cautions.js';
export { CHANNEL_IDS, CHANNELS, type Channel, type ChannelId } from './results/channels.js';
export type { Finding, FindingKind } from './results/finding.js';
export { POWER_TERM_IDS, POWER_TERMS, type PowerAccount, type PowerTerm } from './results/power-terms.js';
export type {
  Assumption,
  CandidateResult,
  EnergyAccount,
  Figure,
  LimitId,
  LimitResult,
  PowerMoment,
  RunEnd,
  RunResult,
  StepResult,
  TorqueSpeedChart,
  Trace,
} from './results/run-result.js';
