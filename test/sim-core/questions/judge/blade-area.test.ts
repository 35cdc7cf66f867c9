import { kellerMinimumAreaRatio } from '@shaftwork/sim-core/parts/propeller/cavitation';
import { STANDARD_GRAVITY } from '@shaftwork/sim-core/quantities/constants';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const boat = (screw: string, more = '', altitude = '0 m') => {
  const text = `title: Does it cavitate?
ambient: { air: 15 °C, altitude: ${altitude}, water: 20 °C }
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5 Ah }
propeller: { kind: marine-series, diameter: 45 mm, pitch_ratio: 1.1, ${screw} }
vehicle: { mass: 6 kg, drag: [{ speed: 5 m/s, force: 30 N }] }
${more}profile: [{ for: 20 s, throttle: 100 % }]
candidates:
  - name: One
    motor: { layout: inrunner, kv: 650 rpm/V, resistance: 60 mohm, no_load: { current: 0.8 A, voltage: 12 V }, mass: 240 g, can: { diameter: 36 mm, length: 60 mm } }
`;
  const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
  return runScenario(made.prepared);
};
const found = (screw: string, more = '', altitude = '0 m') =>
  boat(screw, more, altitude).findings.find(({ kind }) => kind === 'blade-area-small');

describe('the blades of a screw', () => {
  it('are too small where Keller’s rule asks for more at the greatest thrust', () => {
    const result = boat('blades: 3, area_ratio: 0.35, immersion: 50 mm');
    const small = result.findings.find((finding) => finding.kind === 'blade-area-small');
    if (small?.kind !== 'blade-area-small') throw new Error('nothing was said');
    const thrust = Math.max(...result.candidates[0]!.trace.thrust);
    expect(small.value).toBeCloseTo(0.35, 12);
    expect(small.thrust).toBeCloseTo(thrust, 9);
    expect(small.lasting).toBeGreaterThan(5);
    expect(small.lasting).toBeLessThanOrEqual(20);
    // vapour pressure of water at 20 °C is 2339 Pa (IAPWS), its density 998.2 kg/m³
    const pressure = 101_325 + 998.2 * STANDARD_GRAVITY * 0.05;
    const bound = kellerMinimumAreaRatio({ blades: 3, diameter: 0.045, hull: 'single' }, small.thrust, { pressure, vapourPressure: 2339 });
    expect(small.bound).toBeCloseTo(bound, 4);
  });
  it('are large enough with more area, and on two shafts', () => {
    expect(found('blades: 3, area_ratio: 0.35')).toBeDefined();
    expect(found('blades: 3, area_ratio: 1.0')).toBeUndefined();
    const [one, two] = ['', 'drives: 2\n'].map((more) => found('blades: 3, area_ratio: 0.3', more));
    if (one?.kind !== 'blade-area-small' || two?.kind !== 'blade-area-small') throw new Error('nothing was said');
    expect(two.bound).toBeLessThan(one.bound);
  });
  it('want more high up, where the air presses less', () => {
    const at = (altitude: string): number => {
      const finding = found('blades: 3, area_ratio: 0.35', '', altitude);
      if (finding?.kind !== 'blade-area-small') throw new Error('nothing was said');
      return finding.bound - 0.2;
    };
    // 2500 m: 74.7 kPa (ISO 2533), less 2.3 kPa of vapour; the thrust is the same but for the drive's warmth
    expect(at('2500 m') / at('0 m')).toBeCloseTo((101.3 - 2.3 + 0.33) / (74.7 - 2.3 + 0.33), 1);
  });
});
