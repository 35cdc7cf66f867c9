/** What `cool` proposes is entered into the scenario as a person would, run, and held to its word. */

import { coolingOfScenario, jobsOf, planDoubtOf, withDoubt, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

/** The scenario with `entries` written into the candidate; several in one section are joined. */
const boat = (entries: readonly string[]): string => {
  const cooling = entries.filter((each) => each.startsWith('cooling: { ')).map((each) => each.slice('cooling: { '.length, -' }'.length));
  const rest = entries.filter((each) => !each.startsWith('cooling: '));
  return `title: Too hot
ambient: { air: 22 °C, water: 17 °C }
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5 Ah, cell_resistance: 2.5 mohm, mass: 520 g }
propeller: { kind: marine-series, diameter: 40 mm, pitch_ratio: 1.3, blades: 3, area_ratio: 0.5 }
vehicle: { mass: 2.4 kg, drag: [{ speed: 5 m/s, force: 16 N }] }
limits: { winding: 130 °C, magnets: 110 °C, controller: 130 °C, cells: 90 °C }
profile: [{ for: 3 min, throttle: 60 % }]
candidates:
  - name: A
    motor: { layout: inrunner, kv: 1500 rpm/V, resistance: 20 mohm, no_load: { current: 1.5 A, voltage: 10 V }, mass: 200 g, can: { diameter: 36 mm, length: 56 mm } }
${[...(cooling.length === 0 ? [] : [`cooling: { ${cooling.join(', ')} }`]), ...rest].map((each) => `    ${each}`).join('\n')}
`;
};
const prepare = (text: string) => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};
/** The chance that `run` prints, 64 draws and seed 1. */
const chanceOf = (text: string): number => {
  const prepared = prepare(text);
  const plan = planDoubtOf(prepared, { samples: 64, seed: 1 });
  const rows = jobsOf(plan, 64).map((job) => workDoubtOf(prepared, plan, job));
  return withDoubt(runScenario(prepared), plan, rows[0]).doubt!.candidates[0].feasible.probability;
};

describe('cool', () => {
  it('what it proposes, written into the scenario and run, reaches the chance asked for', () => {
    const plain = chanceOf(boat([]));
    const [found] = coolingOfScenario(prepare(boat([])));
    expect(plain).toBeLessThan(0.9);
    expect(found.failing.map(({ limit }) => limit)).toContain('windingTemperature');
    const proposals = [...found.remedies.flatMap(({ answer }) => (answer.kind === 'enough' ? [answer.proposal] : [])), ...found.pairs];
    expect(proposals.length).toBeGreaterThan(0);
    for (const { fittings, chanceOfAll, chance } of proposals) {
      expect(chance).toBeGreaterThanOrEqual(0.9);
      const run = chanceOf(boat(fittings.map(({ entry }) => entry)));
      expect(run, fittings.map(({ words }) => words).join(' and ')).toBeCloseTo(chanceOfAll, 9);
    }
  });
});
