/**
 * Identified on two propellers and one supply, the rest predicted: the same two on the other supply, and two more whose torque is taken from one row
 * each. Power at the measured speed, as a share of the motor's full power with that propeller. Data: StrawsonDesign, motor_propeller_testing, raw data,
 * MIT licence. The pulses of the controller are no duty: only full throttle tells voltage. 14 poles, from memory.
 * @module
 */
import { RPM } from '@shaftwork/sim-core/quantities';
import type { BenchRows } from '@shaftwork/sim-core/questions/identify/bench-rows';
import { fittedMotor } from '@shaftwork/sim-core/questions/identify/fitted-motor';
import { identifyMotor } from '@shaftwork/sim-core/questions/identify/identify-motor';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { motorModel, USUAL_PATH } from '@shaftwork/sim-core/questions/identify/motor-model';
import { csvRows } from './csv-rows.js';
import type { Point } from './outside/check.js';

const all = csvRows('thrust-stand-sweeps.csv').map((row) => ({
  motor: row['motor'],
  propeller: row['propeller'],
  supply: row['supply'],
  full: row['full'] === '1',
  volts: Number(row['supply_V']),
  amps: Number(row['supply_A']),
  speed: Number(row['rpm']) * RPM,
  thrust: Number(row['thrust_N']),
}));
type Row = (typeof all)[number];
export const STAND_MOTORS = ['A', 'B', 'C'] as const;
type StandMotor = (typeof STAND_MOTORS)[number];
const setup = { polePairs: 7, sinusoidal: false, instruments: INSTRUMENTS, windingTemperature: 313.15 };

function bench(rows: readonly Row[]): BenchRows {
  const propellers = [...new Set(rows.map(({ propeller }) => propeller))];
  const column = (of: (row: Row) => number) => Float64Array.from(rows, of);
  return {
    time: column(() => 0).map((_, k) => k),
    timed: false,
    read: {
      voltage: column(({ volts }) => volts),
      current: column(({ amps }) => amps),
      speed: column(({ speed }) => speed),
      thrust: column(({ thrust }) => thrust),
    },
    duty: column(({ full }) => (full ? 1 : Number.NaN)),
    winding: column(() => Number.NaN),
    propeller: Int32Array.from(rows, ({ propeller }) => propellers.indexOf(propeller)),
    propellers,
  };
}

const ownRows = (motor: StandMotor) => all.filter((row) => row.motor === motor);
/** The rows that it is identified on. */
const knownRows = (motor: StandMotor) =>
  ownRows(motor).filter(({ supply, propeller }) => supply === '11.1' && (propeller === 'P1' || propeller === 'P2'));

/** Power of the rest, in per cent of full power with that propeller. */
export function foretoldPower(motor: StandMotor): readonly Point[] {
  const [own, known] = [ownRows(motor), knownRows(motor)];
  const model = motorModel(bench(known), setup);
  const found = model.values(fittedMotor(model).deviates);
  const get = (key: string): number => {
    const place = model.list.findIndex((each) => each.key === key);
    return place < 0 ? Number.NaN : found[place];
  };
  // by the laws as a textbook has them, apart from the program's
  const power = ({ volts, speed }: Row, torque: number): number => {
    const [k, r] = [get('kt'), get('resistance')];
    const l = get('inductanceTime') * r;
    const i = (torque * speed ** 2 + get('constantLoss') + get('speedLoss') * speed) / k;
    const v = r * i + k * speed + 0.0128;
    const duty = Math.min(1, (v + (3 / (2 * Math.PI)) * 7 * l * speed * i) / volts);
    return v * i + 0.0016 * volts * i + get('idle') * volts + (get('ripple') / l) * (volts * duty * (1 - duty)) ** 2;
  };
  const points: Point[] = [];
  for (const propeller of ['P1', 'P2', 'P3', 'P4']) {
    const rows = own.filter((row) => row.propeller === propeller);
    const most = Math.max(...rows.map(({ volts, amps }) => volts * amps));
    let torque = get(`torque:${propeller}`);
    let spent: Row | undefined;
    if (Number.isNaN(torque)) {
      spent = rows.filter(({ supply }) => supply === '11.1').reduce((a, b) => (a.speed > b.speed ? a : b));
      let [low, high] = [1e-10, 1e-6];
      for (let n = 0; n < 60; n++) {
        const middle = Math.sqrt(low * high);
        if (power(spent, middle) < spent.volts * spent.amps) low = middle;
        else high = middle;
      }
      torque = low;
    }
    for (const row of rows) {
      if (known.includes(row) || row === spent) continue;
      points.push({
        at: `${propeller}, ${row.supply} V, ${(row.speed / RPM).toFixed(0)} rpm`,
        theirs: (100 * row.volts * row.amps) / most,
        ours: (100 * power(row, torque)) / most,
      });
    }
  }
  return points;
}

/** The resistance that propeller sweeps cannot tell. */
export function untoldResistance(motor: StandMotor) {
  const { numbers } = identifyMotor({ rows: bench(knownRows(motor)), setup, sources: ['stand'], taken: [], path: USUAL_PATH });
  return numbers.find(({ key }) => key === 'whole');
}
