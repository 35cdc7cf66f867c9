/** What was given of each part, in one line each: the list that people paste into build logs. @module */

import type { Datum } from '../../provenance/datum.js';
import { type GivenCooling, type GivenDrive, type GivenPropeller, writtenResistance } from '../../provenance/given.js';
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

type CoolingKey = Exclude<keyof GivenCooling, 'place' | 'source'>;
type Coolings = { readonly [K in CoolingKey]-?: NonNullable<GivenCooling[K]> };

/** What is said of each kind of cooling, in this order; one that has no line here does not compile. */
const COOLING: { readonly [K in CoolingKey]: (given: Coolings[K]) => string } = {
  waterJacket: ({ conductance, atSpeed }) =>
    joined('water jacket', shown(conductance, 'W/K')) + (around(' at ', shown(atSpeed, 'm/s')) ?? ''),
  waterCoil: ({ bore, length, pump }) =>
    joined('water coil', around('bore ', shown(bore, 'mm')), around('length ', shown(length, 'cm')), around('pump ', shown(pump, 'L/min'))),
  heatSink: ({ fins, finHeight }) => joined('heat sink', fins !== undefined && `${fins} fins`, around('', shown(finHeight, 'mm'), ' high')),
  strap: ({ material, crossSection, length }) =>
    joined(`${material ?? 'copper'} strap to the hull`, shown(crossSection, 'mm²'), around('length ', shown(length, 'mm'))),
  fan: ({ diameter, flow }) => joined('fan', shown(diameter, 'mm'), shown(flow, 'L/min')),
  mount: ({ conductance, plate }) => joined('mount', shown(conductance, 'W/K') ?? around('plate of ', shown(plate, 'cm²'))),
  air: ({ speed, shareOfVehicleSpeed, shareOfSlipstream, cowl }) =>
    joined(
      cowl !== undefined && joined('cowl', around('inlet ', shown(cowl.inlet, 'cm²')), around('gap ', shown(cowl.gap, 'mm'))),
      around('air ', shown(speed, 'm/s')) ??
        around('air ', shown(shareOfVehicleSpeed, '%'), ' of the vehicle speed') ??
        around('air ', shown(shareOfSlipstream, '%'), ' of the slipstream') ??
        (cowl === undefined && 'air'),
    ),
  compartment: ({ speed, shareOfVehicleSpeed }) =>
    joined('air past controller and pack', shown(speed, 'm/s') ?? around('', shown(shareOfVehicleSpeed, '%'), ' of the vehicle speed')),
};

function coolingText(cooling: Partial<Coolings> = {}): string {
  const text = <K extends CoolingKey>(key: K): string => {
    const given = cooling[key];
    return given === undefined ? '' : COOLING[key](given);
  };
  return joined(...(Object.keys(COOLING) as CoolingKey[]).map((key) => text(key)));
}

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
      text: coolingText(cooling),
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
