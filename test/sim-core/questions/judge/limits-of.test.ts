/** How a run stands to its limits: margins, shares of the way, when and how long, from curves drawn by hand. */
import { damageTemperatures } from '@shaftwork/sim-core/drive/damage';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { lastingOf, limitsOf, meetsLimits, originOf, worstOf } from '@shaftwork/sim-core/questions/judge/limits-check';
import { recordingOf } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { LimitId } from '@shaftwork/sim-core/results/limits';
import { describe, expect, it } from 'vitest';
import { dataOf, OUTRUNNER, type Section } from '../../provenance/drives.js';
import { limitResult } from '../../words/limit-result.js';
import { simulated, withExtremes, withTrace } from './simulated.js';

const maker_limits = { current: '20 A', voltage: '13 V', input_power: '200 W', shaft_speed: '15000 rpm' };
const drive: Section = {
  ambient: { air: '20 °C' },
  battery: {
    cells: { series: 3 },
    capacity: '2.2 Ah',
    discharge_rating: '10 C',
    open_circuit: [
      { charge: '0 %', voltage: '3.2 V' },
      { charge: '100 %', voltage: '4.2 V' },
    ],
  },
  motor: { ...OUTRUNNER, maker_limits, insulation_class: 'F' },
  limits: { reserve: '20 %', energy: '2 Wh', run_time: '10 min', controller: '80 °C' },
};
const data = dataOf(drive);
const run = simulated(data);
const peak = (value: number, time = 1) => ({ value, time });
const of = (id: LimitId, simulation = run, lasting = 700) => limitsOf(simulation, data, lasting).find((limit) => limit.id === id);

