/** A bench reading is given back: its torque by balance of power, its resistance, and a word where the sheet contradicts it. */

import { pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { askedBy } from '@shaftwork/sim-core/provenance/bench-reading';
import { realise, realiser } from '@shaftwork/sim-core/provenance/realise';
import { inputsOf } from '@shaftwork/sim-core/provenance/rules/rules';
import { RPM, STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { audit } from '@shaftwork/sim-core/questions/audit/audit';
import { assumedNumbers } from '@shaftwork/sim-core/questions/run/assumptions';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

/** A pack that is a stiff 11.2 V, all at the temperature where resistances are stated. */
const scenario = (motor: string, propeller: string): string => `title: bench
ambient: { air: 20 °C, altitude: 0 m }
battery: { cells: { series: 1 }, capacity: 5 Ah, open_circuit: [{ charge: 0 %, voltage: 11.2 V }, { charge: 100 %, voltage: 11.2 V }], cell_resistance: 0.001 mohm }
wiring: { resistance: 0.001 mohm }
propeller: ${propeller}
profile: [{ for: 1 s, throttle: 100 % }]
candidates:
  - name: One
    motor: { layout: outrunner, kv: 1050 rpm/V, ${motor}, no_load: { current: 1 A, voltage: 10 V }, poles: 14, mass: 110 g, can: { diameter: 35 mm, length: 36 mm } }
`;
const prepared = (text: string): PreparedScenario => {
  const made = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made, null, 1));
  return made.prepared;
};
const at = (throttle: number) => ({ hold: 'throttle', value: throttle }) as const;
const READ =
  '{ kind: measured-points, diameter: 10 in, points: [{ shaft_speed: 9300 rpm, thrust: 13 N, battery_current: 31 A, voltage: 11.2 V }] }';

describe('resistance: from-reading', () => {
  const fromReading = prepared(scenario('resistance: from-reading', READ));
  const { data } = fromReading.candidates[0];

  it('gives the reading back: speed and current at full throttle', () => {
    const [{ channels }] = pointsOfScenario(fromReading, at(1));
    expect(Math.abs(channels.shaftSpeed / RPM / 9300 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(channels.batteryCurrent / 31 - 1)).toBeLessThan(3e-3);
  });

  it('gives it back whatever Kv is drawn', () => {
    const kv = inputsOf(data.motor.torqueConstant, 'kt-from-kv')?.kv.unknown.key;
    const resistances = [-1, 0, 1].map((z) => realiser(data)((key) => (key === kv ? z : 0)).motor);
    for (const motor of resistances) expect(motor.torqueConstant * 9300 * RPM + 31 * motor.resistance).toBeLessThan(11.2);
    expect(resistances[2].resistance).toBeGreaterThan(1.2 * resistances[0].resistance);
  });

  it('is a resistance for every inductance and Kv that may be drawn: more of either never asks for none', () => {
    const kt = inputsOf(data.motor.torqueConstant, 'kt-from-kv')?.kv.unknown.key;
    const time = inputsOf(data.motor.inductance, 'inductance-from-resistance')?.time.unknown.key;
    expect([kt, time]).not.toContain(undefined);
    const realised = realiser(data);
    for (const z of [-3, 0, 3]) {
      const resistances = [-3, -1, 1, 3, 5].map((t) => realised((key) => (key === kt ? z : key === time ? t : 0)).motor.resistance);
      for (const resistance of resistances) expect(resistance).toBeGreaterThan(0);
      // an inductance takes of the voltage what a resistance then need not
      expect(resistances).toEqual([...resistances].sort((a, b) => b - a));
    }
  });

  it('is told among the assumptions, with an interval that holds what a Kv at its ends asks for', () => {
    const told = assumedNumbers(fromReading.candidates).find(
      ({ words }) => words === 'winding resistance that the bench reading asks for',
    )!;
    expect(told.value).toBe(realise(data).motor.resistance);
    const kt = inputsOf(data.motor.torqueConstant, 'kt-from-kv')?.kv.unknown.key;
    const [most, least] = [STANDARD_DEVIATIONS_95, -STANDARD_DEVIATIONS_95].map(
      (z) => realiser(data)((key) => (key === kt ? z : 0)).motor.resistance,
    );
    expect(told.low).toBeLessThan(least);
    expect(told.high).toBeGreaterThan(most);
    // and not much more: Kv is by far its greatest doubt beside the inductance
    expect(told.high / told.low).toBeLessThan((most / least) ** 2);
  });

  it('is what two instruments say: 76 mΩ from supply to back-EMF without inductance, less with it', () => {
    const { motor, controller } = realise(data);
    const bare = { ...controller, pathResistance: 0, idleCurrent: 0, switchingTime: 0, deadTime: 0 };
    const reading = { voltage: 11.2, current: 31, speed: 9300 * RPM, duty: 1 };
    // by hand: (11.2 V − 9300/1050 V)/31 A
    const byHand = (11.2 - 9300 / 1050) / 31;
    expect(askedBy(reading, { ...motor, inductance: 1e-15 }, bare).resistance).toBeCloseTo(byHand, 6);
    expect(byHand * 1e3).toBeCloseTo(75.6, 1);
    expect(motor.resistance).toBeLessThan(0.7 * byHand);
  });

  it('asks for a reading where there is none', () => {
    const made = prepareScenario(
      new Map([['s.yaml', scenario('resistance: from-reading', '{ kind: blade-element, diameter: 10 in, pitch: 5 in }')]]),
      's.yaml',
    );
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems[0]).toMatchObject({ kind: 'missing-datum', place: { path: 'candidates[0].motor.resistance' } });
  });

  it('says when Kv leaves no voltage for a winding', () => {
    const made = prepareScenario(
      new Map([['s.yaml', scenario('resistance: from-reading', READ).replace('9300 rpm', '11600 rpm')]]),
      's.yaml',
    );
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems[0]).toMatchObject({ kind: 'conflict', place: { path: 'candidates[0].motor.resistance' } });
  });
});

