/** Drives whose heat data are given: a motor that stands under a current, by the closed form of resistances in series. @module */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { motorEquilibria } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import type { Point } from './outside/check.js';

export const scenario = (
  layout: string,
  thermal: string,
  cooling: string,
  profile = '[{ for: 1 min, throttle: 50 % }]',
): PreparedScenario => {
  const text = `title: Given heat
ambient: { air: 21 °C }
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5 Ah, cell_resistance: 2.5 mohm, mass: 480 g }
propeller: { kind: blade-element, family: thin, diameter: 11 in, pitch: 5.5 in, blades: 2 }
cooling: ${cooling}
profile: ${profile}
candidates:
  - name: Given
    motor: { layout: ${layout}, kv: 800 rpm/V, resistance: 45 mohm, no_load: [{ current: 0.9 A, voltage: 12 V }], poles: 14, mass: 140 g, can: { diameter: 38 mm, length: 36 mm }, thermal: ${thermal} }
`;
  const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

const SHUT = '{ mount: { conductance: 0 W/K }, air: { openness: 0 % } }';
/** Layout, what is given, thermal, cooling, the resistances in series [K/W]. */
const STANDING = [
  [
    'outrunner',
    'three conductances',
    '{ winding_to_stator: 0.9 W/K, stator_to_can: 0.4 W/K, can_to_air: 0.25 W/K }',
    SHUT,
    1 / 0.9 + 1 / 0.4 + 1 / 0.25,
  ],
  [
    'outrunner',
    'air through it',
    '{ winding_to_stator: 0.9 W/K, stator_to_air: { conductance: 0.3 W/K }, stator_to_can: 0.4 W/K, can_to_air: 0.25 W/K }',
    SHUT,
    1 / 0.9 + 1 / (0.3 + 1 / (1 / 0.4 + 1 / 0.25)),
  ],
  ['outrunner', 'a printed pair', '{ winding_to_housing: 3.2 K/W, housing_to_ambient: 1.6 K/W }', '{}', 3.2 + 1.6],
  ['inrunner', 'a printed pair', '{ winding_to_housing: 3.2 K/W, housing_to_ambient: 6.1 K/W }', '{}', 3.2 + 6.1],
] as const;

/** Steady rise of the winding under 4 A [K]: ΔT = P·ΣR with P = i²·R₂₀·(1 + α·(T − 20 °C)), solved for T. */
export const standingRises = (): readonly Point[] =>
  STANDING.map(([layout, words, thermal, cooling, resistance]) => {
    const system = realise(scenario(layout, thermal, cooling).candidates[0].data);
    const { motor } = system;
    const current = 4;
    const found = motorEquilibria(system, 0).at(0, { current }, true);
    if (found === undefined) throw new Error(`${words} does not settle`);
    const heat = current ** 2 * motor.resistance * resistance;
    const air = 294.15;
    const expected = (air + heat * (1 - 293.15 * motor.resistanceCoefficient)) / (1 - heat * motor.resistanceCoefficient);
    return { at: `${layout}, ${words}`, theirs: expected - air, ours: found.temperature[0] - air };
  });