describe('a limit', () => {
  it('has its margin in its own unit, and as a share of the way from where the run starts', () => {
    // 20 to 155 °C, 110 reached
    const hot = withExtremes(run, { windingTemperature: peak(383.15, 1.5) });
    expect(of('windingTemperature', hot)).toMatchObject({
      bound: 428.15,
      worst: 383.15,
      worstTime: 1.5,
      start: 293.15,
      margin: 45,
      marginShare: expect.closeTo(45 / 135, 12),
      sense: 'ceiling',
    });
    // a floor: the charge from all to a fifth, half left
    expect(of('reserve', withExtremes(run, {}, { charge: peak(0.5) }))).toMatchObject({
      start: 1,
      margin: 0.3,
      marginShare: expect.closeTo(0.3 / 0.8, 12),
    });
    // 3.3 V from a full cell's 4.2, at rest
    expect(of('cellVoltage', withExtremes(run, {}, { cellVoltage: peak(3.6) }))).toMatchObject({
      start: expect.closeTo(4.2, 9),
      marginShare: expect.closeTo(0.3 / 0.9, 9),
    });
    // everything else from nothing
    expect(of('motorCurrent', withExtremes(run, { motorCurrent: peak(15) }))).toMatchObject({ start: 0, margin: 5, marginShare: 0.25 });
  });

  it('that lies where the run starts has its margin as it is', () => {
    const { controllerTemperature: bound, ...others } = data.limits;
    const low = { ...data, limits: { ...others, controllerTemperature: { ...bound, value: 293.15 } } };
    const told = limitsOf(run, low, 700).find(({ id }) => id === 'controllerTemperature');
    expect(told?.start).toBe(told?.bound);
    expect(told?.margin).toBeLessThan(0);
    expect(told?.marginShare).toBe(told?.margin);
  });

  it('of the cells’ voltage begins where this pack’s cells rest', () => {
    const { value } = data.battery.voltageOffset;
    const off = { ...data, battery: { ...data.battery, voltageOffset: { ...data.battery.voltageOffset, value: value + 0.05 } } };
    expect(limitsOf(run, off, 700).find(({ id }) => id === 'cellVoltage')?.start).toBeCloseTo(4.25, 9);
  });

  it('that is reached to the digit is not passed', () => {
    const just = of('motorCurrent', withExtremes(run, { motorCurrent: peak(20) }));
    expect(just?.margin).toBe(0);
    expect(just).not.toHaveProperty('passed');
  });

  it('of a current and an input power holds braking as well', () => {
    const braking = withExtremes(
      run,
      { motorCurrent: peak(8), batteryCurrent: peak(8) },
      { motorCurrent: peak(-18, 0.7), batteryCurrent: peak(-50) },
    );
    expect(of('motorCurrent', braking)).toMatchObject({ worst: 18, worstTime: 0.7 });
    expect(of('batteryCurrent', braking)).toMatchObject({ worst: 8 });
    expect(of('motorCurrent', withExtremes(run, { motorCurrent: peak(8) }, { motorCurrent: peak(-7) }))).toMatchObject({ worst: 8 });
  });

  it('that comes with the parts is told only where it is too high', () => {
    expect(of('busVoltage', withExtremes(run, { busVoltage: peak(12.9) }))).toBeUndefined();
    expect(of('busVoltage', withExtremes(run, { busVoltage: peak(13.2) }))).toMatchObject({ margin: expect.closeTo(-0.2, 9) });
  });

  it('that nobody set is not told', () => {
    expect(
      limitsOf(simulated(dataOf()), dataOf())
        .map(({ id }) => id)
        .sort(),
    ).toEqual(['windingTemperature', 'magnetTemperature', 'controllerTemperature', 'cellTemperature', 'cellVoltage'].sort());
  });

  it('is assumed where neither a number nor a class or grade was given, and says where it is from', () => {
    const limits = limitsOf(run, data, 700);
    const assumed = limits.filter((limit) => limit.assumed).map(({ id }) => id);
    expect(assumed.sort()).toEqual(['cellTemperature', 'cellVoltage', 'magnetTemperature']);
    expect(originOf(data.limits.windingTemperature)).toBe('winding limit by insulation class, IEC 60085');
    expect(originOf(data.limits.controllerTemperature)).toBe('a.yaml line 1');
  });

  it('the nearest comes first', () => {
    const shares = limitsOf(run, data, 700).map(({ marginShare }) => marginShare);
    expect(shares.length).toBeGreaterThan(8);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it('on time and on energy watch their own accounts', () => {
    expect(of('runTime', run, 700)).toMatchObject({ bound: 600, worst: 700, margin: 100 });
    expect(of('runTime', run, 500)).toMatchObject({ margin: -100, passed: { at: 500 } });
    const drawn = { energy: 9000, passedAt: 1.25 };
    expect(of('batteryEnergy', { ...run, drawn })).toMatchObject({ bound: 7200, worst: 9000, margin: -1800, passed: { at: 1.25 } });
    expect(of('batteryEnergy', { ...run, drawn: { energy: 7000, passedAt: undefined } })).toMatchObject({ margin: 200 });
    expect(worstOf('batteryEnergy', { ...run, drawn: undefined }, 0).value).toBeNaN();
  });
});

describe('a limit that is passed', () => {
  const over = withExtremes(run, { motorCurrent: peak(30, 3) });
  it('tells when first, by its event, else at its worst', () => {
    expect(of('motorCurrent', { ...over, passed: new Map([['motorCurrent', 1.2]]) })).toMatchObject({ passed: { at: 1.2 }, margin: -10 });
    expect(of('motorCurrent', { ...over, passed: new Map() })).toMatchObject({ passed: { at: 3 } });
    expect(of('motorCurrent', { ...withExtremes(run, { motorCurrent: peak(19) }), passed: new Map() })).not.toHaveProperty('passed');
  });

  it('how long in all, between straight lines', () => {
    const lasting = (time: readonly number[], motorCurrent: readonly number[]) =>
      of('motorCurrent', withTrace(over, time, { motorCurrent }))?.passed?.lasting;
    // up through 20 A after half a second, past it for two, and down in a quarter of one
    expect(lasting([0, 1, 3, 4], [10, 30, 30, -10])).toBeCloseTo(0.5 + 2 + 0.25, 12);
    // braking counts as driving does, on its own side: from −30 up through −20 A in a quarter
    expect(lasting([0, 1, 2], [-30, -30, 10])).toBeCloseTo(1 + 0.25, 12);
    expect(lasting([0, 1], [30, -30])).toBeCloseTo(2 / 6, 12);
    expect(lasting([0, 1, 2], [10, 15, 19])).toBeUndefined();
    expect(lasting([0, 1e-3], [30, 30])).toBe(1e-3);
    // a touch is nothing
    expect(lasting([0, 1, 1.0005, 2], [10, 20, 20.0001, 10])).toBeUndefined();
    expect(lasting([0, 1, 1.1, 2], [20, 20, 20, 20])).toBeUndefined();
  });

  it('of a floor below it', () => {
    const low = withExtremes(run, {}, { charge: peak(0.1) });
    expect(of('reserve', withTrace(low, [0, 2, 4, 5], { charge: [0.4, 0, 0, 0.4] }))?.passed?.lasting).toBeCloseTo(1 + 2 + 0.5, 12);
  });

  it('is not counted where nothing was recorded, nor for what is no curve', () => {
    expect(of('motorCurrent', { ...over, recorded: undefined })?.passed).not.toHaveProperty('lasting');
    expect(of('runTime', run, 500)?.passed).not.toHaveProperty('lasting');
    expect(recordingOf(run).trace.time.length).toBeGreaterThan(1);
  });
});

describe('a run', () => {
  it('meets its limits where it came to its end and passed none', () => {
    const kept = limitResult({ id: 'motorCurrent' });
    expect(meetsLimits({ end: 'finished' }, [kept])).toBe(true);
    expect(meetsLimits({ end: 'finished' }, [limitResult({ id: 'motorCurrent', worst: 30 })])).toBe(true);
    expect(meetsLimits({ end: 'cut-off' }, [kept])).toBe(false);
    expect(meetsLimits({ end: 'finished' }, [kept, limitResult({ id: 'motorCurrent', worst: 31, passed: { at: 3 } })])).toBe(false);
  });
  it('lasts to the reserve where one is asked for, else as long as it was driven', () => {
    const again = { time: 900, passed: new Map([['reserve', 640]] as const) };
    expect([lastingOf(again, 0.2), lastingOf(again, 0), lastingOf({ ...again, passed: new Map() }, 0.2)]).toEqual([640, 900, 900]);
  });
  it('is burnt above the damage of its parts, which no limit lowers', () => {
    const { windingTemperature } = damageTemperatures(realise(data).limits);
    expect(windingTemperature).toBe(593.15);
  });
});
