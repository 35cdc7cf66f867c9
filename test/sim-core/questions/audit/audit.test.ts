import { readFileSync } from 'node:fs';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { ROOM_TEMPERATURE } from '@shaftwork/sim-core/quantities';
import { audit } from '@shaftwork/sim-core/questions/audit/audit';
import { ratedHeating } from '@shaftwork/sim-core/questions/rate/rated-current';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import type { AuditResult, OddityKind } from '@shaftwork/sim-core/results/audit-result';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const scenarios = new URL('../../../../scenarios/', import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, scenarios), 'utf8');

function prepared(main: string): PreparedScenario {
  const files = new Map([['main.yaml', main]]);
  for (;;) {
    const made = prepareScenario(files, 'main.yaml');
    if ('prepared' in made) return made.prepared;
    if (!(made.kind === 'needs')) throw new Error(JSON.stringify(made));
    for (const need of made.needs) files.set(need, text(need));
  }
}
function audited(main: string): AuditResult {
  const { candidates, scenario } = prepared(main);
  return audit(
    candidates,
    candidates.map((candidate) => runCandidate(candidate, scenario.profile, { method: 'dormand-prince', relative: 1e-3 })),
  );
}
const kinds = (result: AuditResult, candidate?: string): OddityKind[] =>
  result.oddities.filter(({ candidates }) => candidate === undefined || candidates.includes(candidate)).map(({ kind }) => kind);

const boat = text('survey-boat.yaml').replace('repeat: 8', 'repeat: 1').replace('for: 4 min', 'for: 30 s');
const glider = text('burst-glider.yaml').replace('repeat: 6', 'repeat: 1');

