/** A profile whose steps are stiff, driven again and again: no round pays for finding that out but the first few. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, it } from 'vitest';

const TEXT = `
title: a small screw on a heavy motor, its housing joined to the stator as by a single piece
battery: { chemistry: lithium-iron-phosphate, cells: { series: 1, parallel: 2 }, capacity: 1 Ah, discharge_rating: 11 C }
controller: { path_resistance: 0.22 mohm, drive: sinusoidal, mass: 740 g }
propeller: { kind: blade-element, diameter: 30 mm, pitch: 20 mm, blades: 2, family: broad }
vehicle: { mass: 12 kg, drag_area: 0.06 m2 }
profile: [{ for: 20 s, battery_current: 6 A }]
candidates:
  - name: A
    motor:
      layout: inrunner
      kv: 5332 rpm/V
      resistance: 0.62 mohm
      no_load: { current: 4 A, voltage: 2.05 V }
      poles: 6
      mass: 200 g
      can: { diameter: 40 mm, length: 60 mm }
      thermal: { winding_to_stator: 2.9 W/K, stator_to_can: 813 W/K, can_capacity: 8 J/K }
`;

it('is driven until the pack is empty in few evaluations a round', () => {
  const preparation = prepareScenario(TEXT);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  const { scenario, candidates } = preparation.prepared;
  const system = realise(candidates[0].data);
  const options = { method: 'dormand-prince', relative: 1e-5, record: false } as const;
  const again = simulate(system, scenario.profile, { ...options, again: true });
  // the pack's charge at the current that is held
  const drawn = (1 - again.state[again.kernel.at.charge]) * 3600;
  expect(drawn / (6 * again.time)).toBeCloseTo(1, 4);
  const rounds = again.time / 20;
  expect(rounds).toBeGreaterThan(20);
  // some 450 in each of the first rounds, and 50 in each after them
  expect(again.evaluations).toBeLessThan(200 * rounds);
});
