import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/studies/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const { candidates, scenario } = demo('survey-boat');
const system = realise(candidates[0].data);
const MANY = { method: 'dormand-prince', relative: 2e-4, record: false } as const;

/** The same drive with a winding whose time constant to the stator is `seconds`. */
const quickWinding = (seconds: number): DriveSystem => ({
  ...system,
  heat: { ...system.heat, capacity: { ...system.heat.capacity, winding: seconds * system.heat.windingToStator } },
});

describe('one of many', () => {
  it.each([30, 1, 0.1])('is within 1e-3 K and 1e-6 of charge of a tight run, with a winding as quick as %d s', (seconds) => {
    const quick = quickWinding(seconds);
    const profile = scenario.profile.slice(0, 6);
    const tight = simulate(quick, profile, { method: 'odex', relative: 1e-9, record: false });
    const many = simulate(quick, profile, MANY);
    expect(many.end).toBe('finished');
    expect(Math.abs(many.highest.windingTemperature.value - tight.highest.windingTemperature.value)).toBeLessThan(
      seconds < 1 ? 0.02 : 2e-3,
    );
    for (let k = 0; k < 6; k++) {
      const body = many.kernel.bodyIndex[k];
      // a winding that follows at once has the error of the last step: 2e-4 of a rise of some 40 K at most
      expect(Math.abs(many.state[body] - tight.state[body]), String(k)).toBeLessThan(seconds < 1 ? 8e-3 : 1e-3);
    }
    const charge = many.kernel.dimension - 3;
    expect(Math.abs(many.state[charge] - tight.state[charge])).toBeLessThan(1e-6);
  });

  it('keeps the states it is asked for', () => {
    const keepAt = Float64Array.of(0, 10, 60, 119.5);
    const { kept, kernel } = simulate(system, scenario.profile.slice(0, 1), { ...MANY, keepAt });
    expect(kept).toHaveLength(4);
    expect(kept[0][kernel.bodyIndex[0]]).toBe(system.start.motorTemperature);
    const charges = kept.map((state) => state[kernel.dimension - 3]);
    expect(charges).toEqual([...charges].sort((a, b) => b - a));
    expect(charges[0]).toBeGreaterThan(charges[3]);
  });
});
