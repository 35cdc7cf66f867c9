import { POWER_TERM_IDS, POWER_TERMS } from '@shaftwork/sim-core/drive/power-terms';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { steadyPoint } from '@shaftwork/sim-core/questions/point';
import { equilibriumAt } from '@shaftwork/sim-core/questions/rate/equilibrium';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';

const { candidates } = demo('survey-boat');
const [wide] = candidates;

describe('equilibrium at a held throttle', () => {
  it('sheds what the drive loses: every way out told, their sum the losses', () => {
    const system = realise(wide.data);
    const settled = equilibriumAt(system, 0.6, 0.9)!;
    const run = simulate(
      { ...system, start: { ...system.start, charge: 0.9 }, battery: { ...system.battery, capacity: 1e12 } },
      [{ duration: 40_000, hold: 'throttle', value: { from: 0.6, to: 0.6 } }],
      { method: 'dormand-prince', relative: 1e-5, record: false },
    );
    const { kernel, state } = run;
    for (const body of BODIES) expect(settled.temperatures[body], body).toBeCloseTo(state[kernel.at[body]], 1);
    kernel.solve(run.time, state);
    const powers = kernel.powers(state);
    const shed = Object.values(settled.leaves).reduce((sum, watts) => sum + watts, 0);
    // cells, controller idle, conduction, switching, copper, iron, bearings
    const lost = POWER_TERM_IDS.reduce((sum, id) => sum + (POWER_TERMS[id].heats ? powers[id] : 0), 0);
    expect(shed).toBeCloseTo(lost, 1);
    // a jacketed can may be cooler than the air under the hatch; side and ends then both take heat up
    expect(settled.leaves.canSide / settled.leaves.canEnds).toBeGreaterThan(1);
  });
  it('of two drives sheds what both lose: each its own, and half of what the pack does', () => {
    const one = realise(wide.data);
    // as much drag for each, so that all but the pack is as with one
    const two = { ...one, drives: 2, battery: { ...one.battery, cellsInParallel: 2 * one.battery.cellsInParallel } };
    const alone = equilibriumAt(one, 0.6, 0.9, 4)!;
    const pair = equilibriumAt(two, 0.6, 0.9, 4)!;
    const sum = (leaves: typeof alone.leaves): number => Object.values(leaves).reduce((total, watts) => total + watts, 0);
    expect(pair.temperatures.winding).toBeCloseTo(alone.temperatures.winding, 0);
    // two packs side by side lose twice as much, half of it for each drive: only the cells' own warmth tells them apart
    expect(Math.abs(sum(pair.leaves) / sum(alone.leaves) - 1)).toBeLessThan(0.02);
  });
  it('stands beside a steady point, at the speed that was set where one was, and not where the rotor is held', () => {
    const ask = { hold: 'throttle', value: 0.6 } as const;
    expect(steadyPoint(wide, ask).settled).toMatchObject({ temperatures: { winding: expect.any(Number) } });
    const windings = [1, 3].map((vehicleSpeed) => {
      const { settled } = steadyPoint(wide, { ...ask, vehicleSpeed });
      return typeof settled === 'object' ? settled.temperatures.winding : Number.NaN;
    });
    // the slower the boat, the more the screw takes and the less water the scoop gives
    expect(windings[0]).toBeGreaterThan(windings[1]);
    expect(steadyPoint(wide, { hold: 'shaftSpeed', value: 0 }).settled).toBeUndefined();
  });
  it('says beyond which limits it lies, and beyond none that it keeps', () => {
    const system = realise(wide.data);
    const { temperatures, beyond } = equilibriumAt(system, 0.6, 0.9)!;
    expect(beyond).toEqual({});
    // at a limit is not beyond it
    const met = { ...system.limits, windingTemperature: temperatures.winding };
    expect(equilibriumAt({ ...system, limits: met }, 0.6, 0.9)!.beyond).toEqual({});
    const limits = { ...system.limits, windingTemperature: temperatures.winding - 0.1, cellTemperature: temperatures.cells + 0.1 };
    expect(equilibriumAt({ ...system, limits }, 0.6, 0.9)!.beyond).toEqual({ winding: limits.windingTemperature });
  });
  it('finds none where copper feeds itself', () => {
    const system = realise(wide.data);
    const heat = { ...system.heat, windingToStator: 0.05, throughFlow: 0 };
    expect(equilibriumAt({ ...system, heat }, 1, 0.9)).toBeUndefined();
  });
});
