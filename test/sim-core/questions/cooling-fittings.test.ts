/** Sizes of each remedy: they grow, fit what is there, are written as they are applied, or say why they are of no use. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { REACHES, sizesOf } from '@shaftwork/sim-core/questions/cooling-fittings';
import { REMEDIES, type Remedy } from '@shaftwork/sim-core/results/cool-result';
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, preparedOf, type Section, SINK, WING } from '../provenance/drives.js';

const of = (remedy: Remedy, drive: Section = {}) => {
  const [{ given, data }] = preparedOf(drive).candidates;
  return { sizes: sizesOf(remedy, given, realise(data)), given };
};
const sized = (remedy: Remedy, drive: Section = {}) => {
  const { sizes, given } = of(remedy, drive);
  if (typeof sizes === 'string') throw new Error(sizes);
  return sizes.map(({ words, entry, apply, remedy: told }) => {
    expect(told).toBe(remedy);
    return { words, entry, drive: apply(given) };
  });
};
const useless = (remedy: Remedy, drive: Section): string => {
  const { sizes } = of(remedy, drive);
  if (typeof sizes !== 'string') throw new Error('it is of use');
  return sizes;
};
const inrunner = { motor: INRUNNER };

describe('a heat sink', () => {
  it('round a can has fins 4 mm apart on its circumference, as long as it is', () => {
    const found = sized('heat-sink', inrunner);
    expect(found.map(({ drive }) => (drive.cooling?.heatSink?.finHeight?.value ?? 0) * 1000).map(Math.round)).toEqual([
      4, 6, 8, 10, 15, 20,
    ]);
    // π·27 = 85 mm: 21 fins
    expect(found[0].entry).toBe(
      'cooling: { heat_sink: { fins: 21, fin_height: 4 mm, fin_thickness: 1 mm, length: 32 mm, breadth: 85 mm, coverage: 90 % } }',
    );
    expect(found[0].words).toBe('a ring of fins round the can, 21 fins 4 mm high');
    expect(found[0].drive.cooling?.heatSink).toMatchObject({
      fins: 21,
      covers: 'can',
      length: { value: 0.032 },
      breadth: { value: 0.085 },
      finThickness: { value: 0.001 },
      coverage: { value: 0.9 },
    });
  });
  it('of an outrunner stands on its mount', () => {
    const [first] = sized('heat-sink');
    expect(first.entry).toBe(
      'cooling: { heat_sink: { fins: 10, fin_height: 4 mm, fin_thickness: 1 mm, length: 40 mm, breadth: 40 mm, covers: mount } }',
    );
    expect(first.words).toContain('a heat sink on the mount');
    expect(first.drive.cooling?.heatSink?.covers).toBe('mount');
    expect(first.drive.cooling?.heatSink).not.toHaveProperty('coverage');
  });
  it('is of no use beside another, or where the whole way is given', () => {
    expect(useless('heat-sink', { ...inrunner, cooling: { heat_sink: SINK } })).toContain('a heat sink already');
    expect(useless('heat-sink', { motor: { ...INRUNNER, thermal: { can_to_air: '0.3 W/K' } } })).toContain('the whole one');
    expect(sized('heat-sink', { motor: { ...OUTRUNNER, thermal: { can_to_air: '0.3 W/K' } } }).length).toBe(6);
  });
});

describe('air', () => {
  it('is faster than what there is', () => {
    expect(sized('air', inrunner).map(({ drive }) => drive.cooling?.air?.speed?.value)).toEqual([1, 2, 3, 4, 6, 8, 10, 15, 20, 30]);
    const blown = sized('air', { ...inrunner, cooling: { air: { speed: '6 m/s', openness: '40 %' } } });
    expect(blown.map(({ drive }) => drive.cooling?.air?.speed?.value)).toEqual([8, 10, 15, 20, 30]);
    expect(blown[0].drive.cooling?.air?.openness?.value).toBe(0.4);
    expect(blown[0].entry).toBe('cooling: { air: { speed: 8 m/s } }');
    expect(blown[0].words).toBe('air past the motor at 8 m/s besides what it has from the vehicle');
  });
  it('is of no use where nothing changes with it', () => {
    expect(useless('air', { motor: { ...INRUNNER, thermal: { can_to_air: '0.3 W/K' } } })).toContain('do not change with it');
    expect(of('air', { motor: { ...OUTRUNNER, thermal: { can_to_air: '0.3 W/K' } } }).sizes).not.toEqual(expect.any(String));
    // fins and a plate change with it though the can does not
    const shut = { motor: { ...INRUNNER, thermal: { can_to_air: '0.3 W/K' } } };
    expect(sized('air', { ...shut, cooling: { heat_sink: { ...SINK, covers: 'mount' } } })).toHaveLength(10);
    const told = { motor: { ...OUTRUNNER, thermal: { can_to_air: '0.3 W/K', stator_to_air: { conductance: '0.4 W/K' } } } };
    expect(sized('air', told)).toHaveLength(10);
    expect(useless('air', { ...told, cooling: { mount: { conductance: '0.3 W/K' } } })).toContain('do not change with it');
  });
});

describe('water', () => {
  it('in a jacket is more of it', () => {
    const cooling = { water_jacket: { conductance: '1.8 W/K', at_speed: '3 m/s' } };
    const found = sized('water', boat({ cooling }));
    expect(found.map(({ drive }) => drive.cooling?.waterJacket?.conductance?.value)).toEqual([2.3, 2.7, 3.6, 5.4, 7.2]);
    expect(found[0].drive.cooling?.waterJacket?.atSpeed?.value).toBe(3);
    expect(found[0].entry).toBe('cooling: { water_jacket: { conductance: 2.3 W/K } }');
    expect(found[0].words).toBe('a water jacket of 2.3 W/K in place of 1.8 W/K');
  });
  it('in a coil has turns that fit on the can, smallest first', () => {
    const found = sized('water', boat());
    const turns = found.map(({ words }) => /(\d+) turns of tube of (\d) mm bore/.exec(words)?.slice(1).map(Number) ?? []);
    // a tube of 2 mm takes 4 mm, one of 5 takes 7: 32 mm hold 3 and 6 turns of the first, 3 of the last
    expect(turns).toEqual([
      [3, 2],
      [3, 3],
      [6, 2],
      [3, 4],
      [3, 5],
      [6, 3],
    ]);
    // 3 turns of 4 mm fill 12 mm to the last, of 11.9 mm nothing
    const turnsOn = (length: string): number => {
      const { sizes } = of('water', boat({ motor: { ...INRUNNER, can: { diameter: '27 mm', length } } }));
      return sizes.length;
    };
    expect([turnsOn('12 mm'), turnsOn('11.4 mm')]).toEqual([1, 0]);
    // 3 turns round 27 mm
    expect(found[0].entry).toBe('cooling: { water_coil: { bore: 2 mm, length: 25 cm } }');
    expect(found[0].drive.cooling?.waterCoil).toMatchObject({ bore: { value: 0.002 }, length: { value: 0.25 }, covers: 'can' });
    expect(sized('water', boat({ motor: OUTRUNNER }))[0].entry).toContain('covers: mount');
  });
  it('is of no use where there is none, or a coil already, or its temperature is not known', () => {
    expect(useless('water', inrunner)).toBe('there is no water to cool with');
    expect(useless('water', { ...inrunner, vehicle: { mass: '1 kg', wing: WING } })).toBe('there is no water to cool with');
    expect(useless('water', boat({ cooling: { water_coil: { bore: '3 mm', length: '30 cm' } } }))).toContain('a water coil already');
    expect(useless('water', boat({ ambient: { air: '20 °C' } }))).toContain('temperature of the water is not known');
  });
});

describe('controller and pack', () => {
  it('give off at least a tenth more than they do', () => {
    const found = sized('controller', { controller: { mass: '40 g', thermal: { to_air: '0.18 W/K', capacity: '30 J/K' } } });
    expect(found.map(({ drive }) => drive.controller?.thermal?.toAir?.value)).toEqual([0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 5, 8]);
    expect(found[0].words).toBe('a controller that gives 0.2 W/K to the air, 1.1 times as much as now');
    expect(found[0].entry).toBe('controller: { thermal: { to_air: 0.2 W/K } }');
    expect(found[0].drive.controller?.thermal?.capacity?.value).toBe(30);
    expect(found[0].drive.controller?.mass?.value).toBeCloseTo(0.04, 12);
    expect(sized('controller', { controller: { thermal: { to_air: '0.19 W/K' } } })[0].drive.controller?.thermal?.toAir?.value).toBe(0.3);
    expect(sized('controller')[0].drive.controller?.thermal?.toAir?.value).toBeGreaterThan(0.1);
  });
  it('of a pack too', () => {
    const found = sized('cells', {
      battery: { cells: { series: 3 }, capacity: '2.2 Ah', thermal: { to_air: '1 W/K', capacity: '150 J/K' } },
    });
    expect(found.map(({ drive }) => drive.battery?.thermal?.toAir?.value)).toEqual([1.2, 2, 3, 5, 8]);
    expect(found[0].words).toBe('a pack that gives 1.2 W/K to the air, 1.2 times as much as now');
    expect(found[0].entry).toBe('battery: { thermal: { to_air: 1.2 W/K } }');
    expect(found[0].drive.battery?.thermal?.capacity?.value).toBe(150);
    expect(found[0].drive.battery?.capacity?.value).toBeCloseTo(2.2 * 3600, 9);
  });
});

describe('a size', () => {
  /** As in a scenario, its places by their path alone. */
  const bare = (given: unknown): unknown =>
    JSON.parse(
      JSON.stringify(given, (key, value) => {
        if (key === 'place') return /thermal$|air$/.test(value.path) ? undefined : value.path.replace('candidates[0].', '');
        // a can is what is covered where nothing is said
        if (key === 'covers' && value === 'can') return undefined;
        return key === 'key' && /:\d+:\d+$/.test(value) ? 'its place' : value;
      }),
    );
  /** `section: { key: value, … }` of one line as data. */
  const read = (entry: string): Section =>
    JSON.parse(`{${entry.replace(/[^{}:,]+/g, (word) => (/^ *\d* *$/.test(word) ? word : JSON.stringify(word.trim())))}}`);
  const joined = (a: Section, b: Section): Section => ({
    ...a,
    ...Object.fromEntries(
      Object.entries(b).map(([key, value]) => [
        key,
        typeof value === 'object' ? joined((a[key] ?? {}) as Section, value as Section) : value,
      ]),
    ),
  });
  const entered = (drive: Section, entry: string): unknown => bare(preparedOf(joined(drive, read(entry))).candidates[0].given);
  const jacket = { water_jacket: { conductance: '1.8 W/K', at_speed: '3 m/s' } };
  it.each<readonly [Remedy, string, Section]>([
    ['heat-sink', 'round a can', inrunner],
    ['heat-sink', 'on a mount, with other cooling', { cooling: { air: { openness: '40 %' } } }],
    ['air', 'where there is none', {}],
    ['air', 'with more of it said', { cooling: { air: { openness: '40 %' }, mount: { conductance: '0.3 W/K' } } }],
    ['water', 'in a coil', boat()],
    ['water', 'in a coil on a mount', boat({ motor: OUTRUNNER })],
    ['water', 'in a jacket', boat({ cooling: jacket })],
    ['controller', 'not spoken of', {}],
    ['controller', 'with a mass', { controller: { mass: '40 g', thermal: { capacity: '30 J/K' } } }],
    ['cells', 'of a pack', { battery: { cells: { series: 3 }, capacity: '2.2 Ah', thermal: { capacity: '150 J/K' } } }],
  ])('of %s %s is what its line says, written in the scenario', (remedy, _, drive) => {
    const found = sized(remedy, drive);
    for (const { entry, drive: applied } of [found[0], found[found.length - 1]]) {
      expect(bare(applied)).toEqual(entered(drive, entry));
      // each number is a doubt of its own
      const keys = Array.from(JSON.stringify(applied).matchAll(/"unknown":{"key":"([^"]+)"/g), ([, key]) => key);
      expect(new Set(keys).size).toBe(keys.length);
    }
  });
});

it('fins, moving air and water reach winding and magnets alike', () => {
  for (const remedy of ['heat-sink', 'air', 'water'] as const) expect(REACHES[remedy]).toEqual(['windingTemperature', 'magnetTemperature']);
});

it('every limit of heat has a remedy that reaches it', () => {
  const reached = new Set(REMEDIES.flatMap((remedy) => REACHES[remedy]));
  expect([...reached].sort()).toEqual(['cellTemperature', 'controllerTemperature', 'magnetTemperature', 'windingTemperature']);
  expect([REACHES.controller, REACHES.cells]).toEqual([['controllerTemperature'], ['cellTemperature']]);
});
