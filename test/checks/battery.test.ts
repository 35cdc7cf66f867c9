/** Cells under load, warm and cold; published values stand in outside/electrics.ts. */
import { activationFactor, resistanceFactor } from '@shaftwork/sim-core/parts/battery/battery';
import { describe, expect, it } from 'vitest';
import { chargeGiven, discharge } from './discharge.js';

it('resistance is as given at half charge and 25 °C', () => {
  const kinetics = { activation: 5500, activatedShare: 0.25, emptyRise: 2.1, emptyRiseWidth: 0.041 };
  expect(resistanceFactor(kinetics, activationFactor(kinetics, 273.15 + 25), 0.5)).toBe(1);
});

describe('in the cold', () => {
  it('an energy cell rated 2C gives nearly all of its charge at 1C and 25 °C', () => {
    const more = 'discharge_rating: 2 C, cell_cutoff: 2.5 V, mass: 1.2 kg, thermal: { to_air: 1.1 W/K }';
    expect(chargeGiven(discharge('lithium-ion', 'battery_current: 7.5 A', 25, more))).toBeGreaterThan(0.93);
  });

  it.each(['lithium-ion', 'lithium-polymer'])('%s: a power held never lasts longer, nor leaves less charge behind', (chemistry) => {
    const runs = [40, 25, 0, -10].map((celsius) => discharge(chemistry, 'battery_power: 400 W', celsius, 'discharge_rating: 10 C'));
    for (const [k, run] of runs.entries()) {
      expect(run.end).toBe('cut-off');
      if (k === 0) continue;
      expect(run.time).toBeLessThan(runs[k - 1].time);
      expect(chargeGiven(run)).toBeLessThan(chargeGiven(runs[k - 1]));
    }
  });

  it('a pack whose cells are below their cut-off when the load comes stops there', () => {
    const run = discharge('lithium-polymer', 'throttle: 100 %', -20, 'discharge_rating: 5 C');
    expect(run).toMatchObject({ end: 'cut-off', time: 0 });
  });
});
