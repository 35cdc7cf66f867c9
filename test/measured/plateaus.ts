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
import { type Compared, type Section, validationRow } from './validation.js';

/** Rows with hardly any torque tell the torque sensor's zero, and power that is not drawn cannot be a share. */
const LEAST_TORQUE = 0.1;
/** Pole pairs of outrunners of this size, from memory. */
const POLE_PAIRS = 14;
const KAPPA = 9e-6;

interface Plateau {
  readonly volts: number;
  readonly power: number;
  readonly speed: number;
  readonly torque: number;
}

const point = emptyChainPoint();
/** Power [W] by the model for natural logarithms of k_t [N·m/A], R [Ω], constant loss torque [N·m], loss torque per speed [N·m·s], L [H]. */
function powerOf(parameters: readonly number[], { volts, speed, torque }: Plateau): number {
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

export function plateaus(path: string): Section {
  const rows: readonly Plateau[] = readTable(readFileSync(path, 'utf8'))
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
  const { parameterValues: found } = levenbergMarquardt(
    { x: identifiedOn.map((_, k) => k), y: identifiedOn.map(() => 1) },
    (parameters) => (k) => powerOf(parameters, identifiedOn[k]!) / identifiedOn[k]!.power,
    { initialValues: START, damping: 1, maxIterations: 200, gradientDifference: 1e-4, errorTolerance: 1e-12 },
  );
  const [kt, resistance, , , inductance] = found.map(Math.exp) as [number, number, number, number, number];
  const row = (quantity: string, of: readonly Plateau[]) =>
    validationRow(
      'large outrunner, two propellers',
      quantity,
      of.map((each): Compared => ({ predicted: powerOf(found, each), measured: each.power })),
    );
  return {
    data: `Kennesaw State University UAS bench data, steady means; the motor's data are not stated. Identified at 20–30 V by least squares: Kv ${(1 / kt / RPM).toFixed(0)} rpm/V,
${(1000 * resistance).toFixed(0)} mΩ with leads and controller, ${(1e6 * inductance).toFixed(0)} µH, and two loss torques; the other voltages judge. Duty follows from the model.`,
    rows: [
      row('power at speed and torque, 20–30 V, fitted', identifiedOn),
      row(
        'power below 20 V',
        judgedOn.filter(({ volts }) => volts < 20),
      ),
      row(
        'power above 30 V',
        judgedOn.filter(({ volts }) => volts > 30),
      ),
      row('power at all other voltages', judgedOn),
    ],
  };
}
