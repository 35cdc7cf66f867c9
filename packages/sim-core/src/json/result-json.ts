/** The JSON edge: SI figures become shown units, every numeric key ends in its unit from the channel list. @module */

import { HEAT_WAY_IDS } from '../heat/heat-ways.js';
import { toUnit } from '../quantities/index.js';
import { CHANNEL_IDS, CHANNELS } from '../results/channels.js';
import type { Finding } from '../results/finding.js';
import { LIMITS } from '../results/limits.js';
import type { CandidateResult, RunResult } from '../results/run-result.js';
import { auditJson, costlyJson } from './audit-json.js';
import { doubtJson, whyJson } from './doubt-json.js';
import { heatJson, ratingJson } from './heat-json.js';
import { isJsonDimension, type JsonDimension, withUnit } from './json-units.js';
import { measuredJson } from './measured-json.js';

/** A finding with its numbers in shown units and keys that say which. */
function findingJson(finding: Finding, candidates: readonly CandidateResult[]): object {
  const limit =
    finding.kind === 'limit-passed'
      ? candidates.find((candidate) => candidate.name === finding.candidate)?.limits.find((each) => each.id === finding.limit)
      : undefined;
  const dimension =
    finding.kind === 'reading-contradicts'
      ? isJsonDimension(finding.dimension)
        ? finding.dimension
        : undefined
      : limit === undefined
        ? FINDING_DIMENSION[finding.kind]
        : LIMITS[limit.id].dimension;
  return Object.fromEntries(
    Object.entries(finding).map(([key, value]) => {
      const own = KEY_DIMENSION[key];
      if (own !== undefined && typeof value === 'number') return withUnit(key, value, own);
      const measured = dimension !== undefined && typeof value === 'number' && ['value', 'bound', 'wanted', 'reached'].includes(key);
      return measured ? withUnit(key, value, dimension) : [key, value];
    }),
  );
}

/** Keys that measure the same in every finding. */
const KEY_DIMENSION: Readonly<Record<string, JsonDimension>> = {
  time: 'time',
  until: 'time',
  lasting: 'time',
  thrust: 'force',
  temperature: 'temperature',
};

/** What the numbers of a finding measure; those of the others are plain, or stand in the SI unit of the step's hold. */
const FINDING_DIMENSION: Partial<Record<Finding['kind'], JsonDimension>> = {
  'current-limited': 'current',
  'magnets-weakened': 'current',
  'thermal-runaway': 'current',
  'cut-off-reached': 'voltage',
  'outside-drag-table': 'speed',
  'below-stall-speed': 'speed',
  'wheels-spin': 'force',
  'motor-overrun': 'voltage',
  'pack-overcharged': 'fraction',
  'steeper-than-vertical': 'force',
};

const spaceJson = (space: NonNullable<CandidateResult['space']>): object =>
  Object.fromEntries(
    Object.entries(space).map(([side, room]) => {
      const [unit, suffix] = side === 'mass' ? (['g', '_g'] as const) : (['mm', '_mm'] as const);
      return [side, Object.fromEntries(Object.entries(room).map(([key, value]) => [key + suffix, toUnit(value, unit)]))];
    }),
  );

