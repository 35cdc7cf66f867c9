/** What flows in and out at one moment: nothing is lost between the terms and the streams, and what gives back flows in. */
import { POWER_TERM_IDS, type PowerAccount } from '@shaftwork/sim-core/drive/power-terms';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { atBattery, drivesOnPack, hasFlow, inflow, outflows, percentText, wattText } from '@shaftwork/sim-core/words/flow-account';
import { describe, expect, it } from 'vitest';

const account = (more: Partial<PowerAccount>): PowerAccount => ({ ...recordOf(POWER_TERM_IDS, () => 0), ...more });
const moment = (power: PowerAccount, batteryPower = 0) => ({ power, channels: { batteryPower } }) as CandidateResult['moment'];

describe('a moment', () => {
  it('lets out all terms but what comes from the cells and what is useful, each once', () => {
    const power = account(recordOf(POWER_TERM_IDS, (_, k) => 2 ** k));
    const streams = outflows(power);
    const told = streams.flatMap(({ terms }) => terms);
    expect([...told].sort()).toEqual(POWER_TERM_IDS.filter((id) => !['batteryChemical', 'useful'].includes(id)).sort());
    for (const { terms, power: sum } of streams) expect(sum).toBe(terms.reduce((total, term) => total + power[term], 0));
  });
  it('tells the motor’s heat apart', () => {
    const heats = outflows(account(recordOf(POWER_TERM_IDS, () => 1))).filter(({ heatsMotor }) => heatsMotor);
    expect(heats.flatMap(({ terms }) => terms).sort()).toEqual(['copperLoss', 'frictionLoss', 'ironLoss']);
  });
  it('leaves out what is nothing or flows in', () => {
    expect(outflows(account({ copperLoss: 3, gearLoss: 0, polarisationStored: -2 })).map(({ words }) => words)).toHaveLength(1);
    expect(inflow(account({ batteryChemical: 10, polarisationStored: -2 }))).toBe(12);
    expect(inflow(account({ batteryChemical: 10, shaftStored: -3 }))).toBe(13);
    expect(inflow(account({ batteryChemical: 10, polarisationStored: 2, shaftStored: 3 }))).toBe(10);
  });
  it('gives at the pack’s terminals what its cells do not keep', () => {
    const power = account({ batteryChemical: 100, batteryLoss: 8, polarisationStored: 2 });
    expect(atBattery(power)).toBe(90);
    expect([drivesOnPack(moment(power, 90)), drivesOnPack(moment(power, 178)), drivesOnPack(moment(power, 10))]).toEqual([1, 2, 1]);
  });
  it('is no flow where nothing flows in or something flows back', () => {
    const flows = (more: Partial<PowerAccount>) => hasFlow({ moment: moment(account(more)) } as CandidateResult);
    expect(flows({ batteryChemical: 10, useful: 5 })).toBe(true);
    expect(flows({ batteryChemical: 10, useful: 0 })).toBe(true);
    expect(flows({ batteryChemical: 0, useful: 5 })).toBe(false);
    expect(flows({ batteryChemical: 10, useful: -1 })).toBe(false);
    expect(flows({ batteryChemical: 10, useful: Number.POSITIVE_INFINITY })).toBe(false);
  });
});

it('watts have a digit more below ten, shares one', () => {
  const plain = (text: string): string => text.replaceAll('\u202f', ' ');
  expect([9.94, 9.96, 45.6].map((watts) => plain(wattText(watts)))).toEqual(['9.9 W', '10 W', '46 W']);
  expect([0.1234, 0.05678].map((share) => plain(percentText(share)))).toEqual(['12.3 %', '5.7 %']);
});
