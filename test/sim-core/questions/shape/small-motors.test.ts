/** A family of shapes and a family of windings of one small motor, driven for two seconds: the laws by which they scale, and what is said of the best. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { pointOf } from '@shaftwork/sim-core/questions/point';
import { continuousCurrent } from '@shaftwork/sim-core/questions/rate/rated-current';
import { reshape } from '@shaftwork/sim-core/questions/shape/reshape';
import { rewind } from '@shaftwork/sim-core/questions/shape/rewind';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, PACK, preparedOf, type Section, SINK, TABLE_SCREW } from '../../provenance/drives.js';

const PROFILE = [{ for: '2 s', throttle: '70 %' }];
const prepared = (more: Section = {}) => preparedOf({ profile: PROFILE, ...more });
const shapes = (more: Section = {}, count?: number) => {
  const { candidates, scenario } = prepared(more);
  return reshape(candidates, scenario.profile, scenario.objective, 'A', count);
};
const windings = (more: Section = {}) => {
  const { candidates, scenario } = prepared(more);
  return rewind(candidates, scenario.profile, scenario.objective).candidates[0];
};
const plain = (sentences: readonly string[]): string => sentences.join(' ').replace(/[\u00a0\u202f]/g, ' ');

describe('shapes', () => {
  it('keep mass and Kv, scale as their laws say, and the best of them is told', () => {
    const made = prepared({ propeller: TABLE_SCREW });
    const { family, best, bestUnbounded, real, drivers, laws, sentences, ...rest } = reshape(
      made.candidates,
      made.scenario.profile,
      made.scenario.objective,
      'A',
      6,
    );
    expect(rest).toEqual({ schema: 'shaftwork.reshape/1', reference: 'A', objective: 'coolest' });
    const [own] = real;
    expect([own.name, own.diameter, own.length]).toEqual(['A', 0.027, 0.032]);
    const ratios = family.map(({ ratio }) => ratio);
    // from as wide as a stack of coins to as long as a pen, and the motor's own; those without room for a stack are none
    expect(ratios).toEqual([...ratios].sort((a, b) => b - a));
    expect(ratios.some((ratio) => Math.abs(ratio - 27 / 32) < 1e-12)).toBe(true);
    expect(ratios.slice(0, -2)).toEqual(expect.arrayContaining([2 * 0.1 ** 0.4, 2 * 0.1 ** 0.6].map((ratio) => expect.closeTo(ratio, 9))));
    expect(ratios.length).toBeGreaterThan(4);
    expect(ratios.length).toBeLessThanOrEqual(7);
    expect(Math.min(...ratios)).toBeCloseTo(0.2, 9);
    const before = outcomeOf(made.candidates[0], made.scenario.profile, 'coolest').simulation.highest;
    expect(own.peakWindingTemperature).toBe(before.windingTemperature.value);
    expect(own.peakCanTemperature).toBe(before.canTemperature.value);
    expect(own.peakMotorCurrent).toBe(before.motorCurrent.value);
    // torque over (π/2)·D²·L of the gap, 0.83 of an outrunner's can
    expect((own.shearStress * Math.PI * (0.83 * 0.027) ** 2 * own.stackLength) / 2).toBeCloseTo(before.motorTorque.value, 12);
    // an outrunner's can turns
    expect(own.rotorSurfaceSpeed).toBeCloseTo(0.5 * 0.027 * before.shaftSpeed.value, 9);
    const stiffness = ({ diameter: d, stackLength: l }: typeof own): number => (d ** 4 * l ** 2) / (l + 0.25 * d);
    const { motor } = realise(made.candidates[0].data);
    const friction = motor.frictionTorque / motor.torqueConstant;
    for (const each of family) {
      expect(each.name).toBeUndefined();
      expect(each.ratio).toBeCloseTo(each.diameter / each.length, 9);
      expect(each.mass).toBe(own.mass);
      expect(each.diameter ** 2 * each.length).toBeCloseTo(own.diameter ** 2 * own.length, 12);
      expect(each.length - each.stackLength).toBeCloseTo(own.length - own.stackLength, 9);
      expect(each.sideArea).toBeCloseTo(Math.PI * each.diameter * each.length, 12);
      expect(each.endArea).toBeCloseTo((Math.PI / 2) * each.diameter ** 2, 12);
      expect((each.motorConstant / own.motorConstant) ** 2).toBeCloseTo(stiffness(each) / stiffness(own), 6);
      expect(each.resistance / own.resistance).toBeCloseTo(stiffness(own) / stiffness(each), 6);
      const iron = (each.diameter / own.diameter) ** 2 * (each.stackLength / own.stackLength);
      expect((each.noLoadCurrent - friction) / (own.noLoadCurrent - friction)).toBeCloseTo(iron, 1);
      expect(each.fits).toBe(true);
      expect(each.continuousCurrent).toBeGreaterThan(0.5);
      if (each.meetsLimits) expect(best?.peakWindingTemperature).toBeLessThanOrEqual(each.peakWindingTemperature);
    }
    expect(best).toEqual(bestUnbounded);
    expect(laws.map((law) => law.replace(/[\u00a0\u202f]/g, ' '))).toEqual([
      'motor constant² ∝ D⁴L²/(L + 0.25·D), L the stack and 0.25·D what end turns add to it (Hanselman 2003, ch. 4; 0.25 is common practice)',
      `equal mass: D² × can length is kept, ${(1000 * (own.length - own.stackLength)).toFixed(0)} mm of the can is no stack in every member`,
      'equal Kv, so equal torque constant; resistance = kt²/Km²; iron loss ∝ D²L, friction kept',
      'heat: winding to iron and iron to can ∝ D·L, a jacket with the can’s side; the surface from its own area',
      'the stress in the gap that a shape stands is not constant; --json gives it for each',
    ]);
    expect(plain(laws)).toContain(`${(1000 * (own.length - own.stackLength)).toFixed(0)} mm of the can is no stack`);
    expect(drivers.map(({ id }) => id)).toEqual(['copper', 'no-load', 'heat-inside', 'surface']);
    // the motor's own run with the best one's copper
    const [input] = made.candidates;
    const { resistance } = input.data.motor;
    const copper = { ...input.data, motor: { ...input.data.motor, resistance: { ...resistance, value: best?.resistance ?? 0 } } };
    const alone = outcomeOf({ ...input, data: copper }, made.scenario.profile, 'coolest').simulation.highest.windingTemperature.value;
    expect(drivers[0].change).toBeCloseTo(alone - own.peakWindingTemperature, 6);
    // and with iron loss as its D²L, friction as it is
    const iron = best === undefined ? Number.NaN : (best.diameter / own.diameter) ** 2 * (best.stackLength / own.stackLength);
    const system = realise(input.data);
    const peakOf = (changed: DriveSystem): number =>
      simulate(changed, made.scenario.profile, { method: 'dormand-prince', relative: 1e-3, record: false }).highest.windingTemperature
        .value;
    const { hysteresisTorque, eddyTorque } = system.motor;
    const lossy = { ...system, motor: { ...system.motor, hysteresisTorque: iron * hysteresisTorque, eddyTorque: iron * eddyTorque } };
    // 5 %: how much of it is hysteresis is taken anew for each shape
    expect(drivers[1].change / (peakOf(lossy) - own.peakWindingTemperature)).toBeCloseTo(1, 1);
    // its winding closer to the iron as D·L
    const closer = best === undefined ? Number.NaN : (best.diameter * best.stackLength) / (own.diameter * own.stackLength);
    const joined = { ...system, heat: { ...system.heat, windingToStator: closer * system.heat.windingToStator } };
    expect(drivers[2].change / (peakOf(joined) - own.peakWindingTemperature)).toBeCloseTo(1, 1);
    expect(drivers.map(({ words }) => words)).toEqual([
      'copper loss (motor constant)',
      'iron and friction',
      'heat paths from winding to can',
      'surface, jacket and mount',
    ]);
    // the current that lasts where full throttle turns it, in its own slipstream
    const full = pointOf(system, { hold: 'throttle', value: 1 }).channels;
    expect(own.continuousCurrent).toBe(continuousCurrent(system, full.shaftSpeed, full));
    const outcome = outcomeOf(input, made.scenario.profile, 'coolest');
    expect([own.meetsLimits, own.fits]).toEqual([outcome.standing.feasible, true]);
    expect(own.binding).toEqual({
      limit: outcome.limits[0].id,
      words: outcome.limits[0].words,
      marginShare: outcome.limits[0].marginShare,
    });
    const size = (value = 0): string => (1000 * value).toFixed(1);
    const said = plain(sentences);
    expect(said).toContain(`is a can of ${size(best?.diameter)} mm × ${size(best?.length)} mm`);
    expect(said).toContain(`peaks at ${((best?.peakWindingTemperature ?? 0) - 273.15).toFixed(0)} °C`);
    expect(said).toContain(`27.0 mm × 32.0 mm (diameter : length 0.84), at ${(own.peakWindingTemperature - 273.15).toFixed(0)} °C`);
    expect(said).not.toContain('Without the space');
  });

  it('stay in the space where there is one, and say what more room would give', () => {
    const { best, bestUnbounded, family, space, sentences } = shapes({ space: { diameter: '22 mm', length: '60 mm' } }, 8);
    expect(space).toEqual({ diameter: expect.closeTo(0.022, 12), length: expect.closeTo(0.06, 12) });
    for (const { fits, diameter, length } of family)
      expect(fits, `${diameter} ${length}`).toBe(diameter <= 0.022 + 1e-12 && length <= 0.06 + 1e-12);
    expect(family.filter(({ fits }) => fits).length).toBeGreaterThan(1);
    // those that just fill it are among them, and fit
    expect(family.some(({ fits, diameter }) => fits && diameter > 0.022 - 1e-9)).toBe(true);
    expect(family.some(({ fits, length }) => fits && length > 0.06 - 1e-9)).toBe(true);
    expect(best?.diameter).toBeLessThanOrEqual(0.022 + 1e-12);
    expect(best?.length).toBeLessThanOrEqual(0.06 + 1e-12);
    expect(bestUnbounded?.peakWindingTemperature).toBeLessThanOrEqual(best?.peakWindingTemperature ?? 0);
    const apart = Math.abs((bestUnbounded?.ratio ?? 0) / (best?.ratio ?? 1) - 1) > 0.02;
    expect(plain(sentences).includes('Without the space it would be a can of')).toBe(apart);
  });

  it('leave room in the space for the cooling that stands round every one of them', () => {
    const more = { motor: INRUNNER, cooling: { heat_sink: SINK } };
    const added = realise(prepared(more).candidates[0].data).heat.addedThickness;
    expect(added).toBeGreaterThan(0.005);
    const { family } = shapes({ ...more, space: { diameter: `${22 + 2000 * added} mm` } }, 3);
    for (const { fits, diameter } of family) expect(fits).toBe(diameter <= 0.022 + 1e-12);
    expect(family.some(({ fits, diameter }) => fits && diameter > 0.022 - 1e-9)).toBe(true);
  });

  it('say so where none meets the limits, or only with more room', () => {
    const none = shapes({ limits: { winding: '15.5 °C' } });
    expect([none.best, none.bestUnbounded, none.drivers]).toEqual([undefined, undefined, []]);
    // twenty-one, and the motor's own
    expect(none.family.length).toBeGreaterThan(12);
    expect(none.family.length).toBeLessThanOrEqual(22);
    expect(none.sentences).toEqual(['No shape of this mass and Kv meets every limit in the space.']);
    const room = shapes({ space: { length: '8 mm' } }, 6);
    expect(room.best).toBeUndefined();
    // what would just fill the space is wider than any that is looked at, and left out
    for (const { ratio } of room.family) expect(ratio).toBeLessThanOrEqual(2);
    expect(room.space).toEqual({ length: 0.008 });
    expect(plain(room.sentences)).toMatch(/^No shape .* With more room a can of .* mm .* would, at \d+ °C\.$/);
  });

  it('are those of a candidate that there is', () => {
    const { candidates, scenario } = prepared();
    expect(() => reshape(candidates, scenario.profile, 'coolest', 'B')).toThrow(/no candidate B/);
  });
});

/** Whether each end of the range lies between the last wind that serves and the first that does not, or at the end of all. */
function endsOf({ points, range }: ReturnType<typeof windings>): boolean[] {
  const good = points.map(({ meetsLimits, stepsNotHeld, less }) => meetsLimits && stepsNotHeld === 0 && less === undefined);
  const [first, last] = [good.indexOf(true), good.lastIndexOf(true)];
  const [from, to] = [range?.from ?? Number.NaN, range?.to ?? Number.NaN];
  const at = (k: number): number => points[k].speedConstant;
  return [
    first === 0 ? from === at(0) : from <= at(first) && from > at(first - 1),
    last === points.length - 1 ? to === at(last) : to >= at(last) && to < at(last + 1),
  ];
}

