/** Cooling that is bought or made, each part against its closed form by hand, and in a run. */

import { compartmentConvection, compartmentFactor } from '@shaftwork/sim-core/heat/compartment';
import { fittedCoilConductance } from '@shaftwork/sim-core/heat/heat-network';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const boat = (cooling: string, more = ''): string => `title: parts
ambient: { air: 20 °C, water: 15 °C }
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 5 Ah }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2, blades: 3, area_ratio: 0.5 }
vehicle: { mass: 1.5 kg, drag: [{ speed: 3 m/s, force: 9 N }] }
profile: [{ for: 60 s, throttle: 60 % }]
${cooling === '' ? '' : `cooling: { ${cooling} }`}
${more}
candidates:
  - { name: A, motor: { layout: inrunner, kv: 2000 rpm/V, resistance: 40 mohm, no_load: { current: 1.5 A, voltage: 10 V }, mass: 150 g, can: { diameter: 36 mm, length: 50 mm } } }
`;
const prepare = (text: string) => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};
const systemOf = (cooling: string, more = '') => realise(prepare(boat(cooling, more)).candidates[0].data);

describe('parts of cooling', () => {
  it('a strap: L/(k·A) and its joints in series (Incropera, eq. 3.6)', () => {
    // 80 mm of copper, 390 W/(m·K), 30 mm²: 6.838 K/W; joints 0.6 W/K: 1.667 K/W
    const copper = systemOf('strap: { cross_section: 30 mm2, length: 80 mm, contact: 0.6 W/K }').heat;
    expect(1 / copper.strap!.conductance).toBeCloseTo(6.838 + 1.667, 2);
    // two heat pipes of 6 mm over 150 mm stand for 10,000 W/(m·K): 0.265 K/W
    const pipes = systemOf('strap: { material: heat-pipe, cross_section: 56.5 mm2, length: 150 mm, contact: 0.6 W/K }').heat;
    expect(1 / pipes.strap!.conductance).toBeCloseTo(0.265 + 1.667, 3);
  });

  it('a fan: 0.6 of its free flow through the ring its blades sweep; what it takes is another load', () => {
    // 180 L/min = 3·10⁻³ m³/s; π/4·(40² − 18²) mm² = 1002.2 mm²
    const { heat, otherLoads } = systemOf('fan: { diameter: 40 mm, flow: 180 L/min, power: 1 W }', 'other_loads: 2 W');
    expect(heat.airSpeed).toBeCloseTo((0.6 * 3e-3) / 1002.2e-6, 3);
    expect(otherLoads).toBeCloseTo(3, 12);
    // 10 kg/m² × (40 mm)²
    expect(heat.addedMass).toBeCloseTo(0.016, 9);
    expect(heat.addedThickness).toBeCloseTo(0.002, 9);
  });

  it('a pump: flow over the tube’s cross-section, at rest too', () => {
    // 0.8 L/min through 3 mm: 1.333·10⁻⁵ m³/s over 7.069 mm²
    const { heat, surroundings } = systemOf('water_coil: { bore: 3 mm, length: 60 cm, pump: 0.8 L/min }');
    expect(heat.coil!.pumpSpeed).toBeCloseTo(1.886, 3);
    expect(heat.coil!.speedShare).toBe(0);
    expect(fittedCoilConductance(heat.coil!, surroundings.waterTemperature, 0)).toBeGreaterThan(0.5);
    const scooped = systemOf('water_coil: { bore: 3 mm, length: 60 cm }').heat;
    expect(fittedCoilConductance(scooped.coil!, surroundings.waterTemperature, 0)).toBe(0);
  });

  it('joints: paste, tape, pad and dry carry less in this order, as k/t of what fills them', () => {
    const sink = (joint: string) =>
      systemOf(`heat_sink: { fins: 9, fin_height: 8 mm, fin_thickness: 1 mm, length: 40 mm, breadth: 60 mm, joint: ${joint} }`).heat.sink!
        .contact;
    expect(sink('paste')).toBeCloseTo(3000 * 0.04 * 0.06, 9);
    expect(sink('tape')).toBeCloseTo((0.6 / 0.25e-3) * 0.04 * 0.06, 9);
    expect(sink('pad')).toBeCloseTo((1.5 / 1e-3) * 0.04 * 0.06, 9);
    expect(sink('dry')).toBeCloseTo((0.026 / 0.1e-3) * 0.04 * 0.06, 9);
  });

  it('a cowl: the inlet’s area times 0.6 over that of the gap is the share of the stream', () => {
    const plane = boat('air: { cowl: { inlet: 5 cm2, gap: 4 mm } }')
      .replace(/propeller:.*/, 'propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }')
      .replace(
        /vehicle:.*/,
        'vehicle: { mass: 1 kg, wing: { area: 0.3 m2, aspect_ratio: 7, span_efficiency: 0.8, zero_lift_drag: 0.03, most_lift: 1.2 } }',
      )
      .replace('throttle: 60 %', 'throttle: 60 %, vehicle_speed: 14 m/s');
    const { heat } = realise(prepare(plane).candidates[0].data);
    // π·(36 + 4)·4 mm² = 502.7 mm²
    expect(heat.slipstreamShare).toBeCloseTo((0.6 * 500) / 502.65, 4);
    expect(heat.addedThickness).toBeCloseTo(0.004, 12);
    // an aircraft's compartment has some of its stream
    expect(heat.compartmentSpeedShare).toBe(0.1);
  });

  it('compartment air: a laminar plate of 6 cm at 4 m/s takes 6.4 times 5 W/(m²·K), thin air less (Incropera eq. 7.30, table A.4)', () => {
    // Re 15 104, Pr 0.707, k 0.0263: Nu 72.7, h 31.9 W/(m²·K); with natural convection by the cube rule 31.9
    expect(compartmentFactor(1, compartmentConvection(101325, 4)) / (31.9 / 5)).toBeCloseTo(1, 1);
    expect(compartmentFactor(0.5, compartmentConvection(101325, 0))).toBe(1);
    expect(compartmentFactor(1, compartmentConvection(79501.4, 0))).toBeCloseTo(Math.sqrt(79501.4 / 101325), 12);
    expect(compartmentFactor(0, compartmentConvection(79501.4, 9))).toBe(1);
  });

  it('every part cools in a run, its heat is told, and none is lost', () => {
    const run = (cooling: string) => runScenario(prepare(boat(cooling))).candidates[0];
    const bare = run('');
    for (const cooling of [
      'strap: { cross_section: 60 mm2, length: 40 mm }',
      'fan: { diameter: 40 mm, flow: 400 L/min }',
      'water_coil: { bore: 3 mm, length: 60 cm, pump: 0.8 L/min }',
    ]) {
      const cooled = run(cooling);
      expect(cooled.headline.peakCanTemperature.nominal, cooling).toBeLessThan(bare.headline.peakCanTemperature.nominal - 0.5);
      expect(Math.abs(cooled.energy.heatResidual), cooling).toBeLessThan(1e-6);
    }
    const system = systemOf('strap: { cross_section: 60 mm2, length: 40 mm }');
    const kernel = createKernel(system);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    for (let k = 0; k < 6; k++) y[k] = 350;
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.5, to: 0.5 } }, 0, false);
    kernel.solve(0, y);
    expect(kernel.heatOutlets(y).strap).toBeCloseTo(system.heat.strap!.conductance * (350 - 288.15), 9);
  });

  it.each([
    ['fan: { diameter: 40 mm, flow: 180 L/min }, air: { speed: 3 m/s }', 'cooling.fan'],
    ['air: { share_of_vehicle_speed: 20 %, cowl: { inlet: 5 cm2, gap: 4 mm } }', 'cooling.air.cowl'],
    ['strap: { length: 80 mm }', 'cooling.strap.cross_section'],
    ['fan: { diameter: 40 mm }', 'cooling.fan.flow'],
  ])('refuses %s', (cooling, path) => {
    const preparation = prepareScenario(new Map([['a.yaml', boat(cooling)]]), 'a.yaml');
    if (preparation.kind !== 'problems') throw new Error('prepared without a problem');
    expect(preparation.problems.map((each) => each.place.path)).toContain(path);
  });
});
