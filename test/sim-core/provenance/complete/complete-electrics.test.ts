/** Pack, controller and wiring: what fills a gap by the kind of the cells, what was given, and what cannot be. */
import { openCircuitVoltage } from '@shaftwork/sim-core/parts/battery/battery';
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, dataOf, from, isTaken, OUTRUNNER, problemsOf, type Section, wrongIn } from '../drives.js';

const pack = (more: Section) => dataOf({ battery: { cells: { series: 2 }, capacity: '3 Ah', ...more } });

describe('a pack', () => {
  // nominal voltages of makers; usual ratings and cut-offs are common practice, no published source
  it.each([
    ['lithium-polymer', 3.7, 45, 3.3, 0.21],
    ['lithium-ion', 3.6, 8, 2.8, 0.041],
    ['lithium-iron-phosphate', 3.2, 20, 2.5, 0.041],
    ['nickel-metal-hydride', 1.2, 10, 0.9, 0.041],
  ] as const)('of %s cells', (chemistry, volts, rating, cutoff, width) => {
    const { battery, limits } = pack({ chemistry });
    expect(battery.chemistry).toBe(chemistry);
    expect(battery.mass.value).toBeCloseTo((3 * 2 * volts) / 140, 12);
    // 5 % of the capacity at the rated current
    expect(battery.surfaceLag.value).toBeCloseTo((0.05 * 3600) / rating, 9);
    expect(limits.cellVoltage.value).toBe(cutoff);
    expect(battery.emptyRiseWidth.value).toBe(width);
    const nickel = chemistry === 'nickel-metal-hydride';
    expect(from(battery.cellResistance)).toBe(nickel ? 'cell-resistance-nickel-metal-hydride' : 'cell-resistance-lithium');
    expect(from(battery.polarisationResistance)).toBe(nickel ? 'slow-resistance-nickel' : 'slow-resistance-lithium');
    expect(battery.cellResistance.value).toBeCloseTo(nickel ? 14e-3 / 3 : (0.13 / 3) * rating ** -0.6, 12);
  });

  it('in parallel halves the capacity that a cell has, and one string does not', () => {
    const { battery } = pack({ cells: { series: 2, parallel: 2 } });
    expect(battery.cellResistance.value).toBeCloseTo((0.13 / 1.5) * 45 ** -0.6, 12);
    expect([battery.cellsInSeries, battery.cellsInParallel]).toEqual([2, 2]);
    expect(pack({ cells: { series: 2, parallel: 1 } }).battery.cellResistance.value).toBeCloseTo((0.13 / 3) * 45 ** -0.6, 12);
  });

  it('is what was given, where it was', () => {
    const { battery, heat, limits } = pack({
      cell_resistance: '5 mohm',
      polarisation: { resistance: '2 mohm', time: '12 s' },
      mass: '150 g',
      discharge_rating: '20 C',
      cell_cutoff: '3.1 V',
      thermal: { to_air: '0.4 W/K', capacity: '140 J/K' },
      open_circuit: [
        { charge: '0 %', voltage: '3.2 V' },
        { charge: '100 %', voltage: '4.1 V' },
      ],
    });
    const given = [battery.cellResistance, battery.polarisationResistance, battery.polarisationTime, battery.mass, limits.cellVoltage];
    expect(given.map(({ value }) => value)).toEqual([5e-3, 2e-3, 12, 0.15, 3.1]);
    expect(given.map(from)).toEqual(given.map(() => 'given'));
    expect(battery.surfaceLag.value).toBeCloseTo(9, 12);
    expect(limits.batteryCurrent.value).toBeCloseTo(60, 12);
    expect([heat.cellsToAir.value, heat.capacity.cells.value]).toEqual([0.4, 140]);
    expect([0, 0.5, 1].map((charge) => openCircuitVoltage(battery.openCircuit, charge))).toEqual([3.2, 3.65, 4.1]);
  });

  it('needs its cells and its capacity, told together', () => {
    expect(wrongIn({ battery: { chemistry: 'lithium-ion' } })).toEqual(['battery.cells', 'battery.capacity']);
    for (const { kind, hint } of problemsOf({ battery: { chemistry: 'lithium-ion' } })) {
      expect(kind).toBe('missing-datum');
      expect(hint).toContain('printed on the pack');
    }
  });

  it('may be a supply: one cell that holds its voltage, does not empty, is not carried and asks for no cells', () => {
    const { battery, limits, heat, controller } = dataOf({ battery: { supply: '12 V' }, controller: { voltage_loss: '2 W' } });
    expect([battery.cellsInSeries, battery.cellsInParallel, battery.capacity.value, battery.mass.value]).toEqual([
      1,
      1,
      Number.POSITIVE_INFINITY,
      0,
    ]);
    expect(battery.voltageOffset.value).toBe(12);
    expect(limits.cellVoltage.value).toBe(0);
    expect(heat.capacity.cells.value).toBe(Number.POSITIVE_INFINITY);
    // its own voltage beside the loss that was written, not that of three cells
    expect(controller.rippleConstant.value).toBeCloseTo((2 * 96e-3 * 0.3e-3) / 3 ** 2, 15);
  });
});

