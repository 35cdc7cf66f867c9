/**
 * Laws between two scenarios as they are written: a gear of one to one, other units, wider tolerances, density and size of a propeller. Each follows from the
 * meaning of its words; the propeller's from the definition of its coefficients, T = c_T·ρ·n²·D⁴ and P = c_P·ρ·n³·D⁵ (textbook, from memory).
 */
import type { CandidateResult } from '@shaftwork/sim-core';
import { pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAIN, randomScenario, textsOf } from '../fuzz/generate/scenario.js';
import { differences, inOtherUnits } from '../fuzz/variants.js';

interface Small {
  readonly kv?: string;
  readonly resistance?: string;
  readonly propeller?: string;
  readonly more?: string;
  readonly throttle?: string;
}
const TABLE =
  '[{ advance_ratio: 0, thrust: 0.11, power: 0.05 }, { advance_ratio: 0.4, thrust: 0.07, power: 0.045 }, { advance_ratio: 0.8, thrust: 0, power: 0.02 }]';
const small = ({
  kv = '920 rpm/V',
  resistance = '96 mohm',
  propeller = `{ kind: coefficients, diameter: 9 in, table: ${TABLE} }`,
  more = '',
  throttle = '80 %',
}: Small = {}): string => `title: Small
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: ${propeller}
${more}
profile: [{ for: 3 min, throttle: ${throttle} }]
candidates:
  - name: A
    motor: { layout: outrunner, kv: ${kv}, resistance: ${resistance}, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;
function prepared(text: string): PreparedScenario {
  const preparation = prepareScenario(new Map([[MAIN, text]]), MAIN);
  if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}
const first = (text: string): CandidateResult => runScenario(prepared(text)).candidates[0];
const always = <T>(drawn: fc.Arbitrary<T>, law: (value: T) => void, numRuns = 5): void =>
  fc.assert(fc.property(drawn, law), { numRuns, seed: 18 });
const factor = fc.double({ min: 0.5, max: 2, noNaN: true });

describe('one to one', () => {
  it('a gear of 1 without loss or mass is none', () => {
    const [without, geared] = [first(small()), first(small({ more: 'gearbox: { ratio: 1, efficiency: 100 %, mass: 0.000001 g }' }))];
    expect(differences(without.headline, geared.headline, 1e-6)).toEqual([]);
  });

  it('two candidates of the same words have the same figures, whatever they are called', () =>
    always(fc.double({ min: 600, max: 1500, noNaN: true }), (kv) => {
      const text = small({ kv: `${kv} rpm/V` });
      const twice = text + text.slice(text.indexOf('  - name: A')).replace('name: A', 'name: 0 the other');
      const [a, b] = runScenario(prepared(twice)).candidates;
      expect(differences(a, b, 0)).toEqual([]);
    }));
});

describe('units', () => {
  it('change no number', () =>
    always(
      fc.integer({ min: 1, max: 100_000 }),
      (seed) => {
        const drawn = randomScenario(seed);
        const [a, b] = [drawn.scenario, inOtherUnits(drawn.scenario)].map((scenario) => prepareScenario(textsOf(drawn, scenario), MAIN));
        expect('prepared' in a).toBe('prepared' in b);
        if (!('prepared' in a && 'prepared' in b)) return;
        // data, not results: they are the same but for rounding
        const data = ({ candidates, scenario }: PreparedScenario) => [candidates.map((each) => each.data), scenario.profile];
        expect(differences(data(a.prepared), data(b.prepared), 1e-7)).toEqual([]);
      },
      60,
    ));
});

describe('tolerances', () => {
  it('a wider one of the motor’s resistance never makes a narrower band', () => {
    const text = (share: number): string => small({ resistance: `96 mohm ± ${share} %`, throttle: '40 %' });
    /** From the low to the high end of the tolerance alone, all else nominal [K]. */
    const width = (share: number): number => {
      const { candidates, scenario } = prepared(text(share));
      const { data } = candidates[0];
      const { key } = data.motor.resistance.unknown;
      const peak = (deviate: number): number =>
        simulate(
          realise(data, (each) => (each === key ? deviate : 0)),
          scenario.profile,
          { method: 'dormand-prince', relative: 1e-5, record: false },
        ).highest.windingTemperature.value;
      return Math.abs(peak(1.96) - peak(-1.96));
    };
    const widths = [1, 3, 10, 25].map(width);
    expect(widths[0]).toBeGreaterThan(0.01);
    for (const [k, each] of widths.entries()) if (k > 0) expect(each).toBeGreaterThan(1.5 * widths[k - 1]);
  });
});

describe('a propeller of given coefficients', () => {
  const SPEED = 700;
  const at = (diameter: number, pressure: number, vehicleSpeed: number, shaft = SPEED) => {
    const text = small({
      propeller: `{ kind: coefficients, diameter: ${diameter} m, table: ${TABLE} }`,
      more: `ambient: { pressure: ${pressure} Pa, air: 15 °C }`,
    });
    const [{ channels }] = pointsOfScenario(prepared(text), { hold: 'shaftSpeed', value: shaft, vehicleSpeed });
    return channels;
  };

  it('scales with density, and with the powers of size and speed at the same advance ratio', () =>
    always(
      fc.tuple(factor, fc.double({ min: 0.6, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.7, noNaN: true })),
      ([size, dense, advance]) => {
        const [D, p] = [0.1, 100_000];
        const v = (advance * SPEED * D) / (2 * Math.PI);
        const base = at(D, p, v);
        const close = (a: number, b: number): void => expect(Math.abs(a - b)).toBeLessThan(1e-6 * Math.abs(b) + 1e-9);
        const thin = at(D, dense * p, v);
        close(thin.thrust, dense * base.thrust);
        close(thin.motorTorque, dense * base.motorTorque);
        const wide = at(size * D, p, size * v);
        close(wide.thrust, size ** 4 * base.thrust);
        close(wide.motorTorque, size ** 5 * base.motorTorque);
        const slow = at(D, p, 0.8 * v, 0.8 * SPEED);
        close(slow.thrust, 0.8 ** 2 * base.thrust);
        close(slow.motorTorque, 0.8 ** 2 * base.motorTorque);
      },
    ));
});
