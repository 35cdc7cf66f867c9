/** The JSON edge: SI figures become shown units, every numeric key ends in its unit from the channel list. @module */

import { type Dimension, toUnit } from '../quantities/index.js';
import { CHANNEL_IDS, CHANNELS } from '../results/channels.js';
import type { Finding, FindingKind } from '../results/finding.js';
import { LIMITS } from '../results/limits.js';
import type { CandidateResult, EnergyAccount, RunResult } from '../results/run-result.js';
import { auditJson, costlyJson } from './audit-json.js';
import { doubtJson, whyJson } from './doubt-json.js';
import { afterStopJson, partThrottleJson, ratingJson } from './heat-json.js';
import { each, inUnits, type Units } from './in-units.js';
import { isJsonDimension, withUnit } from './json-units.js';
import { measuredJson } from './measured-json.js';

/** Of what a finding's numbers measure; what belongs to one step is in the SI unit of its hold, what belongs to the space in that of its size. */
const FINDING_UNITS: { readonly [K in FindingKind]: Units<Extract<Finding, { kind: K }>> } = {
  'limit-passed': { time: 'time', value: 'plain', bound: 'plain' },
  'step-not-held': { time: 'time', step: 'plain', until: 'time', wanted: 'plain', reached: 'plain' },
  'no-operating-point': { time: 'time', step: 'plain' },
  'several-operating-points': { time: 'time', count: 'plain' },
  'motor-stalled': { time: 'time', step: 'plain' },
  'current-limited': { time: 'time', step: 'plain', bound: 'current', throttle: 'plain' },
  'burnt-out': { time: 'time', value: 'temperature' },
  'cut-off-reached': { time: 'time', bound: 'voltage' },
  'battery-empty': { time: 'time' },
  'outside-propeller-table': { time: 'time', value: 'plain', bound: 'plain' },
  'outside-drag-table': { time: 'time', value: 'speed', bound: 'speed' },
  'does-not-fit': { time: 'time', value: 'plain', bound: 'plain' },
  'braked-beyond-drive': { time: 'time', step: 'plain' },
  'wheels-spin': { time: 'time', step: 'plain', bound: 'force' },
  'below-stall-speed': { time: 'time', step: 'plain', value: 'speed', bound: 'speed' },
  'steeper-than-vertical': { time: 'time', step: 'plain', value: 'force', bound: 'force' },
  'magnets-weakened': { time: 'time', value: 'current', bound: 'current', temperature: 'temperature' },
  'thermal-runaway': { time: 'time', value: 'current', bound: 'current' },
  'pack-overcharged': { time: 'time', value: 'fraction', bound: 'fraction' },
  'motor-overrun': { time: 'time', step: 'plain', value: 'voltage', bound: 'voltage' },
  'blade-area-small': { time: 'time', value: 'plain', bound: 'plain', thrust: 'force', lasting: 'time' },
  'reading-contradicts': {
    time: 'time',
    line: 'plain',
    value: 'plain',
    bound: 'plain',
    deviations: 'plain',
    asked: 'plain',
    written: 'plain',
  },
};

/** What the value and the bound of a finding measure, where its limit or its reading says so. */
function dimensionOf(finding: Finding): Dimension | undefined {
  if (finding.kind === 'limit-passed') return LIMITS[finding.limit].dimension;
  return finding.kind === 'reading-contradicts' ? finding.dimension : undefined;
}

/** A finding with its numbers in shown units and keys that say which. */
function findingJson(finding: Finding): object {
  const dimension = dimensionOf(finding);
  const own = dimension !== undefined && isJsonDimension(dimension) ? { value: dimension, bound: dimension } : {};
  // each kind's own units, by the list above
  return inUnits<object>(finding, { ...FINDING_UNITS[finding.kind], ...own });
}

const SPACE: Units<NonNullable<CandidateResult['space']>> = { diameter: each('length'), length: each('length'), mass: each('mass') };

/** The account in the order it is told; shares that do not close are plain. */
function energyJson({
  terms,
  drag,
  climb,
  kinetic,
  imposed,
  jumps,
  shaftFollowed,
  heatStored,
  heatMade,
  heatShed,
  heatLeaves,
  ...shares
}: EnergyAccount): object {
  const heat = { heatStored, heatMade, heatShed };
  return {
    ...inUnits(terms, each('joules')),
    ...inUnits({ drag, climb, speedGained: kinetic, imposed, jumps, shaftFollowed, ...heat }, each('joules')),
    heatLeaves: inUnits(heatLeaves, each('joules')),
    ...shares,
  };
}

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
    ...inUnits({ worstTime: limit.worstTime }, each('time')),
    marginShare: limit.marginShare,
    ...(limit.passed === undefined ? {} : inUnits({ passedAt: limit.passed.at }, each('time'))),
    ...(limit.passed?.lasting === undefined ? {} : inUnits({ passedFor: limit.passed.lasting }, each('time'))),
  }));
  const trace = Object.fromEntries([
    ['time_s', candidate.trace.time],
    ...CHANNEL_IDS.map((id) => [`${id}_${CHANNELS[id].suffix}`, candidate.trace[id].map((value) => toUnit(value, CHANNELS[id].shown))]),
  ]);
  return {
    name: candidate.name,
    feasible: candidate.feasible,
    end: candidate.end,
    ...(candidate.outlasts === undefined ? {} : inUnits({ outlasts: candidate.outlasts }, each('time'))),
    ...(candidate.endsRepeated === undefined ? {} : { endsRepeated: candidate.endsRepeated }),
    ...(candidate.space === undefined ? {} : { space: inUnits(candidate.space, SPACE) }),
    headline,
    limits,
    surfaces: {
      ...inUnits({ side: candidate.facts.sideArea, ends: candidate.facts.endArea }, each('area')),
      leavesAtHardestMoment: inUnits(candidate.moment.leaves, each('power')),
    },
    energy: energyJson(candidate.energy),
    findings: candidate.findings.map(findingJson),
    ...(candidate.afterStop === undefined ? {} : { afterStop: afterStopJson(candidate.afterStop) }),
    ...(candidate.rating === undefined ? {} : { rating: ratingJson(candidate.rating) }),
    ...(candidate.partThrottle === undefined ? {} : { partThrottle: partThrottleJson(candidate.partThrottle) }),
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
    scenario: { ...head, ...inUnits({ duration, steps }, { duration: 'time', steps: { from: 'time', to: 'time' } }) },
    candidates: candidates.map(candidateJson),
    ranking,
    verdict,
    findings: findings.map(findingJson),
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
