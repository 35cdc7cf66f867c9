/** The heat network: which way each gap is filled, what a given way leaves out of the rest, and what cooling needs to be said. */
import { describe, expect, it } from 'vitest';
import { boat, dataOf, from, INRUNNER, OUTRUNNER, problemsOf, type Section, WING, wrongIn } from '../drives.js';

const [D, L] = [27e-3, 32e-3];
const heatOf = (drive: Section = {}) => dataOf(drive).heat;
const inrunner = (thermal: Section, more: Section = {}) => heatOf({ motor: { ...INRUNNER, thermal }, ...more });
const outrunner = (thermal: Section, more: Section = {}) => heatOf({ motor: { ...OUTRUNNER, thermal }, ...more });
const cooled = (cooling: Section, more: Section = {}) => heatOf({ motor: INRUNNER, cooling, ...more });

describe('what a motor’s layout makes of it', () => {
  it('an outrunner hangs on its bearing tube, blows through itself and has no fixed way from stator to bell', () => {
    const heat = heatOf();
    expect([heat.toMount, heat.statorToCan, heat.magnetsToCan, heat.throughFlow, heat.openness].map(from)).toEqual([
      'bearing-tube',
      'no-path',
      'bonded-magnets',
      'through-flow',
      'openness',
    ]);
    expect(heat.layout).toBe('outrunner');
    expect(heat.statorToAir).toBeUndefined();
  });
  it('an inrunner stands on its flange, is closed and has its stator pressed into the can', () => {
    const heat = inrunner({});
    expect([heat.toMount, heat.statorToCan, heat.magnetsToCan, heat.throughFlow, heat.openness].map(from)).toEqual([
      'flange',
      'press-fit',
      'shaft-and-bearings',
      'no-path',
      'closed-motor',
    ]);
    expect([heat.openness.value, heat.throughFlow.value]).toEqual([0, 0]);
  });
  it('a short inrunner has a third of its can of iron', () => {
    const { sideArea, statorToMagnets } = heatOf({ motor: { ...INRUNNER, can: { diameter: '27 mm', length: '20 mm' } } });
    expect(sideArea.value).toBeCloseTo(Math.PI * D * 20e-3, 12);
    expect(statorToMagnets.value).toBeCloseTo(80 * Math.PI * 0.55 * (0.89 * D) * 7e-3, 12);
  });
  it('stack and stator count where they are given', () => {
    const { windingToStator, throughFlow } = heatOf({
      motor: { ...OUTRUNNER, stack_length: '12 mm', stator_diameter: '22 mm', poles: 28 },
    });
    expect(windingToStator.value).toBeCloseTo(120 * (24 * 0.5 + 0.45 * Math.PI) * 22e-3 * 12e-3, 12);
    expect(throughFlow.value).toBeCloseTo(120 * 2 * Math.PI * 22e-3 * 12e-3, 12);
  });
});

