/** A fleet of identified motors: partial pooling against direct quadrature, and what it makes of a scenario's assumptions. */
import { readdirSync, readFileSync } from 'node:fs';
import { asFleet, type FleetRatio, fleetOf, pooled, ratiosOf, saidByFleet } from '@shaftwork/sim-core/provenance/fleet';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { assumptionsOf } from '@shaftwork/sim-core/questions/run/assumptions';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { narrowedWords } from '@shaftwork/sim-core/words';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../scenario/smallest-scenario.js';
import { INRUNNER, OUTRUNNER, preparedOf, type Section } from './drives.js';

const PRIOR = { common: 0.3, own: 0.15 };
const RATIOS: readonly FleetRatio[] = [
  { log: -0.31, error: 0.05 },
  { log: -0.12, error: 0.1 },
  { log: -0.4, error: 0.2 },
  { log: -0.2, error: 0.02 },
];

describe('partial pooling', () => {
  it('has the moments of the hierarchical normal model (Gelman et al., Bayesian Data Analysis, 3rd ed., section 5.4), by brute quadrature over mean and scatter', () => {
    let [mass, first, second, scatter] = [0, 0, 0, 0];
    for (let g = -4; g <= 4; g += 0.05) {
      const tau = PRIOR.own * Math.exp(0.5 * g);
      for (let mu = -1.5; mu <= 1.5; mu += 0.002) {
        const log = RATIOS.reduce(
          (sum, { log: x, error }) => sum - 0.5 * Math.log(tau * tau + error * error) - (0.5 * (x - mu) ** 2) / (tau * tau + error * error),
          -0.5 * g * g - 0.5 * (mu / PRIOR.common) ** 2,
        );
        const p = Math.exp(log);
        mass += p;
        first += p * mu;
        second += p * mu * mu;
        scatter += p * tau * tau;
      }
    }
    const mean = first / mass;
    const found = pooled(RATIOS, PRIOR);
    expect(found.shift).toBeCloseTo(mean, 4);
    expect(found.common).toBeCloseTo(Math.sqrt(second / mass - mean * mean), 4);
    expect(found.own).toBeCloseTo(Math.sqrt(scatter / mass), 4);
  });

  it('of no motors is what it was; one that is badly known says next to nothing; many that are well known say all', () => {
    expect(pooled([], PRIOR)).toEqual({ shift: 0, ...PRIOR });
    const vague = pooled([{ log: -0.3, error: 30 }], PRIOR);
    expect(Math.abs(vague.shift)).toBeLessThan(1e-4);
    expect(vague.common).toBeCloseTo(PRIOR.common, 4);
    const many = pooled(
      Array.from({ length: 400 }, (_, k) => ({ log: -0.3 + (k % 2 === 0 ? 0.05 : -0.05), error: 0.001 })),
      PRIOR,
    );
    expect(many.shift).toBeCloseTo(-0.3, 2);
    expect(many.own).toBeCloseTo(0.05, 2);
    expect(many.common).toBeLessThan(0.005);
  });
});

const motorOf = (motor: Section) => {
  const given = preparedOf({ motor }).candidates[0].given.motor;
  if (given === undefined) throw new Error('a motor');
  return given;
};
/** Standard deviation of a logarithm whose 95 % interval reaches a share up. */
const sigma = (share: number): number => Math.log(1 + share) / 1.959963984540054;