describe('audit', () => {
  it('names the can where its size and the mass cannot be of one motor', () => {
    const slip = audited(boat.replace('diameter: 39 mm, length: 47 mm', 'diameter: 39 in, length: 47 mm'));
    expect(kinds(slip, 'Wide')).toContain('can-and-mass-apart');
    expect(kinds(slip, 'Long')).not.toContain('can-and-mass-apart');
  });

  it('makes the usual figures of a sheet', () => {
    const { candidates } = audited(boat);
    const wide = new Map(candidates[0].figures.map((figure) => [figure.id, figure.value]));
    // by hand from 610 rpm/V, 65 mohm, 0.70 A, 40 A, 17 V, 620 W, 236 g
    expect(wide.get('torqueConstant')).toBeCloseTo(60 / (2 * Math.PI * 610), 12);
    expect(wide.get('motorConstant')).toBeCloseTo(60 / (2 * Math.PI * 610) / Math.sqrt(0.065), 12);
    expect(wide.get('stallCurrent')).toBeCloseTo(17 / 0.065, 9);
    expect(wide.get('peakEfficiency')).toBeCloseTo((1 - Math.sqrt((0.7 * 0.065) / 17)) ** 2, 12);
    expect(wide.get('peakEfficiencyCurrent')).toBeCloseTo(Math.sqrt((0.7 * 17) / 0.065), 9);
    expect(wide.get('ratedPowerShare')).toBeCloseTo(620 / 680, 12);
    expect(wide.get('ratedCopperLoss')).toBeCloseTo(104, 9);
    expect(wide.get('noLoadSpeed')).toBeCloseTo((610 * Math.PI * (17 - 0.7 * 0.065)) / 30, 9);
  });

  it('finds no contradiction in the demos, and nothing unusual', () => {
    for (const main of [boat, glider]) {
      const odd = audited(main).oddities.filter(({ weight }) => weight !== 'note');
      expect(odd).toEqual([]);
    }
  });

  it('remarks on the aircraft and the car what a practitioner would: the large motor idling along, the hot can', () => {
    const mapper = audited(text('hot-day-mapper.yaml'));
    expect(kinds(mapper).sort()).toEqual(['load-light', 'rated-current-overheats']);
    expect(kinds(mapper, 'Anvil')).toContain('load-light');
    expect(kinds(mapper, 'Cruiser')).not.toContain('load-light');
    const car = audited(text('grass-car.yaml'));
    expect(car.oddities.every(({ weight }) => weight === 'note')).toBe(true);
    expect(kinds(car, 'Short, 4.6 to 1')).toContain('can-hotter-than-practised');
    expect(kinds(car, 'Long, 5.4 to 1')).not.toContain('can-hotter-than-practised');
  });

  it('remarks on a Kv typed wrong by ten, and says what would be in line', () => {
    const typo = glider.replace('kv: 775 rpm/V', 'kv: 7750 rpm/V');
    expect(typo).not.toBe(glider);
    const result = audited(typo);
    expect(kinds(result, 'Disc')).toEqual(expect.arrayContaining(['motor-constant-out-of-line', 'rotor-surface-speed-high']));
    expect(result.oddities.find(({ kind }) => kind === 'motor-constant-out-of-line')?.says).toMatch(/with a Kv of 775\s?rpm\/V/);
    // the same slip downwards
    const low = audited(boat.replace('kv: 610 rpm/V', 'kv: 61 rpm/V'));
    expect(low.oddities.find(({ kind }) => kind === 'motor-constant-out-of-line')?.says).toMatch(/^Wide: .*with a Kv of 610\s?rpm\/V/);
  });

  it('remarks on a resistance wrong by ten, either way', () => {
    const high = audited(boat.replace('65 mohm', '650 mohm'));
    expect(kinds(high, 'Wide')).toContain('motor-constant-out-of-line');
    expect(high.oddities.find(({ kind }) => kind === 'motor-constant-out-of-line')?.says).toMatch(/with 65\.0\s?mΩ/);
    expect(kinds(audited(boat.replace('65 mohm', '6.5 mohm')), 'Wide')).toContain('motor-constant-out-of-line');
  });

  it('says it is a contradiction where power is over voltage times current', () => {
    const result = audited(boat.replace('input_power: 620 W', 'input_power: 1620 W'));
    const found = result.oddities[0];
    expect(found).toMatchObject({ kind: 'rated-power-over-product', weight: 'contradiction', candidates: ['Wide'] });
    expect(found.value).toBeCloseTo(1620 / 680, 12);
    expect(found.settles.length).toBeGreaterThan(20);
  });

  it('remarks on a free speed over the sheet’s own limit', () => {
    expect(kinds(audited(boat.replace('shaft_speed: 40000 rpm', 'shaft_speed: 9000 rpm')), 'Wide')).toContain('no-load-speed-over-limit');
  });

  it('takes candidates of one can and mass for winds of a frame, and finds the one that disagrees', () => {
    // Long becomes another wind of Wide's frame: Kv × 1.5, so R / 2.25
    const start = boat.indexOf('  - name: Long');
    const wound = (resistance: string): string =>
      boat.slice(0, start) +
      boat
        .slice(start)
        .replace('610 rpm/V', '915 rpm/V')
        .replace('72 mohm', resistance)
        .replace('{ diameter: 30 mm, length: 74 mm }', '{ diameter: 39 mm, length: 47 mm }');
    const honest = audited(wound('28.9 mohm'));
    expect(honest.frames).toHaveLength(1);
    expect(honest.frames[0].candidates).toEqual(['Wide', 'Long']);
    expect(honest.frames[0].spread).toBeCloseTo(1, 2);
    expect(kinds(honest)).not.toContain('winds-disagree');
    const copied = audited(wound('65 mohm'));
    expect(copied.frames[0].spread).toBeCloseTo(2.25, 2);
    expect(kinds(copied)).toContain('winds-disagree');
  });

  it('does not take one motor on several gears for winds', () => {
    const car = text('grass-car.yaml').replace('repeat: 34', 'repeat: 1');
    expect(audited(car).frames).toEqual([]);
  });
});

