/** An outrunner whose sheet and run are as most are: what the tests of the audit change one thing of. */
import { type SheetFigures, sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { OUTRUNNER, preparedOf } from '../../provenance/drives.js';
import { FULL } from '../judge/simulated.js';

export const [input] = preparedOf({
  motor: { ...OUTRUNNER, maker_limits: { current: '20 A', voltage: '12.5 V', input_power: '200 W', shaft_speed: '20000 rpm' } },
}).candidates;
export const run = runCandidate(input, FULL);
/** Its rated current would overheat it, which is a remark of its own. */
export const sheet = { ...sheetFigures(input, run), rated: undefined };
/** Motor constant over which outrunners of its 66 g scatter. */
export const usual = 0.3 * 0.066 ** (5 / 6);
/** Figures of a run that nothing is remarked of. */
export const usualRun: SheetFigures = {
  ...sheet,
  loadedSpeedRatio: 0.8,
  noLoadEnergy: 10,
  copperEnergy: 10,
  inputEnergy: 500,
  meanInput: 80,
  tipMach: 0.4,
  dischargeRate: 10 / 3600,
};