describe('ways that are given', () => {
  it('stand as they are, and a bell takes its magnets’ share of its heat', () => {
    const { capacity, windingToStator, statorToCan, canToAir } = inrunner({
      winding_to_stator: '0.8 W/K',
      stator_to_can: '4 W/K',
      can_to_air: '0.3 W/K',
      winding_capacity: '8 J/K',
      stator_capacity: '12 J/K',
      can_capacity: '14 J/K',
    });
    expect([windingToStator, statorToCan, canToAir].map(({ value }) => value)).toEqual([0.8, 4, 0.3]);
    expect([capacity.winding, capacity.stator, capacity.can].map(({ value }) => value)).toEqual([8, 12, 14]);
    expect(from(capacity.magnets)).toBe('magnet-capacity');
    const bell = outrunner({ can_capacity: '22 J/K' }).capacity;
    expect([bell.can.value, bell.magnets.value].map((x) => Number(x.toFixed(9)))).toEqual([13, 9]);
  });

  it('the whole way from an inrunner’s can leaves no surface and no mount beside it', () => {
    const { canToAir, sideArea, endArea, toMount, mount } = inrunner({ can_to_air: '0.3 W/K' });
    expect([canToAir.value, sideArea.value, endArea.value, toMount.value]).toEqual([0.3, 0, 0, 0]);
    expect(mount).toBeUndefined();
  });
  it('that of an outrunner’s bell leaves its mount', () => {
    const { canToAir, sideArea, endArea, toMount, mount } = outrunner({ can_to_air: '0.3 W/K' });
    expect([canToAir.value, sideArea.value, endArea.value, toMount.value]).toEqual([0.3, 0, 0, 3 * D]);
    expect(mount).toBeDefined();
  });
  it('without one the can has its side, its ends and its mount', () => {
    for (const heat of [inrunner({}), outrunner({})]) {
      expect(heat.canToAir.value).toBe(0);
      expect(heat.sideArea.value).toBeCloseTo(Math.PI * D * L, 12);
      expect(heat.endArea.value).toBeCloseTo(0.5 * Math.PI * D ** 2, 12);
      expect(heat.toMount.value).toBeCloseTo(3 * D, 12);
      expect(heat.mount?.area.value).toBeCloseTo(0.5 * Math.PI * D ** 2, 12);
    }
  });

  it('a catalogue’s housing is an inrunner’s can: both printed resistances in series are the whole way', () => {
    const heat = inrunner({ winding_to_housing: '2.9 K/W', housing_to_ambient: '9 K/W' });
    expect(1 / heat.windingToStator.value + 1 / heat.statorToCan.value).toBeCloseTo(2.9, 9);
    expect(1 / heat.canToAir.value).toBeCloseTo(9, 9);
    expect([heat.magnetsToCan.value, heat.toMount.value, heat.sideArea.value, heat.endArea.value]).toEqual([0, 0, 0, 0]);
    expect(heat.mount).toBeUndefined();
    expect(heat.statorToAir).toBeUndefined();
  });
  it('and the stator of an outrunner, whose way to the air is that of its stator', () => {
    const heat = outrunner({ winding_to_housing: '2.9 K/W', housing_to_ambient: '9 K/W' });
    expect(1 / heat.windingToStator.value).toBeCloseTo(2.9, 9);
    expect(heat.statorToAir?.conductance.value).toBeCloseTo(1 / 9, 9);
    expect(heat.statorToAir?.shaftSpeed.value).toBe(0);
    expect([heat.canToAir.value, heat.throughFlow.value, heat.toMount.value, heat.sideArea.value, heat.endArea.value]).toEqual([
      0, 0, 0, 0, 0,
    ]);
    expect(heat.magnetsToCan.value).toBeGreaterThan(0);
    expect(heat.mount).toBeUndefined();
  });
  it('the way from winding to housing alone leaves the way to the air as it was', () => {
    expect(inrunner({ winding_to_housing: '2.9 K/W' }).toMount.value).toBeCloseTo(3 * D, 12);
    expect(inrunner({ winding_to_housing: '2.9 K/W' }).sideArea.value).toBeGreaterThan(0);
    expect(outrunner({ winding_to_housing: '2.9 K/W' }).throughFlow.value).toBeGreaterThan(0);
  });
  it('a way from an outrunner’s stator to its bell is the whole one, past the magnets', () => {
    const heat = outrunner({ stator_to_can: '0.2 W/K' });
    expect([heat.statorToCan.value, heat.statorToMagnets.value]).toEqual([0.2, 0]);
    expect(outrunner({}).statorToMagnets.value).toBeGreaterThan(0);
    expect(inrunner({ stator_to_can: '4 W/K' }).statorToMagnets.value).toBeGreaterThan(0);
  });
  it('what an outrunner blows through itself is no longer estimated, and holds at its speed', () => {
    const heat = outrunner({ stator_to_air: { conductance: '0.8 W/K', at_speed: '9000 rpm' } });
    expect([heat.statorToAir?.conductance.value, heat.throughFlow.value]).toEqual([0.8, 0]);
    expect(heat.statorToAir?.shaftSpeed.value).toBeCloseTo(300 * Math.PI, 9);
    expect(heat.sideArea.value).toBeGreaterThan(0);
  });
  it('a jacket or a coil brings the water, not both', () => {
    const jacket = { water_jacket: { conductance: '2 W/K' }, water_coil: { bore: '3 mm', length: '400 mm' } };
    const problems = problemsOf(boat({ cooling: jacket }));
    expect(problems.map(({ expected }) => expected)).toContain('water_jacket or water_coil');
  });
  it('a mount is given whole, or as its plate', () => {
    const whole = heatOf({ cooling: { mount: { conductance: '0.3 W/K' } } });
    expect([whole.toMount.value, whole.mount]).toEqual([0.3, undefined]);
    const plate = heatOf({ cooling: { mount: { plate: '20 cm2' } } });
    expect([plate.toMount.value, plate.mount?.area.value].map((x) => Number(x?.toFixed(9)))).toEqual([0.081, 0.004]);
  });
  it('of controller and pack hold as they are', () => {
    expect(heatOf().controllerConvection.value).toBe(0.5);
    expect(heatOf().cellsConvection.value).toBe(0.5);
    const heat = heatOf({ controller: { thermal: { to_air: '0.2 W/K' } } });
    expect([heat.controllerConvection.value, heat.cellsConvection.value]).toEqual([0, 0.5]);
    const cells = heatOf({ battery: { cells: { series: 3 }, capacity: '2 Ah', thermal: { to_air: '0.2 W/K' } } });
    expect([cells.controllerConvection.value, cells.cellsConvection.value]).toEqual([0.5, 0]);
  });
});

