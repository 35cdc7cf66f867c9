/** What is fitted for cooling: what it needs to be said, where it may stand, and what it adds in size and weight. */
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, OUTRUNNER, problemsOf, type Section, SINK, wrongIn } from '../drives.js';

const heatOf = (drive: Section = {}) => dataOf(drive).heat;
const cooled = (cooling: Section, more: Section = {}) => heatOf({ motor: INRUNNER, cooling, ...more });
const wet = (cooling: Section, more: Section = {}) => heatOf(boat({ cooling, ...more }));

describe('water', () => {
  const jacket = { conductance: '1.8 W/K', at_speed: '3 m/s' };
  it('in a jacket cools the can unless it is said to cover the mount', () => {
    const heat = wet({ water_jacket: { ...jacket, rest_share: '20 %', thickness: '5 mm' } });
    expect(heat.jacket?.covers).toBe('can');
    expect([heat.jacket?.conductance.value, heat.jacket?.speed.value, heat.jacket?.restShare.value]).toEqual([1.8, 3, 0.2]);
    expect(heat.addedThickness.value).toBe(5e-3);
    expect(wet({ water_jacket: { ...jacket, covers: 'mount' } }).jacket?.covers).toBe('mount');
    expect(heat.coil).toBeUndefined();
    expect(wrongIn(boat({ cooling: { water_jacket: {} } }))).toEqual(['cooling.water_jacket.conductance', 'cooling.water_jacket.at_speed']);
  });
  it('in a coil needs bore and length; a pump takes the place of the scoop', () => {
    const coil = { bore: '3 mm', length: '60 cm' };
    const scooped = wet({ water_coil: coil });
    expect([scooped.coil?.speedShare.value, scooped.coil?.pumpSpeed.value]).toEqual([0.25, 0]);
    expect(scooped.coil?.covers).toBe('can');
    expect(scooped.jacket).toBeUndefined();
    const pumped = wet({ water_coil: { ...coil, pump: '0.8 L/min', covers: 'mount', contact: '2 W/K' } });
    expect(pumped.coil?.speedShare.value).toBe(0);
    expect(pumped.coil?.pumpSpeed.value).toBeCloseTo(0.8e-3 / 60 / (0.25 * Math.PI * 9e-6), 9);
    expect([pumped.coil?.covers, pumped.coil?.contact.value]).toEqual(['mount', 2]);
    expect(wet({ water_coil: { ...coil, share_of_boat_speed: '40 %', pump: '0.8 L/min' } }).coil?.speedShare.value).toBe(0.4);
    expect(new Set(wrongIn(boat({ cooling: { water_coil: {} } })))).toEqual(
      new Set(['cooling.water_coil.bore', 'cooling.water_coil.length']),
    );
    expect(wet({ water_coil: coil }, { ambient: { water: '15 °C', water_kind: 'sea' } }).coil?.water).toBe('sea');
    expect(scooped.coil?.water).toBe('fresh');
  });
  it.each([
    ['water_jacket', jacket],
    ['water_coil', { bore: '3 mm', length: '60 cm' }],
    ['strap', { cross_section: '30 mm2', length: '80 mm' }],
  ] as const)('is not led round a turning bell by a %s, but may cool its mount', (key, section) => {
    const drive = (covers: Section): Section => boat({ motor: OUTRUNNER, cooling: { [key]: { ...section, ...covers } } });
    for (const covers of [{}, { covers: 'can' }])
      expect(problemsOf(drive(covers))).toMatchObject([{ kind: 'conflict', expected: 'cooling on the mount of an outrunner' }]);
    const { heat } = dataOf(drive({ covers: 'mount' }));
    expect(key === 'strap' ? heat.strap?.covers : (heat.jacket ?? heat.coil)?.covers).toBe('mount');
    // round a mount it adds nothing to the can
    expect(heat.addedThickness.value).toBe(0);
    expect(heat.addedMass.value).toBeGreaterThan(0);
  });
});

