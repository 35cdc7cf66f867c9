/** Cells on a bench, emptied by the whole program. @module */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type Simulation, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';

/** One cell in each of six places, on a motor strong enough for any current here; `more` belongs to the battery. */
export function discharge(chemistry: string, hold: string, celsius: number, more: string): Simulation {
  const text = `title: A cell on a bench
battery: { chemistry: ${chemistry}, cells: { series: 6 }, capacity: 7.5 Ah, ${more} }
start: { temperature: ${celsius} °C }
ambient: { air: ${celsius} °C }
controller: { path_resistance: 1 mohm, thermal: { to_air: 50 W/K } }
propeller: { kind: coefficients, diameter: 33 cm, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.045 }, { advance_ratio: 0.9, thrust: 0, power: 0.01 }] }
profile: [{ for: 3 h, ${hold} }]
candidates:
  - name: A
    motor: { layout: inrunner, kv: 700 rpm/V, resistance: 6 mohm, no_load: { current: 1 A, voltage: 20 V }, mass: 9 kg, can: { diameter: 120 mm, length: 160 mm } }
`;
  const preparation = prepareScenario(new Map([['cell.yaml', text]]), 'cell.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  const { candidates, scenario } = preparation.prepared;
  return simulate(realise(candidates[0].data), scenario.profile, { method: 'dormand-prince', relative: 1e-5 });
}

/** Share of the charge that was given [1]. */
export const chargeGiven = (run: Simulation): number => 1 - run.state[run.kernel.at.charge];
