/** What must not be passed: what was given first, then makers', classes and grades, then what is usual. */
import { describe, expect, it } from 'vitest';
import { dataOf, from, OUTRUNNER, type Section } from '../drives.js';

const limitsOf = (drive: Section) => dataOf(drive).limits;
const sheet = (more: Section) => limitsOf({ motor: { ...OUTRUNNER, ...more } });
const zero = (celsius: number): number => 273.15 + celsius;

describe('limits', () => {
  // IEC 60085
  it.each([
    ['A', 105],
    ['E', 120],
    ['B', 130],
    ['F', 155],
    ['H', 180],
    ['N', 200],
  ] as const)('of a winding of class %s', (insulation_class, celsius) => {
    expect(sheet({ insulation_class }).windingTemperature.value).toBe(zero(celsius));
  });
  // working temperatures of magnet makers' tables; UH, EH, AH from memory
  it.each([
    ['N', 80],
    ['M', 100],
    ['H', 120],
    ['SH', 150],
    ['UH', 180],
    ['EH', 200],
    ['AH', 230],
  ] as const)('of magnets of grade %s', (magnet_grade, celsius) => {
    expect(sheet({ magnet_grade }).magnetTemperature.value).toBe(zero(celsius));
  });

  it('are what was given, whatever class or grade says', () => {
    const limits = limitsOf({
      motor: {
        ...OUTRUNNER,
        insulation_class: 'H',
        magnet_grade: 'SH',
        maker_limits: { current: '20 A', voltage: '13 V', input_power: '200 W', shaft_speed: '15000 rpm' },
      },
      battery: { cells: { series: 3 }, capacity: '2.2 Ah', discharge_rating: '30 C', cell_cutoff: '3.4 V' },
      limits: {
        winding: '90 °C',
        magnets: '70 °C',
        controller: '80 °C',
        cells: '50 °C',
        reserve: '20 %',
        battery_power: '180 W',
        energy: '15 Wh',
        run_time: '10 min',
      },
    });
    expect(Object.values(limits).map(from)).toEqual(
      Object.keys(limits).map((key) => (key === 'batteryCurrent' ? 'rated-current' : 'given')),
    );
    const { windingTemperature, magnetTemperature, controllerTemperature, cellTemperature, reserve, batteryEnergy, runTime } = limits;
    expect([windingTemperature, magnetTemperature, controllerTemperature, cellTemperature].map(({ value }) => value)).toEqual(
      [90, 70, 80, 50].map(zero),
    );
    expect([reserve, batteryEnergy, runTime, limits.batteryPower].map(({ value }) => value)).toEqual([0.2, 54_000, 600, 180]);
    expect([limits.motorCurrent, limits.inputPower, limits.busVoltage, limits.cellVoltage].map(({ value }) => value)).toEqual([
      20, 200, 13, 3.4,
    ]);
    expect(limits.shaftSpeed.value).toBeCloseTo(500 * Math.PI, 9);
    expect(limits.batteryCurrent.value).toBeCloseTo(66, 9);
  });

  it('are none where nobody gave them and no rule knows one', () => {
    const limits = limitsOf({});
    for (const key of [
      'motorCurrent',
      'inputPower',
      'shaftSpeed',
      'busVoltage',
      'batteryCurrent',
      'batteryPower',
      'batteryEnergy',
    ] as const)
      expect(limits[key].value, key).toBe(Number.POSITIVE_INFINITY);
    expect([limits.reserve.value, limits.runTime.value]).toEqual([0, 0]);
  });

  it('of a supply are its current, and no cut-off', () => {
    const limits = limitsOf({ battery: { supply: '12 V', current_limit: '8 A' } });
    expect([limits.batteryCurrent.value, limits.cellVoltage.value]).toEqual([8, 0]);
    expect(limitsOf({ battery: { supply: '12 V' } }).batteryCurrent.value).toBe(Number.POSITIVE_INFINITY);
  });
});