describe('a sink', () => {
  it('covers a part of an inrunner’s can, and adds its fins to it', () => {
    const heat = cooled({ heat_sink: SINK });
    expect([heat.sideCovered.value, heat.sink?.covers, heat.sink?.fins.conductivity.value]).toEqual([0.6, 'can', 200]);
    expect(heat.addedThickness.value).toBeCloseTo(9.5e-3, 12);
    expect(cooled({ heat_sink: { ...SINK, coverage: '45 %' } }).sideCovered.value).toBe(0.45);
    expect(cooled({ heat_sink: { ...SINK, contact: '5 W/K' } }).sink?.contact.value).toBe(5);
  });
  it.each(['mount', 'controller'])('on the %s covers nothing of the can', (covers) => {
    for (const motor of [INRUNNER, OUTRUNNER]) {
      const heat = heatOf({ motor, cooling: { heat_sink: { ...SINK, covers } } });
      expect([heat.sideCovered.value, heat.sink?.covers, heat.addedThickness.value]).toEqual([0, covers, 0]);
      expect(heat.addedMass.value).toBeGreaterThan(0);
    }
  });
  it('does not stand on a turning bell', () => {
    for (const covers of [{}, { covers: 'can' }])
      expect(problemsOf({ cooling: { heat_sink: { ...SINK, ...covers } } })).toMatchObject([{ found: 'a heat sink on its turning bell' }]);
  });
  // handbook: aluminium alloy 200, copper 390, steel 45 W/(m·K)
  it.each([
    ['aluminium', 200],
    ['copper', 390],
    ['steel', 45],
  ] as const)('of %s', (material, conductivity) => {
    expect(cooled({ heat_sink: { ...SINK, material } }).sink?.fins.conductivity.value).toBe(conductivity);
  });
  it('needs its fins and its sizes, and leaves room between them', () => {
    expect(wrongIn({ motor: INRUNNER, cooling: { heat_sink: {} } })).toEqual(
      ['fins', 'length', 'breadth', 'fin_height', 'fin_thickness'].map((key) => `cooling.heat_sink.${key}`),
    );
    const odd = (fins: number) => ({ motor: INRUNNER, cooling: { heat_sink: { ...SINK, fins } } });
    expect(problemsOf(odd(61))).toMatchObject([{ kind: 'conflict', expected: 'fins that leave spacing between them' }]);
    expect(dataOf(odd(40)).heat.sink?.fins.fins).toBe(40);
  });
});

describe('a strap', () => {
  const strap = { cross_section: '30 mm2', length: '80 mm' };
  it.each([
    ['copper', 390, 8900],
    ['aluminium', 200, 2700],
    ['heat-pipe', 10_000, 8900],
  ] as const)('of %s', (material, conductivity, density) => {
    const heat = wet({ strap: { ...strap, material, contact: '1 W/K' } });
    expect(heat.strap?.conductance.value).toBeCloseTo(1 / (80e-3 / (conductivity * 30e-6) + 1), 9);
    expect(heat.addedMass.value).toBeCloseTo(density * 30e-6 * 80e-3, 12);
    expect(heat.strap?.covers).toBe('can');
  });
  it('is copper where nothing is said, and needs its size', () => {
    expect(wet({ strap }).strap?.conductance.value).toBeCloseTo(1 / (80e-3 / (390 * 30e-6) + 1 / 0.6), 9);
    expect(wrongIn(boat({ cooling: { strap: {} } }))).toEqual(['cooling.strap.cross_section', 'cooling.strap.length']);
  });
});

it('the thickest of what stands round the can counts, and the sum of what it weighs', () => {
  const heat = wet({ water_coil: { bore: '3 mm', length: '60 cm' }, heat_sink: SINK, air: { cowl: { inlet: '3 cm2', gap: '12 mm' } } });
  const sink = 2700 * 30e-3 * (9 * 8e-6 + 90e-6);
  const tube = 0.6 * 0.25 * Math.PI * (8500 * (16e-6 - 9e-6) + 1000 * 9e-6);
  expect(heat.addedMass.value).toBeCloseTo(sink + tube, 12);
  expect(heat.addedThickness.value).toBeCloseTo(12e-3, 12);
  expect(wet({ water_coil: { bore: '3 mm', length: '60 cm' }, heat_sink: SINK }).addedThickness.value).toBeCloseTo(9.5e-3, 12);
  // the motor's own heat stays its own
  expect(heat.capacity.winding.value).toBeCloseTo(0.2 * 390 * 66e-3, 12);
});