describe('windings', () => {
  it('go from 0.4 to 2.5 times the Kv there is, resistance by its inverse square, no-load current with it', () => {
    const { name, points, reference, objective, objectiveWords, objectiveUnit } = windings();
    expect([name, objective, objectiveWords, objectiveUnit]).toEqual(['A', 'coolest', 'peak winding temperature', 'K']);
    // the middle of the thirty-three is the winding there is
    expect(points).toHaveLength(33);
    const factors = points.map((each) => each.speedConstant / reference.speedConstant);
    expect([factors[0], factors[16], factors[32]]).toEqual([expect.closeTo(0.4, 9), 1, expect.closeTo(2.5, 9)]);
    expect(factors).toEqual([...factors].sort((a, b) => a - b));
    expect(points).toContainEqual(reference);
    expect(reference.speedConstant).toBeCloseTo((920 * 2 * Math.PI) / 60, 2);
    points.forEach((each, k) => {
      expect(each.resistance).toBeCloseTo(0.096 * factors[k] ** -2, 9);
      expect(each.noLoadCurrent / reference.noLoadCurrent).toBeCloseTo(factors[k], 2);
      expect(each.objective).toBe(each.peakWindingTemperature);
      expect([each.runTime, each.topSpeed]).toEqual([2, 0]);
    });
  });

  it.each([
    ['the winding there is', 16, 1],
    ['one wound for more', 20, 2.5 ** 0.25],
  ])('%s is driven as a motor written so, whatever is told of it', (_, place, factor) => {
    // K_v, R and the no-load point of a motor rewound: the same torque lost at the same speed
    const wound = {
      ...OUTRUNNER,
      kv: `${920 * factor} rpm/V`,
      resistance: `${96 / factor ** 2} mohm`,
      no_load: { current: `${0.9 * factor} A`, voltage: `${10 / factor} V` },
      inductance: '30 µH',
    };
    const limits = {
      battery: { cells: { series: 3 }, capacity: '0.4 Ah', discharge_rating: '40 C' },
      profile: [{ for: '4 s', throttle: '70 %' }],
    };
    const { candidates, scenario } = prepared({ motor: wound, ...limits });
    const [{ data }] = candidates;
    const { simulation, standing, limits: met, figures } = outcomeOf(candidates[0], scenario.profile, 'coolest');
    const { highest } = simulation;
    const told = windings({ motor: { ...OUTRUNNER, inductance: `${30 * factor ** 2} µH` }, ...limits }).points[place];
    expect(told).toEqual({
      speedConstant: expect.closeTo((920 * factor * 2 * Math.PI) / 60, 1),
      resistance: expect.closeTo(0.096 / factor ** 2, 9),
      noLoadCurrent: expect.closeTo(0.9 * factor, 1),
      peakWindingTemperature: expect.closeTo(highest.windingTemperature.value, 2),
      peakMotorCurrent: expect.closeTo(highest.motorCurrent.value, 2),
      peakBatteryCurrent: expect.closeTo(highest.batteryCurrent.value, 2),
      topSpeed: 0,
      chargeLeft: expect.closeTo(simulation.state[simulation.kernel.at.charge], 5),
      runTime: 4,
      objective: expect.closeTo(figures.winding, 2),
      meetsLimits: standing.feasible,
      binding: { limit: met[0].id, words: met[0].words, marginShare: expect.closeTo(met[0].marginShare, 3) },
      stepsNotHeld: 0,
    });
    expect(told.chargeLeft).toBeLessThan(0.999);
    expect(told.peakMotorCurrent).toBeGreaterThan(told.peakBatteryCurrent);
    expect(realise(data).motor.torqueConstant).toBeCloseTo(1 / told.speedConstant, 6);
  });

  it('that serve may be all that are looked at, bounded by none', () => {
    const { range, points, best } = windings({
      limits: { winding: '300 °C', magnets: '300 °C', controller: '300 °C', cells: '300 °C' },
      battery: { cells: { series: 3 }, capacity: '2.2 Ah', discharge_rating: '90 C' },
      profile: [{ for: '2 s', thrust: '0.2 N' }],
    });
    expect(range).toEqual({ from: points[0].speedConstant, to: points[32].speedConstant });
    for (const each of points) expect(best?.objective).toBeLessThanOrEqual(each.objective);
  });

  it('that serve best may be the last looked at, and none beyond', () => {
    const { best, range, points } = windings({
      ...boat({ motor: { ...INRUNNER, kv: '60 rpm/V' } }),
      objective: 'fastest',
      limits: { winding: '300 °C', magnets: '300 °C', controller: '300 °C', cells: '300 °C' },
      profile: [{ for: '3 s', throttle: '50 %' }],
    });
    expect([best, range?.to]).toEqual([points[32], points[32].speedConstant]);
    expect(range).not.toHaveProperty('above');
  });

  it('that serve meet the limits and give 95 % of the thrust there is; below, it is less', () => {
    const found = windings();
    const { points, best, range, reference, sentences } = found;
    const good = points.filter(({ meetsLimits, stepsNotHeld, less }) => meetsLimits && stepsNotHeld === 0 && less === undefined);
    for (const each of good) expect(each.objective).toBeGreaterThanOrEqual((best?.objective ?? 0) - 1e-9);
    // at a held throttle the thrust goes with the speed: just the Kv that leaves 95 %
    expect(range?.from).toBeLessThan(reference.speedConstant);
    expect(range?.from).toBeGreaterThan(0.9 * reference.speedConstant);
    expect(best?.speedConstant).toBeCloseTo(range?.from ?? 0, 6);
    expect(range?.below).toBe('its thrust falls off by more than a twentieth');
    expect(endsOf(found)).toEqual([true, true]);
    const said = plain(sentences);
    expect(said).toContain('A: ');
    expect(said).toContain('; below it its thrust falls off by more than a twentieth');
    expect(said).toContain('920 rpm/V');
    expect(said).not.toContain('top speed');
  });

  it('are bounded by the step they no longer hold, and by the limit that binds', () => {
    const thrust =
      0.9 *
      outcomeOf(prepared().candidates[0], [{ duration: 2, hold: 'throttle', value: { from: 1, to: 1 } }], 'coolest').simulation.highest
        .thrust.value;
    const hover = {
      profile: [{ for: '2 s', thrust: `${thrust} N`, label: 'hover' }],
      battery: { cells: { series: 3 }, capacity: '2.2 Ah', discharge_rating: '20 C' },
    };
    const { range, points } = windings(hover);
    expect(range?.below).toBe('full throttle no longer holds hover');
    expect([points[0].stepsNotHeld, points[0].less]).toEqual([1, 'thrust']);
    const unnamed = windings({
      ...hover,
      profile: [
        { for: '1 s', throttle: '0 %' },
        { for: '2 s', thrust: `${thrust} N` },
      ],
    });
    expect(unnamed.range?.below).toBe('full throttle no longer holds step 2');
    const weak = { battery: { cells: { series: 3 }, capacity: '2.2 Ah', discharge_rating: '5 C' } };
    const weaker = windings(weak);
    expect(weaker.range?.above).toMatch(/ binds$/);
    expect(endsOf(weaker)).toEqual([true, true]);
  });

  it('that serve hold every step, also one that the present winding does not', () => {
    const full = [{ duration: 2, hold: 'throttle', value: { from: 1, to: 1 } }] as const;
    const most = outcomeOf(prepared().candidates[0], full, 'coolest').simulation.highest.thrust.value;
    const asked = (share: number) =>
      windings({ battery: { ...PACK, discharge_rating: '20 C' }, profile: [{ for: '2 s', thrust: `${share * most} N`, label: 'hover' }] });
    const { reference, points, best, range, sentences } = asked(1.1);
    expect(reference.stepsNotHeld).toBe(1);
    expect(best?.stepsNotHeld).toBe(0);
    expect(best?.speedConstant).toBeGreaterThan(reference.speedConstant);
    expect(range?.from).toBeGreaterThan(reference.speedConstant);
    for (const { speedConstant, stepsNotHeld } of points)
      if (range !== undefined && speedConstant >= range.from && speedConstant <= range.to) expect(stepsNotHeld).toBe(0);
    expect(plain(sentences)).toMatch(/^A: .* hold every step .* serve best: .*, now .* at 920 rpm\/V, which does not hold every step\.$/);
    expect(asked(20).best).toBeUndefined();
  });

  it('end with the pack, or where the winding burns', () => {
    const small = { battery: { cells: { series: 3 }, capacity: '0.02 Ah' }, profile: [{ for: '3 s', throttle: '70 %' }] };
    expect(windings(small).range?.above ?? 'none').toMatch(/^the cells (reach their cut-off|are empty before the end)$|^none$|binds$/);
    const none = windings({ limits: { winding: '15.5 °C' } });
    expect([none.best, none.range]).toEqual([undefined, undefined]);
    expect(none.sentences).toEqual([
      'No winding of A meets every limit, holds every step and gives the thrust and speed of the present one.',
    ]);
  });

  it('of a boat keep its top speed too, and say it', () => {
    const { reference, best, sentences, range } = windings({
      ...boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }),
      profile: [{ for: '20 s', throttle: '80 %' }],
    });
    expect(reference.topSpeed).toBeGreaterThan(1);
    expect(best?.topSpeed).toBeGreaterThan(0.95 * reference.topSpeed - 1e-9);
    expect(range?.below).toMatch(/falls off by more than a twentieth$/);
    if (!plain(sentences).includes('serve as well')) expect(plain(sentences)).toMatch(/; top speed [\d.]+ m\/s, now [\d.]+ m\/s/);
  });

  it('are told in the objective’s own unit', () => {
    const aim = (objective: string) =>
      windings({ objective, ...boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }), profile: [{ for: '10 s', throttle: '60 %' }] });
    const fast = aim('fastest');
    expect([fast.objectiveUnit, fast.reference.objective]).toEqual(['m/s', fast.reference.topSpeed]);
    expect(plain(fast.sentences)).toMatch(/serve best: top speed [\d.]+ m\/s, now [\d.]+ m\/s at 500 rpm\/V|serve as well as any/);
  });

  it('are those of candidates that there are', () => {
    const { candidates, scenario } = prepared({ candidates: ['A', 'B'].map((name) => ({ name, motor: OUTRUNNER })) });
    expect(rewind(candidates, scenario.profile, 'coolest').candidates.map(({ name }) => name)).toEqual(['A', 'B']);
    expect(rewind(candidates, scenario.profile, 'coolest', ['B']).candidates.map(({ name }) => name)).toEqual(['B']);
    expect(() => rewind(candidates, scenario.profile, 'coolest', ['C'])).toThrow(/no candidate C/);
  });
});
