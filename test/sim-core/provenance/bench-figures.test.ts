/** What people hold in their hands: a bench supply, a resistance stated at 25 °C, a printed no-load speed, a held rotor. */
import { torqueConstantAt } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { steadyPoint } from '@shaftwork/sim-core/questions/point';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const SUPPLY = 'supply: 12 V, current_limit: 8 A';
const MOTOR = 'kv: 920 rpm/V, resistance: 96 mohm, no_load: [{ current: 0.9 A, voltage: 10 V }]';
const prepare = (battery: string, motor: string) =>
  prepareScenario(
    new Map([
      [
        'a.yaml',
        `title: bench
battery: { ${battery} }
wiring: { resistance: 10 mohm }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 20 s, throttle: 100 % }]
candidates:
  - { name: A, motor: { layout: outrunner, mass: 66 g, can: { diameter: 27 mm, length: 32 mm }, ${motor} } }
`,
      ],
    ]),
    'a.yaml',
  );
function prepared(battery: string, motor: string) {
  const preparation = prepare(battery, motor);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}

describe('bench supply', () => {
  it('holds its voltage, does not empty, and its current limit is told where it is passed', () => {
    const result = runScenario(prepared(SUPPLY, MOTOR));
    const [{ trace, end, headline, limits }] = result.candidates;
    expect(end).toBe('finished');
    const last = trace.time.length - 1;
    expect(trace.busVoltage[last] + 0.01 * trace.batteryCurrent[last]).toBeCloseTo(12, 6);
    expect(headline.chargeLeft.nominal).toBe(1);
    expect(limits.find(({ id }) => id === 'batteryCurrent')?.bound).toBe(8);
    expect(trace.batteryCurrent[0]).toBeGreaterThan(8);
    expect(result.findings.map(({ kind }) => kind)).toContain('limit-passed');
  });

  it('is no pack: cells beside it and a current limit without it are refused', () => {
    for (const battery of [`${SUPPLY}, cells: { series: 3 }`, 'cells: { series: 3 }, capacity: 2 Ah, current_limit: 8 A']) {
      const preparation = prepare(battery, MOTOR);
      if (preparation.kind !== 'problems') throw new Error('it was accepted');
      expect(preparation.problems.map(({ kind }) => kind)).toEqual(['conflict']);
    }
  });
});

it('a resistance stated at 25 °C is less at 20 °C, by copper’s 0.393 % a kelvin (IEC 60028)', () => {
  const { motor } = realise(prepared(SUPPLY, `${MOTOR}, resistance_at: 25 °C`).candidates[0].data);
  expect(motor.resistance).toBeCloseTo(0.096 / (1 + 0.00393 * 5), 9);
});

it('a printed no-load speed gives the printed torque constant (maxon RE 35 48 V: 8490 rpm, 78.6 mA, 2.45 Ω, 53.8 mN·m/A; 1 %)', () => {
  const sheet = 'resistance: 2.45 ohm, no_load: [{ current: 78.6 mA, voltage: 48 V, speed: 8490 rpm }]';
  const { motor } = realise(prepared(SUPPLY, sheet).candidates[0].data);
  expect(Math.abs(motor.torqueConstant / 53.8e-3 - 1)).toBeLessThan(0.01);
});

it('a held rotor gives its stall torque, k_t times the current that resistances leave', () => {
  const [input] = prepared(SUPPLY, MOTOR).candidates;
  const { motor, controller } = realise(input.data);
  const { channels } = steadyPoint(input, { hold: 'shaftSpeed', value: 0 });
  const constant = torqueConstantAt(motor, ZERO_CELSIUS + 15);
  expect(channels.motorTorque).toBeCloseTo(constant * channels.motorCurrent, 9);
  expect(channels.motorTorque / (constant * (12 / (motor.resistance + controller.pathResistance + 0.01)))).toBeCloseTo(1, 1);
});