describe('the air at the motor', () => {
  const flown: Section = { vehicle: { mass: '1 kg', wing: WING } };
  const shares = (drive: Section) => {
    const { vehicleSpeedShare, slipstreamShare, compartmentSpeedShare } = heatOf(drive);
    return [vehicleSpeedShare, slipstreamShare, compartmentSpeedShare].map(({ value }) => value);
  };
  it('is a share of what an aircraft flies through and of its slipstream', () => {
    expect(shares(flown)).toEqual([0.3, 0.3, 0.1]);
    expect(shares({ ...flown, motor: INRUNNER })).toEqual([0.3, 0.3, 0.1]);
  });
  it('on a bench of the slipstream alone; behind a screw in water, and in a car, none', () => {
    expect(shares({})).toEqual([0, 0.3, 0]);
    expect(shares(boat())).toEqual([0, 0, 0]);
    const table = [
      { advance_ratio: 0, thrust: 0.1, power: 0.05 },
      { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
    ];
    const propeller = { kind: 'coefficients', diameter: '9 in', table };
    expect(shares({ propeller: { ...propeller, medium: 'water' } })).toEqual([0, 0, 0]);
    expect(shares({ propeller: { ...propeller, medium: 'air' } })).toEqual([0, 0.3, 0]);
    expect(shares({ motor: INRUNNER, propeller: 'none', wheel: { radius: '40 mm' }, vehicle: { mass: '2 kg' } })).toEqual([0, 0, 0]);
  });
  it('is what was given', () => {
    const air = { share_of_vehicle_speed: '60 %', share_of_slipstream: '40 %', openness: '70 %' };
    const compartment = { share_of_vehicle_speed: '20 %', speed: '2 m/s' };
    expect(shares({ ...flown, cooling: { air, compartment } })).toEqual([0.6, 0.4, 0.2]);
    const { openness, compartmentAirSpeed, airSpeed } = heatOf({ ...flown, cooling: { air: { ...air, speed: '3 m/s' }, compartment } });
    expect([openness.value, compartmentAirSpeed.value, airSpeed.value]).toEqual([0.7, 2, 3]);
  });
  it('in a cowl is what its inlet lets in, of flight and of slipstream, at most all', () => {
    const cowl = (inlet: string): Section => ({ cooling: { air: { cowl: { inlet, gap: '4 mm' } } } });
    const share = 0.6e-4 / (Math.PI * 31e-3 * 4e-3);
    expect(shares({ ...flown, ...cowl('1 cm2') }).map((x) => Number(x.toFixed(9)))).toEqual(
      [share, share, 0.1].map((x) => Number(x.toFixed(9))),
    );
    expect(shares({ ...flown, ...cowl('50 cm2') })).toEqual([1, 1, 0.1]);
    expect(heatOf(cowl('1 cm2')).addedThickness.value).toBeCloseTo(4e-3, 12);
    // a boat's cowl gets no slipstream
    expect(shares(boat(cowl('1 cm2')))[1]).toBe(0);
    expect(wrongIn({ cooling: { air: { cowl: {} } } })).toEqual(['cooling.air.cowl.inlet', 'cooling.air.cowl.gap']);
  });
  it('of a cowl is told once: not by its shares beside it', () => {
    const cowl = { inlet: '1 cm2', gap: '4 mm' };
    for (const share of ['share_of_slipstream', 'share_of_vehicle_speed'])
      expect(problemsOf({ cooling: { air: { cowl, [share]: '30 %' } } })).toMatchObject([{ expected: 'a cowl or the shares of the air' }]);
  });
  it('of a fan is that of its flow, and not of a speed besides', () => {
    const fan = { diameter: '40 mm', flow: '180 L/min', power: '1 W' };
    expect(cooled({ fan }).airSpeed.value).toBeCloseTo((0.6 * 3e-3) / (0.25 * Math.PI * (1.6e-3 - 0.324e-3)), 9);
    expect(problemsOf({ motor: INRUNNER, cooling: { fan, air: { speed: '3 m/s' } } })).toMatchObject([
      { kind: 'conflict', expected: 'a fan or the speed of its air' },
    ]);
    expect(wrongIn({ motor: INRUNNER, cooling: { fan: {} } })).toEqual(['cooling.fan.flow', 'cooling.fan.diameter']);
    // one as wide as the can adds nothing to it
    expect(cooled({ fan: { ...fan, diameter: '20 mm' } }).addedThickness.value).toBe(0);
    expect(cooled({ fan: { ...fan, mass: '12 g' } }).addedMass.value).toBe(12e-3);
  });
});
