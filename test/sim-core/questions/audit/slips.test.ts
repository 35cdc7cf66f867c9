/** A slip of a digit in the pack or in the no-load current is remarked on; demos, starters and motors by their catalogue pages are not. */

import { openCircuitVoltage } from '@shaftwork/sim-core/parts/battery/battery';
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import type { GivenBattery } from '@shaftwork/sim-core/provenance/given';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { NO_SPREAD } from '@shaftwork/sim-core/quantities';
import { type SheetFigures, sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { packRemarks } from '@shaftwork/sim-core/questions/audit/pack';
import { sheetRemarks } from '@shaftwork/sim-core/questions/audit/sheet';
import { numberRemarks } from '@shaftwork/sim-core/questions/audit/written-numbers';
import type { RunInput } from '@shaftwork/sim-core/questions/candidate';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { describe, expect, it } from 'vitest';
import { FLAT } from '../../../checks/known-motors.js';
import { DEMOS, demoOrStarter, STARTERS } from '../../../demo.js';
import { preparedOf } from '../../provenance/drives.js';
import { FULL } from '../judge/simulated.js';

const [input] = preparedOf({}).candidates;
const sheet = sheetFigures(input, runCandidate(input, FULL));
/** What these remarks read of a sheet, without a run of its own. */
const sheetOf = (of: RunInput): SheetFigures => {
  const [first] = of.given.motor?.noLoad ?? [];
  const [noLoadCurrent, noLoadVoltage] = [first?.current?.value ?? Number.NaN, first?.voltage?.value ?? Number.NaN];
  return { ...sheet, input: of, system: realise(of.data), noLoadCurrent, noLoadVoltage };
};
const plain = (text = ''): string => text.replaceAll('\u202f', ' ');
const noLoad = (of: SheetFigures) => sheetRemarks(of).find(({ kind }) => kind === 'no-load-current-unlikely');

it.each([...DEMOS, ...STARTERS])('%s is taken as it is, and not with a digit more', (name) => {
  for (const candidate of demoOrStarter(name).candidates) {
    const right = sheetOf(candidate);
    expect([noLoad(right), ...packRemarks(right), ...numberRemarks(right)]).toEqual([undefined]);
    expect(noLoad({ ...right, noLoadCurrent: 10 * right.noLoadCurrent })?.says).toContain('unloaded');
  }
});

describe('a no-load current', () => {
  // masses, k_t and currents as test/checks/known-motors.ts has them: maxon catalogue pages
  it.each(FLAT.map((motor, k) => ({ ...motor, volts: [18, 24][k] })))(
    'of a catalogue page is taken: $name',
    ({ kt, mass, noLoad: current, volts }) => {
      const motor = { ...sheet.system.motor, torqueConstant: kt, mass };
      const page = { ...sheet, system: { ...sheet.system, motor }, noLoadCurrent: current, noLoadVoltage: volts };
      expect(noLoad(page)).toBeUndefined();
      expect(noLoad({ ...page, noLoadCurrent: 10 * current })?.weight).toBe('unusual');
    },
  );
  it('may be three times that of its mass, more where it was taken at more than ten volts', () => {
    // 0.11 N·m/kg × 66 g × 920 rpm/V (common practice); half of it grows with the voltage
    const usual = 0.11 * 0.066 * ((920 * 2 * Math.PI) / 60);
    for (const [volts, times] of [
      [10, 3],
      [5, 3],
      [Number.NaN, 3],
      [30, 6],
    ]) {
      const at = (current: number) => noLoad({ ...sheet, noLoadCurrent: current, noLoadVoltage: volts });
      expect(at(1.001 * times * usual)?.value).toBeCloseTo(3.003, 9);
      expect(at(0.999 * times * usual)).toBeUndefined();
    }
    expect(plain(noLoad({ ...sheet, noLoadCurrent: 9, noLoadVoltage: 10 })?.says)).toBe(
      '9.00 A unloaded, where outrunners of 66 g and this Kv take about 0.699 A',
    );
  });
});

describe('a pack', () => {
  const charge = (value: number) => givenDatum('battery.capacity', 'charge', value * 3600, NO_SPREAD, input.given.place);
  const kilos = (value: number) => givenDatum('battery.mass', 'mass', value, NO_SPREAD, input.given.place);
  const { place } = input.given;
  const of = (label: Omit<GivenBattery, 'place'>) =>
    packRemarks({ ...sheet, input: { ...input, given: { ...input.given, battery: { place, capacity: charge(2.2), ...label } } } });
  const hours = 3600;
  it('is held by its capacity where it has no mass', () => {
    expect([of({}), of({ capacity: charge(199) }), of({ capacity: charge(0.011) })]).toEqual([[], [], []]);
    const [found] = of({ capacity: charge(6000) });
    expect(found).toMatchObject({
      kind: 'pack-capacity-unlikely',
      weight: 'unusual',
      value: 6000 * hours,
      bound: 200 * hours,
      unit: 'A·s',
    });
    expect(plain(found.says)).toBe(
      'a pack of 6000 A·h, where those that models carry have 0.01 to 200 A·h; with 6.00 A·h it would be in line',
    );
    expect(plain(of({ capacity: charge(0.006) })[0].says)).toContain('with 6.00 A·h');
    expect(packRemarks({ ...sheet, input: { ...input, given: { ...input.given, battery: { place } } } })).toEqual([]);
  });
  it('is held by its energy where it has: lithium-ion holds 387 W·h/kg in theory (Bruce et al., Nature Materials 11, 2012, from memory)', () => {
    // 2.2 A·h of three cells of 3.8 V: 25.1 W·h; published for cells one can buy, 100 to 265 W·h/kg (from memory)
    for (const each of [100, 265]) expect(of({ mass: kilos(25.1 / each) })).toEqual([]);
    const [slip] = of({ capacity: charge(2200), mass: kilos(0.18) });
    expect(slip.basis).toContain('Nature Materials');
    expect(plain(slip.says)).toMatch(
      /^a pack of 2200 A·h at 11\.\d V and 180 g would hold 1\d0 ?000 W·h\/kg, .*; with 2\.20 A·h it would be in line$/,
    );
    expect(of({ mass: kilos(25.1 / 450) })[0].says).not.toContain('in line');
    expect(of({ mass: kilos(18) })[0]).toMatchObject({ bound: 30 * hours, basis: 'common practice, no published source' });
  });
  it('has the energy of its charge at the voltage of its cells half charged', () => {
    const system = { ...sheet.system, battery: { ...sheet.system.battery, voltageOffset: 0.4 } };
    const battery = { place, capacity: charge(2.2), mass: kilos(0.02) };
    const [found] = packRemarks({ system, input: { ...input, given: { ...input.given, battery } } });
    // three cells of 3.8 V or so, and 0.4 V more of each
    const cell = openCircuitVoltage(system.battery.openCircuit, 0.5);
    expect(Math.abs(cell - 3.8)).toBeLessThan(0.06);
    expect(found.value).toBeCloseTo((2.2 * hours * 3 * (cell + 0.4)) / 0.02, 3);
    expect([found.bound, found.unit, found.candidate]).toEqual([387 * hours, 'J/kg', 'A']);
  });
  it('just at a mark is in line, and one of which nothing is written is not asked about', () => {
    expect([of({ capacity: charge(200) }), of({ capacity: charge(0.01) })]).toEqual([[], []]);
    const { battery: _, ...rest } = input.given;
    expect(packRemarks({ ...sheet, input: { ...input, given: rest } })).toEqual([]);
    expect(of({ capacity: charge(6000) })[0].basis).toBe('common practice, no published source');
    expect(of({ capacity: charge(0.006) })[0].bound).toBe(0.01 * hours);
  });
});

describe('a written number', () => {
  const WHEEL = { radius: '33 mm', rolling_resistance: 0.04, drag_area: '0.02 m2', grip: 0.9 };
  const said = (more: object = {}, ratio = 5.4) => {
    const car = { propeller: 'none', vehicle: { mass: '1.15 kg' }, gearbox: { ratio }, wheel: { ...WHEEL, ...more } };
    const [first] = preparedOf(car).candidates;
    return numberRemarks({ input: first, system: realise(first.data) }).map(({ kind, weight, says }) => [kind, weight, plain(says)]);
  };
  const far = (says: string) => [['number-far-from-models', 'unusual', says]];
  // slips of one digit or unit; the ranges are common practice, no published source
  it.each([
    [{ radius: '33 cm' }, 5.4, 'radius of the wheel 330 mm, where models have 6.00 mm to 180 mm'],
    [{ rolling_resistance: 0.4 }, 5.4, 'rolling resistance 0.400, where models have 0.00400 to 0.300'],
    [{ drag_area: '2 m2' }, 5.4, 'drag area of the wheel 2.00 m², where models have 0.000300 m² to 0.400 m²'],
    [{}, 0.54, 'ratio of the gearbox 0.540, where models have 1.00 to 150'],
  ])('that is a slip is remarked on: %j, gear %d', (more, ratio, says) => {
    expect(said()).toEqual([]);
    expect(said(more, ratio)).toEqual(far(says));
  });
  it('with an interval that says nothing is remarked on; a usual one and one that was not written are not', () => {
    expect(said({ radius: '33 mm ± 99 %' })).toEqual([
      ['interval-wide', 'note', 'radius of the wheel is written as 33.0 mm ± 99 %, so anything from 16.6 mm to 65.7 mm'],
    ]);
    expect(said({ radius: '33 mm ± 40 %' })).toEqual([]);
  });
});