describe('a point read at any throttle', () => {
  const SHEET = 'resistance: 30 mohm ± 0 %, inductance: 12 uH ± 0 %';
  const known = prepared(
    scenario(
      SHEET,
      '{ kind: coefficients, diameter: 10 in, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.045 }, { advance_ratio: 0.7, thrust: 0, power: 0.02 }] }',
    ),
  );

  it.each([1, 0.6, 0.35])('has the torque of the propeller it was read with: throttle %s', (throttle) => {
    const [{ channels, figures }] = pointsOfScenario(known, at(throttle));
    const read = `{ shaft_speed: ${channels.shaftSpeed / RPM} rpm, thrust: ${channels.thrust} N, battery_current: ${channels.batteryCurrent} A, voltage: ${channels.busVoltage} V, throttle: ${throttle} }`;
    const again = prepared(scenario(SHEET, `{ kind: measured-points, diameter: 10 in, points: [${read}] }`));
    const [back] = pointsOfScenario(again, at(throttle));
    // the path is taken at 25 °C, the drive starts at 20 °C
    expect(Math.abs(back.figures.powerCoefficient / figures.powerCoefficient - 1)).toBeLessThan(2e-3);
    expect(Math.abs(back.channels.batteryCurrent / channels.batteryCurrent - 1)).toBeLessThan(3e-3);
  });
});

describe('a sheet that contradicts its reading', () => {
  const odd = (motor: string) => {
    const { candidates, scenario: given } = prepared(scenario(motor, READ));
    const runs = candidates.map((each) => runCandidate(each, given.profile, { method: 'dormand-prince', relative: 1e-3 }));
    return audit(candidates, runs).oddities.filter(({ kind }) => kind === 'reading-and-sheet-apart');
  };

  it('is named, with the resistance and the Kv that would agree', () => {
    for (const resistance of ['20 mohm', '60 mohm']) {
      const [found] = odd(`resistance: ${resistance}`);
      expect(found.says).toMatch(/9300.rpm/);
      const asked = Number(/a winding of ([\d.]+)\D+would agree/.exec(found.says)![1]);
      // and what it asks for is what from-reading takes
      expect(asked).toBeCloseTo(realise(prepared(scenario('resistance: from-reading', READ)).candidates[0].data).motor.resistance * 1e3, 0);
      expect(found.says).toMatch(/or a Kv of \d+.rpm\/V/);
    }
  });

  it('is a contradiction only where its own intervals leave no room', () => {
    const weights = (kv: string, resistance: string) => {
      const { candidates, scenario: given } = prepared(scenario(resistance, READ).replace('1050 rpm/V', kv));
      const runs = candidates.map((each) => runCandidate(each, given.profile, { method: 'dormand-prince', relative: 1e-3 }));
      return audit(candidates, runs)
        .oddities.filter(({ kind }) => kind === 'reading-and-sheet-apart')
        .map(({ weight }) => weight);
    };
    // 20 mΩ give more than was read, and a printed Kv of ± 9 % may be all of it
    expect(weights('1050 rpm/V', 'resistance: 20 mohm')).toEqual(['unusual']);
    expect(weights('1050 rpm/V ± 2 %', 'resistance: 20 mohm ± 5 %, inductance: 6 uH ± 10 %')).toEqual(['contradiction']);
  });

  it('is left alone within 5 %', () => {
    const { resistance } = realise(prepared(scenario('resistance: from-reading', READ)).candidates[0].data).motor;
    expect(odd(`resistance: ${resistance * 1e3} mohm`)).toEqual([]);
  });
});

describe('what a reading asks for', () => {
  it('is what a sheet that makes it true has: resistance, torque constant, and both with the path', () => {
    // by hand, inductance and switching left out: 10.608 V = (100 + 4) mΩ · 12 A + 10.4 mN·m/A · 900 rad/s
    const reading = { voltage: 10.608, current: 12, speed: 900, duty: 1 };
    const motor = { torqueConstant: 0.0104, resistance: 0.1, polePairs: 7, inductance: 0 };
    const none = { idleCurrent: 0, switchingTime: 0, pwmFrequency: 16e3, deadTime: 0, deadTimeDrop: 0.8, rippleConstant: 0 };
    for (const drive of ['block', 'sinusoidal'] as const) {
      const asked = askedBy(reading, motor, { drive, pathResistance: 4e-3, ...none });
      expect(asked.resistance, drive).toBeCloseTo(0.1, 12);
      expect(asked.torqueConstant, drive).toBeCloseTo(0.0104, 12);
      expect(asked.whole, drive).toBeCloseTo(0.104, 12);
    }
  });
});