describe('a controller', () => {
  it('is what was given, where it was', () => {
    const { controller, heat } = dataOf({
      controller: {
        path_resistance: '3 mohm',
        switching_time: '100 ns',
        pwm_frequency: '24 kHz',
        dead_time: '0.5 us',
        idle_current: '70 mA',
        motor_current_limit: '30 A',
        battery_current_limit: '25 A',
        derating: { from: '90 °C', to: '110 °C' },
        freewheeling: 'diode',
        braking: 'regenerative',
        drive: 'sinusoidal',
        mass: '45 g',
        thermal: { to_air: '0.3 W/K', capacity: '30 J/K' },
      },
    });
    const { pathResistance, switchingTime, pwmFrequency, deadTime, idleCurrent, motorCurrentLimit, batteryCurrentLimit } = controller;
    const { deratingFrom, deratingTo, mass } = controller;
    const given = [pathResistance, idleCurrent, motorCurrentLimit, batteryCurrentLimit, deratingFrom, deratingTo, mass];
    expect(given.map(({ value }) => value)).toEqual([3e-3, 0.07, 30, 25, 363.15, 383.15, 0.045]);
    expect([...given, switchingTime, pwmFrequency, deadTime].map(from)).toEqual(Array.from({ length: 10 }, () => 'given'));
    expect([switchingTime.value * 1e9, pwmFrequency.value, deadTime.value * 1e6].map((x) => Number(x.toPrecision(9)))).toEqual([
      100, 24000, 0.5,
    ]);
    expect(from(controller.diodeDrop)).toBe('diode-drop');
    expect([controller.braking, controller.drive]).toEqual(['regenerative', 'sinusoidal']);
    expect([heat.controllerToAir.value, heat.capacity.controller.value]).toEqual([0.3, 30]);
  });

  it('of which nothing is said limits nothing, derates never, rectifies without a diode and does not brake', () => {
    const { controller } = dataOf();
    for (const limit of ['motorCurrentLimit', 'batteryCurrentLimit', 'deratingFrom', 'deratingTo'] as const)
      expect(controller[limit].value).toBe(Number.POSITIVE_INFINITY);
    expect(controller.diodeDrop.value).toBe(0);
    expect([controller.braking, controller.drive]).toEqual(['none', 'block']);
    expect(from(dataOf({ controller: { freewheeling: 'synchronous' } }).controller.diodeDrop)).toBe('no-diode');
  });

  it('derates from one temperature to a higher one, and then needs a limit that falls', () => {
    const derating = (from: string | undefined, to: string | undefined, limit = true): Section => ({
      controller: {
        derating: { ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) },
        ...(limit ? { motor_current_limit: '30 A' } : {}),
      },
    });
    expect(isTaken(derating('90 °C', '91 °C'))).toBe(true);
    const found = (drive: Section) => problemsOf(drive).map(({ found: what }) => what);
    expect(found(derating('90 °C', '90 °C'))).toEqual(['an end below its beginning']);
    expect(found(derating('90 °C', '80 °C'))).toEqual(['an end below its beginning']);
    expect(found(derating('90 °C', undefined))).toEqual(['only one of them']);
    expect(found(derating(undefined, '90 °C'))).toEqual(['only one of them']);
    expect(found(derating('90 °C', '100 °C', false))).toEqual(['no motor current limit']);
    expect(wrongIn(derating('90 °C', undefined, false))).toEqual(['controller.derating']);
  });
});

describe('wiring', () => {
  it('is the resistance given, or that of gauge, length and connectors', () => {
    expect(dataOf({ wiring: { resistance: '7 mohm' } }).wiring.resistance.value).toBe(7e-3);
    // IEC 60028: 1.7241 µΩ·cm
    const { resistance } = dataOf({ wiring: { gauge: '2 mm2', length: '50 cm', connectors: 0 } }).wiring;
    expect(resistance.value).toBeCloseTo((2 * 0.5 * 1.7241e-8) / 2e-6, 12);
    expect(dataOf({ wiring: { gauge: '2 mm2', length: '50 cm', connectors: 3 } }).wiring.resistance.value).toBeCloseTo(
      resistance.value + 3 * 0.3e-3,
      12,
    );
  });
});

it('a reading of the motor is freed of what the controller takes, given or not', () => {
  const read = (controller: Section) =>
    dataOf({
      motor: { ...OUTRUNNER, resistance: 'from-reading', inductance: '20 uH' },
      controller,
      propeller: {
        kind: 'measured-points',
        diameter: AIR_SCREW.diameter,
        points: [{ shaft_speed: '8000 rpm', battery_current: '12 A', voltage: '11 V', thrust: '8 N' }],
      },
    }).motor.resistance.value;
  // what the path has is not in the winding
  expect(read({ path_resistance: '4 mohm' })).toBeCloseTo(read({}), 12);
  expect(read({ path_resistance: '1 mohm' }) - read({ path_resistance: '4 mohm' })).toBeCloseTo(3e-3, 12);
});
