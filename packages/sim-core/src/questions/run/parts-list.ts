/** What was given of each part, in one line each: the list that people paste into build logs. @module */

import type { Datum } from '../../provenance/datum.js';
import { type GivenDrive, type GivenPropeller, writtenResistance } from '../../provenance/given.js';
import { type Dimension, formatNumber, formatQuantity, gaugeOfArea, type UnitOf } from '../../quantities/index.js';
import type { PartLine } from '../../results/parts-list.js';

const shown = <D extends Dimension>(datum: Datum<D> | undefined, unit: UnitOf<D>): string | undefined =>
  datum === undefined
    ? undefined
    : formatQuantity(datum.value, datum.dimension, { unit })
        // As people write it: 60 A, not 60.0 A.
        .replace(/(\.\d*?)0+(?=\D)/, '$1')
        .replace(/\.(?=\D)/, '');

/** A round gauge as it is sold; any other cross-section in mm². */
function gaugeText(area: Datum<'wireGauge'> | undefined): string | undefined {
  if (area === undefined) return undefined;
  const gauge = gaugeOfArea(area.value);
  return Math.abs(gauge - Math.round(gauge)) < 0.01 ? `${Math.round(gauge)} AWG` : shown(area, 'mm²');
}

const joined = (...parts: readonly (string | false | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== false && part !== '').join(', ');

const around = (before: string, text: string | undefined, after = ''): string | undefined =>
  text === undefined ? undefined : `${before}${text}${after}`;

/** Lines of the parts that were given; a part of which nothing was given has none. Candidates' own overrides are merged in. */
export function partsList({
  vehicle,
  motor,
  controller,
  battery,
  wiring,
  gearbox,
  propeller,
  wheel,
  cooling,
  drives,
}: GivenDrive): PartLine[] {
  const lines: readonly PartLine[] = [
    {
      id: 'vehicle',
      words: 'vehicle',
      text: joined(
        around('', shown(vehicle?.mass, 'kg'), ' without motor and battery'),
        drives !== undefined && drives > 1 && `${drives} drives`,
      ),
    },
    {
      id: 'motor',
      words: 'motor',
      text: joined(
        motor?.layout,
        around('', shown(motor?.mass, 'g')),
        motor?.can?.diameter !== undefined &&
          `can ${joined(shown(motor.can.diameter, 'mm'), shown(motor.can.length, 'mm')).replace(', ', ' × ')}`,
        motor?.poles !== undefined && `${motor.poles} poles`,
      ),
    },
    {
      id: 'windings',
      words: 'Kv and winding',
      text: joined(
        shown(motor?.kv, 'rpm/V'),
        shown(writtenResistance(motor), 'mohm'),
        motor?.noLoad?.[0] !== undefined &&
          around('no load ', shown(motor.noLoad[0].current, 'A'), around(' at ', shown(motor.noLoad[0].voltage, 'V'))),
      ),
    },
    {
      id: 'controller',
      words: 'controller',
      text: joined(
        around('limit ', shown(controller?.motorCurrentLimit, 'A')),
        shown(controller?.pathResistance, 'mohm'),
        shown(controller?.pwmFrequency, 'kHz'),
      ),
    },
    {
      id: 'battery',
      words: battery?.supply === undefined ? 'cells' : 'supply',
      text: joined(
        shown(battery?.supply, 'V'),
        around('at most ', shown(battery?.currentLimit, 'A')),
        battery?.cells !== undefined &&
          `${battery.cells.series} in series${(battery.cells.parallel ?? 1) > 1 ? `, ${battery.cells.parallel} parallel` : ''}`,
        battery?.chemistry?.replaceAll('-', ' '),
        shown(battery?.capacity, 'A·h'),
        around('', shown(battery?.cellResistance, 'mohm'), ' a cell'),
      ),
    },
    {
      id: 'wiring',
      words: 'wiring',
      text: joined(gaugeText(wiring?.gauge), shown(wiring?.length, 'cm'), shown(wiring?.resistance, 'mohm')),
    },
    {
      id: 'gearbox',
      words: 'gearbox',
      text: joined(around('', gearbox?.ratio && formatNumber(gearbox.ratio.value), ' : 1'), shown(gearbox?.efficiency, '%')),
    },
    {
      id: 'load',
      words: propeller === undefined ? 'wheel' : 'propeller',
      text: propeller === undefined ? joined(around('radius ', shown(wheel?.radius, 'mm'))) : propellerText(propeller),
    },
    {
      id: 'cooling',
      words: 'cooling',
      text: joined(
        cooling?.waterJacket !== undefined &&
          joined('water jacket', shown(cooling.waterJacket.conductance, 'W/K')) +
            (cooling.waterJacket.atSpeed === undefined ? '' : ` at ${shown(cooling.waterJacket.atSpeed, 'm/s')}`),
        cooling?.waterCoil !== undefined &&
          joined(
            'water coil',
            around('bore ', shown(cooling.waterCoil.bore, 'mm')),
            around('length ', shown(cooling.waterCoil.length, 'cm')),
            around('pump ', shown(cooling.waterCoil.pump, 'L/min')),
          ),
        cooling?.heatSink !== undefined &&
          joined(
            'heat sink',
            cooling.heatSink.fins !== undefined && `${cooling.heatSink.fins} fins`,
            around('', shown(cooling.heatSink.finHeight, 'mm'), ' high'),
          ),
        cooling?.strap !== undefined &&
          joined(
            `${cooling.strap.material ?? 'copper'} strap to the hull`,
            shown(cooling.strap.crossSection, 'mm²'),
            around('length ', shown(cooling.strap.length, 'mm')),
          ),
        cooling?.fan !== undefined && joined('fan', shown(cooling.fan.diameter, 'mm'), shown(cooling.fan.flow, 'L/min')),
        cooling?.air?.cowl !== undefined &&
          joined('cowl', around('inlet ', shown(cooling.air.cowl.inlet, 'cm²')), around('gap ', shown(cooling.air.cowl.gap, 'mm'))),
        cooling?.mount !== undefined &&
          joined('mount', shown(cooling.mount.conductance, 'W/K') ?? around('plate of ', shown(cooling.mount.plate, 'cm²'))),
        cooling?.air !== undefined &&
          `air ${shown(cooling.air.speed, 'm/s') ?? around('', shown(cooling.air.shareOfVehicleSpeed, '%'), ' of the vehicle speed') ?? around('', shown(cooling.air.shareOfSlipstream, '%'), ' of the slipstream') ?? ''}`.trimEnd(),
      ),
    },
  ];
  return lines.filter(({ text }) => text !== '');
}

function propellerText(propeller: GivenPropeller): string {
  // Propellers for air are sold by the inch, those for water by the millimetre.
  const unit = propeller.kind === 'marine-series' || propeller.medium === 'water' ? 'mm' : 'in';
  const pitch =
    'pitchRatio' in propeller && propeller.pitchRatio !== undefined
      ? `pitch ratio ${formatNumber(propeller.pitchRatio.value)}`
      : around('pitch ', 'pitch' in propeller ? shown(propeller.pitch, unit) : undefined);
  return joined(shown(propeller.diameter, unit), pitch, propeller.blades !== undefined && `${propeller.blades} blades`);
}
