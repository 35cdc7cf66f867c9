/** Pack, controller and wiring from what was given. @module */

import type { Battery } from '../../parts/battery/battery.js';
import { curveFromTable, openCircuitCurve } from '../../parts/battery/open-circuit.js';
import type { Controller } from '../../parts/controller.js';
import type { Dimension } from '../../quantities/index.js';
import type { Data, Datum } from '../datum.js';
import type { Chemistry, GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

/** Of all cells in a row. */
const nominalVoltage = (fill: Filler, chemistry: Chemistry, cells: number): Datum<'voltage'> =>
  fill.by('nominal-voltage', { cell: fill.ofKind('cell-voltage', chemistry), cells: fill.fixed('cells-in-series', cells) });

/** A bench supply: one cell whose voltage stays, without resistance, that never empties and is not carried. */
export function benchSupply(fill: Filler, supply: Datum<'voltage'>): Battery<Data> {
  const so = <D extends Dimension>(dimension: D, value: number): Datum<D> => fill.without('of-a-supply', dimension, value);
  return {
    chemistry: 'supply',
    cellsInSeries: 1,
    cellsInParallel: 1,
    capacity: so('charge', Number.POSITIVE_INFINITY),
    cellResistance: so('resistance', 0),
    polarisationResistance: so('resistance', 1e-9),
    polarisationTime: so('time', 1),
    activation: so('temperatureDifference', 0),
    activatedShare: so('fraction', 0),
    emptyRise: so('ratio', 0),
    emptyRiseWidth: so('fraction', 1),
    surfaceLag: so('time', 0),
    voltageOffset: supply,
    mass: so('mass', 0),
    openCircuit: curveFromTable('supply', [
      [0, 0],
      [1, 0],
    ]),
  };
}

export function completeBattery(fill: Filler, given: GivenDrive): Battery<Data> {
  const pack = given.battery;
  if (pack?.supply !== undefined) return benchSupply(fill, pack.supply);
  const place = pack?.place ?? { ...given.place, path: 'battery' };
  const chemistry = fill.choose('chemistry', pack?.chemistry);
  const series = pack?.cells?.series ?? 1;
  const parallel = fill.choose('parallel-strings', pack?.cells?.parallel);
  if (pack?.cells === undefined) fill.missing(place, 'cells', 'cells in series', 'printed on the pack as 4S, or its voltage over 3.7 V');
  const capacity = fill.need(pack?.capacity, 'charge', place, 'capacity', 'printed on the pack in mAh');
  const cellCapacity =
    parallel === 1 ? capacity : fill.by('cell-capacity', { capacity, strings: fill.fixed('parallel-strings', parallel) });
  const rating = pack?.dischargeRating ?? fill.ofKind('usual-rating', chemistry);
  const cellResistance =
    pack?.cellResistance ??
    (chemistry === 'nickel-metal-hydride'
      ? fill.by('cell-resistance-nickel-metal-hydride', { capacity: cellCapacity })
      : fill.by('cell-resistance-lithium', { capacity: cellCapacity, rating }));
  const voltage = nominalVoltage(fill, chemistry, series);
  return {
    chemistry,
    cellsInSeries: series,
    cellsInParallel: parallel,
    capacity,
    cellResistance,
    polarisationResistance:
      pack?.polarisation?.resistance ??
      fill.by(chemistry === 'nickel-metal-hydride' ? 'slow-resistance-nickel' : 'slow-resistance-lithium', { ohmic: cellResistance }),
    polarisationTime: pack?.polarisation?.time ?? fill.by('slow-time'),
    activation: fill.by('cell-activation'),
    activatedShare: fill.by('activated-resistance'),
    emptyRise: fill.by('resistance-near-empty'),
    emptyRiseWidth: fill.ofKind('resistance-near-empty-width', chemistry),
    surfaceLag: fill.by('surface-lag', { rating }),
    voltageOffset: fill.by('open-circuit-error'),
    mass: pack?.mass ?? fill.by('pack-mass', { capacity, voltage }),
    openCircuit:
      pack?.openCircuit === undefined
        ? openCircuitCurve(chemistry)
        : curveFromTable(
            'given',
            pack.openCircuit.map((row) => [row.charge, row.voltage] as const),
          ),
  };
}

type Switches = Pick<Controller<Data>, 'pathResistance' | 'switchingTime' | 'pwmFrequency' | 'deadTime' | 'deadTimeDrop' | 'idleCurrent'>;

/** What a controller at full throttle takes for itself: all that a reading of the motor needs to be freed of. */
export const completeSwitches = (fill: Filler, { controller: esc }: GivenDrive): Switches => ({
  pathResistance: esc?.pathResistance ?? fill.by('path-resistance'),
  switchingTime: esc?.switchingTime ?? fill.by('switching-time'),
  pwmFrequency: esc?.pwmFrequency ?? fill.by('pwm-frequency'),
  deadTime: esc?.deadTime ?? fill.by('dead-time'),
  deadTimeDrop: fill.by('dead-time-drop'),
  idleCurrent: esc?.idleCurrent ?? fill.by('idle-current'),
});

export function completeController(fill: Filler, given: GivenDrive, cells: number, inductance: Datum<'inductance'>): Controller<Data> {
  const esc = given.controller;
  const voltage = given.battery?.supply ?? nominalVoltage(fill, fill.choose('chemistry', given.battery?.chemistry), cells);
  const derating = esc?.derating;
  if (esc !== undefined && derating !== undefined) {
    const conflict = (found: string, hint: string): void => {
      fill.problems.push({
        kind: 'conflict',
        place: { ...esc.place, path: `${esc.place.path}.derating` },
        expected: 'a derating from one temperature to a higher one',
        found,
        hint,
      });
    };
    if (derating.from === undefined || derating.to === undefined) conflict('only one of them', 'give both from and to');
    else if (!(derating.to.value > derating.from.value))
      conflict('an end below its beginning', 'the current is full below from and nothing above to');
    if (esc?.motorCurrentLimit === undefined) conflict('no motor current limit', 'what falls is motor_current_limit: give it too');
  }
  return {
    ...completeSwitches(fill, given),
    resistanceCoefficient: fill.by('device-temperature-coefficient'),
    rippleConstant:
      esc?.voltageLoss === undefined
        ? fill.by('ripple-constant')
        : fill.by('ripple-constant-from-power', { loss: esc.voltageLoss, voltage, inductance }),
    rippleInMotor: esc?.voltageLoss === undefined ? fill.by('ripple-in-motor') : fill.by('ripple-in-controller'),
    deratingFrom: esc?.derating?.from ?? fill.by('no-derating'),
    deratingTo: esc?.derating?.to ?? fill.by('no-derating'),
    diodeDrop: esc?.freewheeling === 'diode' ? fill.by('diode-drop') : fill.by('no-diode'),
    motorCurrentLimit: esc?.motorCurrentLimit ?? fill.without('no-limit', 'current', Number.POSITIVE_INFINITY),
    batteryCurrentLimit: esc?.batteryCurrentLimit ?? fill.without('no-limit', 'current', Number.POSITIVE_INFINITY),
    mass: esc?.mass ?? fill.by('controller-mass'),
    braking: fill.choose('braking', esc?.braking),
    drive: fill.choose('drive', esc?.drive),
  };
}

export function completeWiring(fill: Filler, given: GivenDrive): Datum<'resistance'> {
  const wiring = given.wiring;
  if (wiring?.resistance !== undefined) return wiring.resistance;
  return fill.by('wiring-from-gauge', {
    area: wiring?.gauge ?? fill.by('wire-area'),
    length: wiring?.length ?? fill.by('wire-length'),
    plugs: wiring?.connectors === undefined ? fill.by('connector-count') : fill.fixed('connectors-written', wiring.connectors),
    contact: fill.by('connector-contact'),
  });
}
