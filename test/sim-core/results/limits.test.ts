import { HEAT_LIMIT_BODY, HEAT_LIMITS, isHeatLimit } from '@shaftwork/sim-core/drive/heat-limits';
import { isKernelEvent, KERNEL_EVENTS } from '@shaftwork/sim-core/kernel/event-margins';
import { limitBits } from '@shaftwork/sim-core/questions/doubt/sample';
import { BODY_CHANNEL, CHANNELS } from '@shaftwork/sim-core/results/channels';
import { byLimit, isPast, isSet, LIMIT_IDS, LIMITS } from '@shaftwork/sim-core/results/limits';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

describe('the list of limits', () => {
  it('names every bound that a drive has, and no other', () => {
    const [{ data }] = demo('survey-boat').candidates;
    expect([...LIMIT_IDS].sort()).toEqual(Object.keys(data.limits).sort());
  });

  it.each(LIMIT_IDS)('%s: is watched in the unit of its channel, and by an event where it is run into', (id) => {
    const { watched, dimension, shown, chosen } = LIMITS[id];
    if (watched === 'drawn' || watched === 'lasting') {
      expect(isKernelEvent(id)).toBe(false);
      return;
    }
    expect([dimension, shown]).toEqual([CHANNELS[watched].dimension, CHANNELS[watched].shown]);
    expect(isKernelEvent(id)).toBe(chosen !== true);
  });

  it('has an event for a limit of every name that both lists know', () => {
    const named = KERNEL_EVENTS.filter((event) => (LIMIT_IDS as readonly string[]).includes(event));
    expect(named.length).toBe(LIMIT_IDS.filter((id) => isKernelEvent(id)).length);
    expect(named.length).toBeGreaterThan(8);
  });

  it('heat limits are exactly those of temperature, each on its body’s channel', () => {
    expect(LIMIT_IDS.filter((id) => LIMITS[id].dimension === 'temperature')).toEqual([...HEAT_LIMITS]);
    for (const id of HEAT_LIMITS) expect(LIMITS[id].watched).toBe(BODY_CHANNEL[HEAT_LIMIT_BODY[id]]);
    expect(LIMIT_IDS.filter(isHeatLimit)).toEqual([...HEAT_LIMITS]);
  });

  it('a bit for each, so that sets of passed limits can be told apart', () => {
    const bits = LIMIT_IDS.map((id) => limitBits([id]));
    expect(new Set(bits).size).toBe(LIMIT_IDS.length);
    expect(limitBits(LIMIT_IDS)).toBe(2 ** LIMIT_IDS.length - 1);
    // a row carries them as one number, which bitwise operators take up to 31 bits of
    expect(LIMIT_IDS.length).toBeLessThanOrEqual(31);
  });

  it('a bound that stands for none sets no limit; a ceiling is passed upwards, a floor downwards', () => {
    const none = byLimit((id) => (LIMITS[id].offAtZero ? 0 : Number.POSITIVE_INFINITY));
    for (const id of LIMIT_IDS) {
      expect(isSet(id, none[id]), id).toBe(false);
      expect(isSet(id, 1), id).toBe(true);
      // nothing at all may be drawn, or nothing is kept
      expect(isSet(id, 0), id).toBe(LIMITS[id].offAtZero !== true);
      expect([isPast(id, 2, 1), isPast(id, 0.5, 1), isPast(id, Number.NaN, 1)], id).toEqual([
        LIMITS[id].sense === 'ceiling',
        LIMITS[id].sense === 'floor',
        false,
      ]);
      expect(isPast(id, 1, 1), id).toBe(false);
    }
  });

  it('says of each what is limited, in words of its own', () => {
    const rows = LIMIT_IDS.map((id) => LIMITS[id]);
    for (const of of [rows.map(({ words }) => words), rows.map(({ quantity }) => quantity)]) {
      expect(new Set(of).size).toBe(rows.length);
      expect(of).not.toContain('');
    }
    // who sets the limit stands in brackets behind the quantity
    for (const { words, quantity } of rows) expect(words.replace(/ \(.*\)$/, '')).toBe(quantity);
  });

  it('charge and time left are kept, cells held up; of all else there is a most', () => {
    expect(LIMIT_IDS.filter((id) => LIMITS[id].sense === 'floor')).toEqual(['cellVoltage', 'reserve', 'runTime']);
    expect(LIMIT_IDS.filter((id) => LIMITS[id].offAtZero)).toEqual(['reserve', 'runTime']);
    expect(LIMIT_IDS.filter((id) => LIMITS[id].eitherWay)).toEqual(['motorCurrent', 'inputPower']);
    expect(LIMIT_IDS.filter((id) => LIMITS[id].missed)).toEqual(['motorCurrent', 'batteryCurrent']);
    expect(LIMIT_IDS.filter((id) => LIMITS[id].watched === 'drawn')).toEqual(['batteryEnergy']);
    expect(LIMIT_IDS.filter((id) => LIMITS[id].watched === 'lasting')).toEqual(['runTime']);
  });
});