describe('what one motor tells', () => {
  const told = (motor: Section): Record<string, FleetRatio> => Object.fromEntries(ratiosOf(motorOf(motor)));

  it('is its Kv over that of its label, with the error of the measurement', () => {
    const { 'motor.kv': kv, ...rest } = told({ ...OUTRUNNER, kv: '868 rpm/V ± 1 %', label_kv: '920 rpm/V' });
    expect(kv.log).toBeCloseTo(Math.log(868 / 920), 12);
    expect(kv.error).toBeCloseTo(sigma(0.01), 12);
    expect(rest).toEqual({});
    expect(told(OUTRUNNER)).toEqual({});
  });

  it('its resistance between two leads at 20 °C over that of its sheet', () => {
    const of = (more: Section) =>
      told({ ...OUTRUNNER, resistance: '110 mohm ± 3 %', label_resistance: '100 mohm', ...more })['motor.resistance'];
    expect(of({}).log).toBeCloseTo(Math.log(1.1), 12);
    expect(of({}).error).toBeCloseTo(sigma(0.03), 12);
    expect(of({ resistance_between: 'lines' }).log).toBeCloseTo(Math.log(1.1), 12);
    expect(of({ resistance_between: 'phase-and-star' }).log).toBeCloseTo(Math.log(2.2), 12);
    // copper has 0.393 % more for each kelvin (IEC 60028)
    expect(of({ resistance_at: '45 °C' }).log).toBeCloseTo(Math.log(1.1 / (1 + 0.00393 * 25)), 12);
  });

  it('the way from its winding over that of the rule, its own sizes counted where they are given', () => {
    const thermal = { winding_to_stator: '0.34 W/K ± 20 %' };
    const key = 'outrunner-slot-contact';
    // 120 W/(m²·K) on the walls of 24 slots, each half a bore deep on both sides over all, and nine twentieths of the bore's circle
    const walls = (slots: number): number => 120 * (slots * 0.5 + 0.45 * Math.PI);
    const sized = told({ ...OUTRUNNER, stack_length: '12 mm', stator_diameter: '22 mm', poles: 28, thermal })[key];
    expect(sized.log).toBeCloseTo(Math.log(0.34 / (walls(24) * 22e-3 * 12e-3)), 12);
    expect(sized.error).toBeCloseTo(sigma(0.2), 12);
    const guessed = told({ ...OUTRUNNER, thermal })[key];
    expect(guessed.log).toBeCloseTo(Math.log(0.34 / (walls(12) * 0.83 * 27e-3 * 0.47 * 32e-3)), 12);
    expect(Object.keys(told({ ...INRUNNER, thermal }))).toEqual(['inrunner-slot-contact']);
  });

  it('the air that an outrunner blows through itself at a speed over that of the rule', () => {
    const flow = (more: Section, motor: Section = OUTRUNNER) =>
      told({
        ...motor,
        stack_length: '12 mm',
        stator_diameter: '22 mm',
        thermal: { stator_to_air: { conductance: '0.4 W/K ± 50 %', ...more } },
      })['through-flow'];
    // 120 W/(m²·K) on 2π·bore·stack where the rim passes the air at 10 m/s
    const rim = 0.5 * 27e-3 * 300 * Math.PI;
    expect(flow({ at_speed: '9000 rpm' }).log).toBeCloseTo(Math.log(0.4 / ((120 * 2 * Math.PI * 22e-3 * 12e-3 * rim) / 10)), 12);
    expect(flow({ at_speed: '9000 rpm' }).error).toBeCloseTo(sigma(0.5), 12);
    expect(flow({})).toBeUndefined();
    expect(flow({}, INRUNNER)).toBeUndefined();
  });
});

describe('what a fleet makes of a motor', () => {
  const one = motorOf({ ...OUTRUNNER, kv: '868 rpm/V ± 1 %', label_kv: '920 rpm/V', thermal: { winding_to_stator: '0.34 W/K ± 20 %' } });
  const other = motorOf({ ...OUTRUNNER, kv: '900 rpm/V ± 2 %', label_kv: '920 rpm/V' });

  it('is pooled with what is usually so: of labels half the variance common, of rules as they say', () => {
    const fleet = fleetOf([one, other], 'mine', 'abcd');
    expect([...fleet.keys()]).toEqual(['outrunner-slot-contact', 'motor.kv']);
    // a label is off by 9 % (95 %); the rule by 100 %, of which each motor's own part is 25 %
    const half = sigma(0.09) / Math.sqrt(2);
    const kv = pooled(
      [
        { log: Math.log(868 / 920), error: sigma(0.01) },
        { log: Math.log(900 / 920), error: sigma(0.02) },
      ],
      { common: half, own: half },
    );
    const found = fleet.get('motor.kv');
    expect(found?.by).toBe('2 identified motors of mine (abcd)');
    expect([found?.shift, found?.common, found?.own].map((x) => x?.toFixed(12))).toEqual(
      [kv.shift, kv.common, kv.own].map((x) => x.toFixed(12)),
    );
    const contact = pooled([ratiosOf(one).get('outrunner-slot-contact') ?? { log: Number.NaN, error: 0 }], {
      common: sigma(1),
      own: sigma(0.25),
    });
    expect(fleet.get('outrunner-slot-contact')).toEqual({
      shift: expect.closeTo(contact.shift, 12),
      common: expect.closeTo(contact.common, 12),
      own: expect.closeTo(contact.own, 12),
      by: '1 identified motor of mine (abcd)',
    });
    expect(fleetOf([motorOf(OUTRUNNER)], 'mine', 'abcd').size).toBe(0);
  });

  it('moves label and sheet, shared in one error and own in another; what has a ± or nothing learnt stays the same object', () => {
    const learnt = { shift: -0.04, common: 0.02, own: 0.03, by: 'two' };
    const sheet = motorOf(OUTRUNNER);
    const { kv, resistance } = sheet;
    if (kv === undefined || typeof resistance !== 'object') throw new Error('both are written');
    const moved = saidByFleet(sheet, new Map([['motor.kv', learnt]]));
    expect(moved.kv).toEqual({
      ...kv,
      value: kv.value * Math.exp(-0.04),
      unknown: { key: 'fleet:motor.kv', spread: { shape: 'log-normal', sigma: 0.02 }, offset: -0.04 },
      own: { key: kv.unknown.key, spread: { shape: 'log-normal', sigma: 0.03 } },
      learnt: { before: kv, by: ['two'] },
    });
    expect(moved.resistance).toBe(resistance);
    expect(asFleet(kv, learnt, { common: 'fleet:motor.kv', own: kv.unknown.key })).toEqual(moved.kv);
    const both = saidByFleet(sheet, new Map([['motor.resistance', learnt]]));
    expect(both.kv).toBe(kv);
    expect(both.resistance).toMatchObject({ value: resistance.value * Math.exp(-0.04), unknown: { key: 'fleet:motor.resistance' } });
    const sure = motorOf({ ...OUTRUNNER, kv: '920 rpm/V ± 1 %' });
    expect(saidByFleet(sure, new Map([['motor.kv', learnt]])).kv).toBe(sure.kv);
    const { kv: _, ...without } = sheet;
    expect('kv' in saidByFleet(without, new Map([['motor.kv', learnt]]))).toBe(false);
    const { resistance: __, ...bare } = sheet;
    expect('resistance' in saidByFleet(bare, new Map([['motor.resistance', learnt]]))).toBe(false);
  });
});

