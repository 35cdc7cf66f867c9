import { pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { RPM } from '@shaftwork/sim-core/quantities';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const scenario = (load: string): PreparedScenario => {
  const text = `title: point
ambient: { air: 15 °C, altitude: 0 m, water: 15 °C, water_kind: fresh }
battery: { cells: { series: 40 }, capacity: 50 Ah }
${load}
profile: [{ for: 10 s, throttle: 100 % }]
candidates:
  - name: One
    motor: { layout: outrunner, kv: 400 rpm/V ± 0 %, resistance: 30 mohm, no_load: { current: 1 A, voltage: 20 V }, mass: 300 g, can: { diameter: 50 mm, length: 50 mm } }
`;
  const made = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  return made.prepared;
};

describe('figures of a point', () => {
  it('are those of the B series: B4-55, P/D 1, J 0.6', () => {
    const screw = scenario(`propeller: { kind: marine-series, diameter: 100 mm, pitch_ratio: 1, blades: 4, area_ratio: 0.55 }
vehicle: { mass: 3 kg, drag: [{ speed: 5 m/s, force: 12 N }] }`);
    const [turns, diameter] = [30, 0.1];
    const [{ figures }] = pointsOfScenario(screw, { hold: 'shaftSpeed', value: 60 * turns * RPM, vehicleSpeed: 0.6 * turns * diameter });
    // KT 0.224096, 10KQ 0.365689, efficiency 0.585186 from the published terms: Oosterveld & van Oossanen, Int. Shipbuilding Progress 22 (251), 1975;
    // 2e-3: the table between its rows
    expect(figures.advanceRatio).toBeCloseTo(0.6, 9);
    expect(Math.abs(figures.thrustCoefficient / 0.224096 - 1)).toBeLessThan(2e-3);
    expect(Math.abs(figures.powerCoefficient / (2 * Math.PI * 0.0365689) - 1)).toBeLessThan(2e-3);
    expect(Math.abs(figures.propellerEfficiency / 0.585186 - 1)).toBeLessThan(2e-3);
    expect(figures.figureOfMerit).toBeNaN();
  });

  it('at rest in air are the coefficients written, and the figure of merit that momentum theory makes of them', () => {
    const air = scenario(
      'propeller: { kind: coefficients, diameter: 10 in, table: [{ advance_ratio: 0, thrust: 0.0994, power: 0.0379 }, { advance_ratio: 0.6, thrust: 0.03, power: 0.028 }] }',
    );
    const [{ figures, channels, powers }] = pointsOfScenario(air, { hold: 'shaftSpeed', value: 6708 * RPM });
    // static point of a thin 10×5 at 6708 rpm: UIUC Propeller Database, vol. 1
    expect(figures.thrustCoefficient).toBeCloseTo(0.0994, 6);
    expect(figures.powerCoefficient).toBeCloseTo(0.0379, 6);
    // ideal power of the same thrust, √(T³/(2ρA)), over the power that arrives
    const ideal = Math.sqrt(channels.thrust ** 3 / (2 * 1.225 * Math.PI * 0.127 ** 2));
    expect(figures.figureOfMerit).toBeCloseTo(ideal / (channels.shaftPower - powers.gearLoss), 3);
    expect(figures.propellerEfficiency).toBeNaN();
    expect(figures.motorEfficiency).toBeCloseTo(channels.shaftPower / channels.inputPower, 12);
  });

  it('have bands: of a factor ± 10 % the 5 to 95 % that a log-normal has', () => {
    const air = scenario(
      'propeller: { kind: coefficients, diameter: 10 in, thrust_factor: 1 ± 10 %, power_factor: 1 ± 20 %, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 0.6, thrust: 0.03, power: 0.028 }] }',
    );
    const [{ bands, channels, figures }] = pointsOfScenario(air, { hold: 'shaftSpeed', value: 6000 * RPM });
    const reach = 1.1 ** (1.645 / 1.96);
    // 64 draws: an edge of a band is good to about a tenth of the band
    expect(bands!.channels.thrust.p95 / channels.thrust).toBeCloseTo(reach, 1);
    expect(bands!.channels.thrust.p05 / channels.thrust).toBeCloseTo(1 / reach, 1);
    expect(Math.abs(bands!.channels.thrust.halfWidth / channels.thrust / Math.log(1.1) - 1)).toBeLessThan(0.15);
    expect(Math.abs(bands!.figures.powerCoefficient.halfWidth / figures.powerCoefficient / Math.log(1.2) - 1)).toBeLessThan(0.15);
    // what is held is exact
    expect(bands!.channels.shaftSpeed.halfWidth / channels.shaftSpeed).toBeLessThan(1e-6);
  });
});
