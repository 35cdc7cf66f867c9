/** Every number that leaves as JSON says its unit in its key, or stands in the list of those that are counts, chances, shares and ratios. */
import { partThrottleJson, ratingJson, readingJson, resultJson, shapeJson, windingJson } from '@shaftwork/sim-core/json';
import {
  doubtOfScenario,
  ratingsOfScenario,
  readingsOfScenario,
  shapesOfScenario,
  windingsOfScenario,
} from '@shaftwork/sim-core/other-questions';
import { fromUnit } from '@shaftwork/sim-core/quantities';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const UNIT = /_(degC|K|A|W|Wh|J|s|V|N|Nm|rpm|percent|m_per_s|g|mm|cm2|mohm|mNm_per_sqrtW|kPa|rpm_per_V|W_per_N2m2)$/;

/** Keys of numbers without a unit, each by its path without the places in lists; a chance, with its count and interval, has none. */
function plainNumbers(value: unknown, path = '', found = new Set<string>()): ReadonlySet<string> {
  if (Array.isArray(value)) for (const each of value) plainNumbers(each, path, found);
  else if (typeof value === 'number') {
    if (!UNIT.test(path)) found.add(path);
  } else if (typeof value === 'object' && value !== null && !('probability' in value))
    for (const [key, each] of Object.entries(value)) plainNumbers(each, path === '' ? key : `${path}.${key}`, found);
  return found;
}

/** Counts, shares and residuals of a run, by their paths; and what stands in the SI unit of a dimension or unit named beside it. */
const PLAIN: readonly string[] = [
  'assumptions.high',
  'assumptions.low',
  'assumptions.value',
  'audit.candidates.figures.value',
  'audit.oddities.bound',
  'audit.oddities.value',
  'candidates.energy.chargeResidual',
  'candidates.energy.heatResidual',
  'candidates.energy.residual',
  'candidates.limits.marginShare',
  'candidates.statistics.evaluations',
  'candidates.statistics.steps',
  'candidates.statistics.tolerance',
  'doubt.candidates.curves.running',
  'doubt.candidates.limits.spreadBy.share',
  'doubt.candidates.sensitivities.rest',
  'doubt.candidates.sensitivities.shares.error',
  'doubt.candidates.sensitivities.shares.share',
  'doubt.leaders.sensitivity.rest',
  'doubt.leaders.sensitivity.shares.error',
  'doubt.leaders.sensitivity.shares.share',
  'doubt.modelError.common',
  'doubt.modelError.halfWidth',
  'doubt.quasiRandom',
  'doubt.samples',
  'doubt.seed',
  'doubt.unknowns',
];
/** The same of shapes. */
const RATIOS = ['best', 'bestUnbounded', 'family', 'real'].flatMap((member) => [`${member}.binding.marginShare`, `${member}.ratio`]);
/** And of windings, whose objective stands in the unit that the document names. */
const WINDINGS = ['best', 'points', 'reference'].flatMap((wind) => [
  `candidates.${wind}.binding.marginShare`,
  `candidates.${wind}.objective`,
  `candidates.${wind}.stepsNotHeld`,
]);

/** The first two steps of the glider's run: every kind of number is in them. */
const whole = demo('burst-glider');
const prepared = { ...whole, scenario: { ...whole.scenario, profile: whole.scenario.profile.slice(0, 2) } };

describe('numbers in JSON say their unit', () => {
  it('of a run and its doubt', () => {
    const document: unknown = JSON.parse(resultJson(doubtOfScenario(whole, { samples: 16 })));
    expect([...plainNumbers(document)].sort()).toEqual(PLAIN);
  });

  it('of ratings and part throttle', () => {
    const [{ rating, partThrottle }] = ratingsOfScenario(prepared);
    expect([...plainNumbers([ratingJson(rating), partThrottleJson(partThrottle)])]).toEqual([]);
  });

  it('of readings', () => {
    const [first] = prepared.candidates;
    const found = readingsOfScenario(
      { ...prepared, candidates: [first] },
      { place: 'on-can', reading: fromUnit(50, '°C'), after: 60, samples: 16, seed: 1 },
    );
    expect([...plainNumbers(found.map(readingJson))].sort()).toEqual(['samples', 'surprise']);
  });

  it('of shapes and windings', () => {
    const [{ name }] = prepared.candidates;
    expect([...plainNumbers(shapeJson(shapesOfScenario(prepared, { reference: name })))].sort()).toEqual(RATIOS);
    expect([...plainNumbers(windingJson(windingsOfScenario(prepared, { names: [name] })))].sort()).toEqual(WINDINGS);
  });
});