const FOLDER = new URL('../../../scenarios/known-motors/', import.meta.url);
const known = {
  folder: 'known-motors',
  files: readdirSync(FOLDER)
    .sort()
    .map((name) => ({ path: `known-motors/${name}`, text: readFileSync(new URL(name, FOLDER), 'utf8') })),
};
const prepared = (text: string, folder?: typeof known): PreparedScenario => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml', undefined, folder);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

describe('a folder of identified motors', () => {
  const both = () => [prepared(SMALLEST), prepared(SMALLEST, known)];
  const drawnMotor = ({ candidates }: PreparedScenario) => realise(candidates[0].data).motor;

  it('moves label Kv, sheet resistance and the path from the winding towards what those motors had, and says from how many', () => {
    const [plain, learnt] = both();
    // they turn 3 to 6 % slower than their labels say and have 10 to 23 % more resistance
    expect(drawnMotor(learnt).torqueConstant / drawnMotor(plain).torqueConstant).toBeGreaterThan(1.02);
    expect(drawnMotor(learnt).torqueConstant / drawnMotor(plain).torqueConstant).toBeLessThan(1.06);
    expect(drawnMotor(learnt).resistance / drawnMotor(plain).resistance).toBeGreaterThan(1.05);
    expect(drawnMotor(learnt).resistance / drawnMotor(plain).resistance).toBeLessThan(1.2);
    const told = assumptionsOf(learnt.candidates).flatMap((each) =>
      each.kind === 'choice' ? [] : [[each.origin, narrowedWords(each)] as const],
    );
    for (const origin of ['motor.kv', 'motor.resistance', 'outrunner-slot-contact'])
      expect(told.find(([key]) => key === origin)?.[1]).toMatch(/3 identified motors of known-motors \([0-9a-f]{8}\)/);
  });

  it('leaves what was written with a ± as it was written, and with no folder every number', () => {
    const [plain, learnt] = both();
    const sure = SMALLEST.replace('kv: 920 rpm/V', 'kv: 920 rpm/V ± 1 %');
    expect(drawnMotor(prepared(sure, known)).torqueConstant).toBe(drawnMotor(prepared(sure)).torqueConstant);
    expect(plain.hash).not.toBe(learnt.hash);
    expect(assumptionsOf(plain.candidates).some((each) => each.kind !== 'choice' && each.narrowed !== undefined)).toBe(false);
  });

  it('tells what is wrong with a part', () => {
    const wrong = { ...known, files: [{ path: 'known-motors/x.yaml', text: 'part: motor\nkv: 900\n' }] };
    expect(prepareScenario(new Map([['a.yaml', SMALLEST]]), 'a.yaml', undefined, wrong)).toMatchObject({
      kind: 'problems',
      problems: [{ kind: 'bare-number', place: { file: 'known-motors/x.yaml', line: 2 } }],
    });
  });
});
