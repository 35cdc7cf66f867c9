/**
 * One large outrunner with two propellers at 11 to 59 V, steady means (checks/measured/plateaus.csv: Kennesaw State University UAS bench data). What
 * the motor is is not stated: torque constant, resistance, two loss torques and inductance are identified by least squares at 20 to 30 V, where speed
 * and torque give the power; the other voltages judge. Duty is found by the model: the controller's pulse is none.
 */
import { readFileSync } from 'node:fs';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import {
  type ElectricalChain,
  emptyChainPoint,
  emptyElectricalChain,
  solveForCurrent,
} from '../../packages/sim-core/src/drive/electrical-chain.js';
import { RPM } from '../../packages/sim-core/src/quantities/index.js';
import { readTable } from './read-table.js';
import { type Compared, markdownTable, validationRow, writeSection } from './validation.js';

const [path, ...options] = process.argv.slice(2);
if (path === undefined) {
  process.stderr.write('Give the table: columns propeller, supply_V, supply_A, rpm, torque_Nm, valid.\n');
  process.exit(2);
}
/** Rows with hardly any torque tell the torque sensor's zero, and power that is not drawn cannot be a share. */
const LEAST_TORQUE = 0.1;
/** Pole pairs of outrunners of this size, from memory. */
const POLE_PAIRS = 14;
const KAPPA = 9e-6;
const rows = readTable(readFileSync(path, 'utf8'))
  .filter((row) => row['valid'] === '1')
  .map((row) => ({
    volts: Number(row['supply_V']),
    power: Number(row['supply_V']) * Number(row['supply_A']),
    speed: Number(row['rpm']) * RPM,
    torque: Number(row['torque_Nm']),
  }))
  .filter(({ torque, speed, power }) => torque > LEAST_TORQUE && speed > 0 && power > 0);
const identifiedOn = rows.filter(({ volts }) => volts >= 20 && volts <= 30);
const judgedOn = rows.filter(({ volts }) => volts < 20 || volts > 30);

const point = emptyChainPoint();
/** Power [W] by the model for natural logarithms of k_t [N·m/A], R [Ω], constant loss torque [N·m], loss torque per speed [N·m·s], L [H]. */
function powerOf(parameters: readonly number[], { volts, speed, torque }: (typeof rows)[number]): number {
  const [kt, resistance, constant, perSpeed, inductance] = parameters.map(Math.exp) as [number, number, number, number, number];
  const chain: ElectricalChain = {
    ...emptyElectricalChain(),
    emf: volts,
    sourceResistance: 1e-9,
    idleCurrent: 0.06,
    windingResistance: resistance,
    reactiveShare: ((3 / (2 * Math.PI)) * POLE_PAIRS * inductance) / kt,
    rippleLoss: KAPPA / inductance,
  };
  // out of reach of the voltage is out of the model's: the power is then that of the impossible duty
  solveForCurrent(chain, (torque + constant + perSpeed * speed) / kt, kt * speed, point);
  return point.busVoltage * point.busCurrent;
}

const START = [0.07, 0.03, 0.05, 1e-4, 1e-5].map(Math.log);
const fit = levenbergMarquardt(
  { x: identifiedOn.map((_, k) => k), y: identifiedOn.map(() => 1) },
  (parameters) => (k) => powerOf(parameters, identifiedOn[k]!) / identifiedOn[k]!.power,
  { initialValues: START, damping: 1, maxIterations: 200, gradientDifference: 1e-4, errorTolerance: 1e-12 },
);
const found = fit.parameterValues;
const [kt, resistance, , , inductance] = found.map(Math.exp) as [number, number, number, number, number];
const off = (of: typeof rows): Compared[] => of.map((row) => ({ predicted: powerOf(found, row), measured: row.power }));
const NAME = 'large outrunner, two propellers';
const table = markdownTable([
  validationRow(NAME, 'power at speed and torque, 20–30 V, fitted', off(identifiedOn)),
  validationRow(NAME, 'power below 20 V', off(judgedOn.filter(({ volts }) => volts < 20))),
  validationRow(NAME, 'power above 30 V', off(judgedOn.filter(({ volts }) => volts > 30))),
  validationRow(NAME, 'power at all other voltages', off(judgedOn)),
]);
const constants = `Kv ${(1 / kt / RPM).toFixed(0)} rpm/V, ${(1000 * resistance).toFixed(0)} mΩ with leads and controller, ${(1e6 * inductance).toFixed(0)} µH`;
process.stdout.write(`${constants}\n${table}\n`);
if (options.includes('--write'))
  writeSection(
    'A large outrunner from 11 to 59 V',
    `Kennesaw State University UAS bench data, steady means; the motor's data are not stated. Identified at 20–30 V by least squares: ${constants}, and two loss
torques; the other voltages judge. Duty follows from the model.

${table}`,
  );
