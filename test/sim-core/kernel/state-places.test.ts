import { BODIES, type DryPaths } from '@shaftwork/sim-core/heat/heat-paths';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { STATES, stateVector } from '@shaftwork/sim-core/kernel/state-places';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { candidates } from '../../bench/reference-system.js';

const system = realise(candidates[0].data);
const infinite = Number.POSITIVE_INFINITY;
const loaded = (heat: Partial<DryPaths>, shaftSpeed: 'quasi-steady' | 'with-inertia') =>
  createKernel({ ...system, shaftSpeed, heat: { ...system.heat, ...heat } });
const kinds = { temperature: 1, shaft: 2, charge: 3, polarisation: 4, speed: 5 };

describe('places of the states', () => {
  it.each([
    ['all apart', {}, 'quasi-steady', STATES.length - 1],
    ['all apart, shaft a state', {}, 'with-inertia', STATES.length],
    ['can and stator one', { statorToCan: infinite }, 'with-inertia', STATES.length - 1],
    [
      'the whole motor one',
      { windingToStator: infinite, statorToCan: infinite, magnetsToCan: infinite },
      'quasi-steady',
      STATES.length - 4,
    ],
    ['winding and stator, magnets and can', { windingToStator: infinite, magnetsToCan: infinite }, 'quasi-steady', STATES.length - 3],
  ] as const)('%s: every state has one, in order and without a gap', (_, heat, shaftSpeed, dimension) => {
    const { at, dimension: found } = loaded(heat, shaftSpeed);
    expect(found).toBe(dimension);
    const places = STATES.map((state) => at[state]).filter((place) => place >= 0);
    expect([...new Set(places)].sort((a, b) => a - b)).toEqual(Array.from({ length: dimension }, (_, k) => k));
    expect(at.shaft >= 0).toBe(shaftSpeed === 'with-inertia');
    const apart = STATES.filter((state) => !(BODIES as readonly string[]).includes(state) && at[state] >= 0);
    expect(apart.map((state) => at[state])).toEqual(apart.map((_, k) => dimension - apart.length + k));
    const vector = stateVector(dimension, at, kinds);
    for (const state of apart) expect(vector[at[state]], state).toBe(kinds[state as keyof typeof kinds]);
    for (const body of BODIES) expect(vector[at[body]], body).toBe(kinds.temperature);
  });

  it('joined bodies have one temperature, and its rate is that of their joined capacity', () => {
    const { at, dimension, initial } = loaded({ statorToCan: infinite, magnetsToCan: infinite }, 'quasi-steady');
    expect([at.can, at.magnets]).toEqual([at.stator, at.stator]);
    expect(at.winding).not.toBe(at.stator);
    const y = new Float64Array(dimension).fill(Number.NaN);
    initial(y);
    expect(y[at.can]).toBe(system.start.motorTemperature);
    expect(y[at.cells]).toBe(system.start.cellTemperature);
    expect(y[at.charge]).toBe(system.start.charge);
    expect(y[at.speed]).toBe(0);
    expect(y.every(Number.isFinite)).toBe(true);
  });
});