describe('rated current', () => {
  it('settles at I²R/G over an iron held at its temperature (closed form), and passes the limit when it must', () => {
    const [{ data }] = prepared(boat).candidates;
    const system = realise(data);
    const g = 2;
    const capacity = { ...system.heat.capacity, winding: 20, stator: Number.POSITIVE_INFINITY };
    const linear = {
      ...system,
      motor: { ...system.motor, resistanceCoefficient: 0, fluxCoefficient: 0 },
      heat: { ...system.heat, windingToStator: g, throughFlow: 0, capacity },
      start: { ...system.start, motorTemperature: ROOM_TEMPERATURE },
      limits: { ...system.limits, windingTemperature: ROOM_TEMPERATURE + 30 },
    };
    const current = 30;
    const loss = current ** 2 * system.motor.resistance;
    const { settles, limitAfter } = ratedHeating(linear, current, 17, { vehicleSpeed: 4, thrust: 0 });
    expect(loss / g).toBeCloseTo(29.25, 9);
    expect(settles! - ROOM_TEMPERATURE).toBeCloseTo(loss / g, 2);
    expect(limitAfter).toBeUndefined();
    const hot = ratedHeating(linear, 2 * current, 17, { vehicleSpeed: 4, thrust: 0 });
    // 117 W: T = 58.5·(1 − e^(−t·G/C)) reaches 30 K
    expect(hot.limitAfter).toBeCloseTo((-20 / g) * Math.log(1 - 30 / ((4 * loss) / g)), 1);
  });

  it('refuses a current that the voltage does not drive', () => {
    const [{ data }] = prepared(boat).candidates;
    expect(() => ratedHeating(realise(data), 500, 17, { vehicleSpeed: 0, thrust: 0 })).toThrow(RangeError);
  });
});

describe('two shapes of one mass', () => {
  const launch = (slim: string, stout: string): string => `title: stout or slim
battery: { cells: { series: 4 }, capacity: 5 Ah }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2 }
vehicle: { mass: 3 kg, drag: [{ speed: 5 m/s, force: 12 N }] }
profile: [{ for: 10 s, throttle: 80 % }]
candidates:
  - { name: Slim, motor: { layout: inrunner, kv: 1420 rpm/V, resistance: ${slim}, no_load: { current: 2.1 A, voltage: 10 V }, mass: 232 g, can: { diameter: 29 mm, length: 82 mm } } }
  - { name: Stout, motor: { layout: inrunner, kv: 1400 rpm/V, resistance: ${stout}, no_load: { current: 2.1 A, voltage: 10 V }, mass: 229 g, can: { diameter: 38 mm, length: 50 mm } } }
`;
  const odd = (main: string) => audited(main).oddities.filter(({ kind }) => kind === 'shapes-disagree');

  it('are held against each other by the shape laws', () => {
    const [found, ...more] = odd(launch('17 mohm', '12 mohm'));
    expect(more).toEqual([]);
    // by hand: D⁴L²/(L + 0.5·D) with stacks of 67 and 35 mm, times the Kv ratio squared
    const shape = (d: number, l: number): number => (d ** 4 * l ** 2) / (l + 0.5 * d);
    const expected = 12e-3 * (shape(38, 35) / shape(29, 67)) * (1400 / 1420) ** 2;
    expect(found.bound).toBeCloseTo(expected, 9);
    expect(expected * 1e3).toBeCloseTo(14.2, 1);
    expect(found.says.replace(/\s/g, ' ')).toContain('should have 14.2 mΩ at this Kv; its sheet says 17.0 mΩ (+20 %)');
    expect(found.candidates).toEqual(['Slim']);
  });

  it('agree without a word, and the one that claims less is the one that is named', () => {
    expect(odd(launch('14.2 mohm', '12 mohm'))).toEqual([]);
    expect(odd(launch('10 mohm', '12 mohm'))[0].candidates).toEqual(['Stout']);
  });
});