function candidateJson(candidate: CandidateResult): object {
  const headline = Object.fromEntries(
    Object.entries(candidate.headline).flatMap(([key, { dimension, nominal, band }]) =>
      Object.entries({ [key]: nominal, [`${key}_p05`]: band?.p05, [`${key}_p95`]: band?.p95 }).flatMap(([name, value]) =>
        value === undefined ? [] : [withUnit(name, value, dimension)],
      ),
    ),
  );
  const limits = candidate.limits.map((limit) => ({
    id: limit.id,
    origin: limit.origin,
    ...(limit.assumed ? { assumed: true } : {}),
    sense: limit.sense,
    ...Object.fromEntries([
      withUnit('bound', limit.bound, LIMITS[limit.id].dimension),
      withUnit('worst', limit.worst, LIMITS[limit.id].dimension),
    ]),
    worstTime_s: limit.worstTime,
    marginShare: limit.marginShare,
    ...(limit.passed === undefined ? {} : { passedAt_s: limit.passed.at }),
    ...(limit.passed?.lasting === undefined ? {} : { passedFor_s: limit.passed.lasting }),
  }));
  const trace = Object.fromEntries([
    ['time_s', candidate.trace.time],
    ...CHANNEL_IDS.map((id) => [`${id}_${CHANNELS[id].suffix}`, candidate.trace[id].map((value) => toUnit(value, CHANNELS[id].shown))]),
  ]);
  const energy = Object.fromEntries(Object.entries(candidate.energy.terms).map(([key, joules]) => [`${key}_J`, joules]));
  return {
    name: candidate.name,
    feasible: candidate.feasible,
    end: candidate.end,
    ...(candidate.space === undefined ? {} : { space: spaceJson(candidate.space) }),
    headline,
    limits,
    surfaces: {
      side_cm2: toUnit(candidate.facts.sideArea, 'cm²'),
      ends_cm2: toUnit(candidate.facts.endArea, 'cm²'),
      leavesAtHardestMoment: Object.fromEntries(HEAT_WAY_IDS.map((way) => [`${way}_W`, candidate.moment.leaves[way]])),
    },
    energy: {
      ...energy,
      drag_J: candidate.energy.drag,
      climb_J: candidate.energy.climb,
      speedGained_J: candidate.energy.kinetic,
      imposed_J: candidate.energy.imposed,
      jumps_J: candidate.energy.jumps,
      shaftFollowed_J: candidate.energy.shaftFollowed,
      heatStored_J: candidate.energy.heatStored,
      heatMade_J: candidate.energy.heatMade,
      heatShed_J: candidate.energy.heatShed,
      heatLeaves: Object.fromEntries(HEAT_WAY_IDS.map((way) => [`${way}_J`, candidate.energy.heatLeaves[way]])),
      residual: candidate.energy.residual,
      heatResidual: candidate.energy.heatResidual,
      chargeResidual: candidate.energy.chargeResidual,
    },
    findings: candidate.findings.map((finding) => findingJson(finding, [candidate])),
    ...(candidate.afterStop === undefined ? {} : { afterStop: heatJson(candidate.afterStop) }),
    ...(candidate.rating === undefined ? {} : { rating: ratingJson(candidate.rating) }),
    ...(candidate.partThrottle === undefined ? {} : { partThrottle: heatJson(candidate.partThrottle) }),
    statistics: candidate.statistics,
    trace,
  };
}

/** The result as one JSON document, units in the keys. */
export function resultJson(result: RunResult): string {
  const { schema, version, scenario, candidates, ranking, verdict, findings, assumptions, cautions } = result;
  const { files: _, steps, duration, ...head } = scenario;
  const document = {
    schema,
    version,
    scenario: { ...head, duration_s: duration, steps: steps.map(({ from, to, ...rest }) => ({ from_s: from, to_s: to, ...rest })) },
    candidates: candidates.map(candidateJson),
    ranking,
    verdict,
    findings: findings.map((finding) => findingJson(finding, candidates)),
    assumptions,
    ...(result.readings === undefined ? {} : { readings: result.readings }),
    ...(result.audit === undefined ? {} : { audit: auditJson(result.audit) }),
    cautions,
    ...(result.costly === undefined ? {} : { costly: costlyJson(result.costly) }),
    ...(result.doubt === undefined ? {} : { doubt: doubtJson(result.doubt) }),
    ...(result.measured === undefined ? {} : { measured: measuredJson(result.measured) }),
    ...(result.why === undefined ? {} : { why: whyJson(result.why) }),
  };
  return `${JSON.stringify(document, null, 1)}\n`;
}
