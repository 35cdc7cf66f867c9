/** The list of channels: every symbol, word and JSON key once, each body's temperature by its own. */
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { unitSign } from '@shaftwork/sim-core/quantities';
import { BODY_CHANNEL, byTemperatureChannel, CHANNEL_IDS, CHANNELS, TEMPERATURE_CHANNELS } from '@shaftwork/sim-core/results/channels';
import { expect, it } from 'vitest';

it('no two have one name or symbol', () => {
  const rows = CHANNEL_IDS.map((id) => CHANNELS[id]);
  for (const of of [rows.map(({ words }) => words), rows.map(({ symbol }) => symbol)]) {
    expect(new Set(of).size).toBe(of.length);
    expect(of).not.toContain('');
  }
});
it('each shows digits that say something: whole degrees and watts, tenths of an ampere, hundredths of a volt', () => {
  const digits = { temperature: 0, power: 0, fraction: 0, angularSpeed: 0, current: 1, force: 1, voltage: 2, torque: 3 };
  for (const id of CHANNEL_IDS) {
    const { dimension, decimals } = CHANNELS[id];
    if (dimension !== 'speed') expect(decimals, id).toBe(digits[dimension]);
  }
});
it('the suffix of a JSON key says the unit that is shown', () => {
  const spelled = (unit: string): string => unit.replace('·', '').replace('/', '_per_').replace('°', 'deg').replace('%', 'percent');
  for (const id of CHANNEL_IDS) expect(CHANNELS[id].suffix, id).toBe(spelled(unitSign(CHANNELS[id].shown)));
});
it('bodies have their temperatures, in their order, and nothing else is one', () => {
  expect(TEMPERATURE_CHANNELS).toEqual(BODIES.map((body) => BODY_CHANNEL[body]));
  expect(CHANNEL_IDS.filter((id) => CHANNELS[id].dimension === 'temperature')).toEqual([...TEMPERATURE_CHANNELS]);
  const found = byTemperatureChannel((body, id) => `${body} ${id}`);
  expect(found.windingTemperature).toBe('winding windingTemperature');
  expect(Object.keys(found)).toEqual([...TEMPERATURE_CHANNELS]);
});
