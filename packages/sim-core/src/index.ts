/**
 * The simulation core: `prepareScenario` reads a scenario, `runScenario` runs it, `checkScenario` tells what is odd; every other question is
 * `…OfScenario(prepared, ask?)`, and `with…(prepared, result)` puts one more answer into a run's result. All numbers are SI.
 *
 * Drives from plain numbers, without a scenario: `@shaftwork/sim-core/drive`. Numbers with units: `/quantities`. Results as sentences and as JSON:
 * `/words`, `/json`. Texts and schemas: `/scenario`.
 *
 * @module
 */

export type { HeatLimitId } from './drive/heat-limits.js';
export { POWER_TERM_IDS, POWER_TERMS, type PowerAccount, type PowerTerm } from './drive/power-terms.js';
export { BODIES, type Body } from './heat/heat-paths.js';
export { HEAT_WAY_IDS, HEAT_WAYS, type HeatByWay, type HeatWay } from './heat/heat-ways.js';
export { THERMOMETER_PLACES, type ThermometerPlace, type ThermometerPlaceId } from './heat/thermometer.js';
export { type MeasuredAsk, measuredOfScenario } from './measured-questions.js';
export {
  type CoolingAsk,
  checkScenario,
  coolingOfScenario,
  type DoubtAsk,
  doubtOfScenario,
  type PointAsk,
  type PointResult,
  pointsOfScenario,
  type RatedCandidate,
  type RatingAsk,
  type ReadingAsk,
  type RunDoubtAsk,
  ratingsOfScenario,
  readingsOfScenario,
  type ScenarioCheck,
  type ShapeAsk,
  shapesOfScenario,
  type WhyAsk,
  type WindingAsk,
  whyOfScenario,
  windingsOfScenario,
  withCostly,
  withRatings,
  withWhy,
} from './other-questions.js';
export { MEASURABLE_IDS, MEASURABLES, type Measurable, type MeasurableId, measurableOf } from './provenance/measurables.js';
export {
  type AfterStopResult,
  REACHABLE,
  STOP_BODIES,
  STOP_THERMOMETERS,
  type StopBody,
  type StopReading,
} from './results/after-stop-result.js';
export type { AssumedChoice, AssumedNumber, Assumption } from './results/assumption.js';
export {
  AUDIT_FIGURES,
  type AuditFigure,
  type AuditFigureId,
  type AuditResult,
  type CandidateAudit,
  type FrameAudit,
  ODDITY_KINDS,
  type Oddity,
  type OddityKind,
} from './results/audit-result.js';
export { bestClimb } from './results/best-climb.js';
export { type Chance, chanceFigure, inDraws, percent } from './results/chance.js';
export { CHANGE_FINDINGS, type ChangedNumber, type ChangeFinding, type ChangeResult } from './results/change-result.js';
export { CHANNEL_IDS, CHANNELS, type Channel, type ChannelId, TEMPERATURE_CHANNELS, type TemperatureChannel } from './results/channels.js';
export type { CoolingAnswer, CoolingProposal, CoolResult, Fitting, Remedy } from './results/cool-result.js';
export type { CostlyEffect, CostlyNumber, CostlyResult, MeasurementAdvice, Tip } from './results/costly-result.js';
export {
  type CandidateDoubt,
  type Comparison,
  type CurveBand,
  type CurveBands,
  DISTINGUISHABLE,
  type DoubtResult,
  type LimitDoubt,
  type PeakDraws,
  type Sensitivity,
  type SensitivityShare,
} from './results/doubt-result.js';
export type { EfficiencyMap } from './results/efficiency-result.js';
export type { Equilibrium } from './results/equilibrium-result.js';
export { type Finding, type FindingKind, fallsShort, stepNotHeld } from './results/finding.js';
export { HEADLINE_IDS, HEADLINES, type HeadlineId } from './results/headlines.js';
export type { FittedPoint, FoundNumber, IdentifyResult, NotTold, ReadingFit } from './results/identify-result.js';
export type { LimitPassed, LimitResult } from './results/limit-result.js';
export { LIMIT_IDS, LIMITS, type LimitId } from './results/limits.js';
export type { MeasuredChannel, MeasuredExplanation, MeasuredMove, MeasuredResult } from './results/measured-result.js';
export type { PartThrottleResult, ThrottlePoint } from './results/part-throttle-result.js';
export { PART_LINES, type PartLine } from './results/parts-list.js';
export type { BenchPlan, PlannedRun } from './results/plan-result.js';
export { POINT_FIGURE_IDS, POINT_FIGURES, type PointBand, type PointFigureId } from './results/point-figures.js';
export type {
  AllowedTime,
  HeldThrottle,
  Lasting,
  RatedPoint,
  Rating,
  RatingResult,
  Settled,
  Stalled,
} from './results/rating-result.js';
export type { ReadingResult } from './results/reading-result.js';
export type { ReadingLine, ReadingsResult } from './results/readings-result.js';
export type {
  CandidateResult,
  EnergyAccount,
  Figure,
  FigureBand,
  PowerMoment,
  RunEnd,
  RunResult,
  SpaceRoom,
  StepResult,
  TorqueSpeedChart,
  Trace,
} from './results/run-result.js';
export type { ShapePoint, ShapeResult } from './results/shape-result.js';
export { isSlightWay, MOTOR_WAYS, SLIGHT_SHARE, shareByWay } from './results/surface-heat.js';
export { WHY_PARTS, type WhyPart, type WhyPartId, type WhyResult, type WhySplit } from './results/why-result.js';
export type { WindingCandidate, WindingPoint, WindingResult } from './results/winding-result.js';
export { type Preparation, type PreparedScenario, prepareScenario, runScenario, VERSION } from './run-scenario.js';
export { CAUTIONS } from './words/cautions.js';
export { limitNotes } from './words/limit-notes.js';
export { costlyName, costlyValue, measureFirst, measureFirstSentence, tipWords, withoutTips } from './words/tipping-words.js';
export { decidingLimit, INSTANT, keepsLimits, meetsDemands } from './words/verdict.js';
