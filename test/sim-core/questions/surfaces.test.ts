/** The surfaces by which a motor is chosen: their areas, and what leaves by each. */
import { MOTOR_WAYS, shareByWay } from '@shaftwork/sim-core';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const settled = (cooling: string) => {
  const text = `title: Bench
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2000 Ah }
propeller: { kind: coefficients, diameter: 9 in, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 1, thrust: 0.01, power: 0.01 }] }
profile: [{ for: 3 h, throttle: 40 % }]
candidates:
  - name: One
    motor: { layout: inrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 30 mm, length: 50 mm } }
${cooling}`;
  const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  return runScenario(made.prepared).candidates[0];
};

describe('surfaces', () => {
  it('are those of a cylinder, and once all is warm what leaves by all ways is what the motor loses', () => {
    const run = settled('');
    // by hand: π·3·5 = 47.1 cm², 2·π/4·3² = 14.1 cm²
    expect(run.facts.sideArea * 1e4).toBeCloseTo(47.1, 1);
    expect(run.facts.endArea * 1e4).toBeCloseTo(14.1, 1);
    const { leaves, channels } = run.moment;
    const lost = channels.copperLoss + channels.noLoadLoss;
    const out = MOTOR_WAYS.reduce((sum, way) => sum + leaves[way], 0);
    expect(run.moment.time).toBeGreaterThan(60);
    expect(leaves.canSide).toBeGreaterThan(leaves.canEnds);
    expect(out).toBeLessThanOrEqual(1.01 * lost);
    expect(MOTOR_WAYS.reduce((sum, way) => sum + shareByWay(run, way), 0)).toBeCloseTo(1, 12);
  });

  it('a sink takes over from the side it covers', () => {
    const [bare, sunk] = [
      settled(''),
      settled(
        '    cooling: { heat_sink: { fins: 12, fin_height: 10 mm, fin_thickness: 1 mm, length: 50 mm, breadth: 94 mm, covers: can } }',
      ),
    ];
    expect(shareByWay(bare, 'sink')).toBe(0);
    expect(shareByWay(sunk, 'sink')).toBeGreaterThan(0.3);
    expect(shareByWay(sunk, 'canSide')).toBeLessThan(shareByWay(bare, 'canSide'));
  });
});
