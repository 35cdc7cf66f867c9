/** Cells against M. Chen & G. A. Rincón-Mora and the published tables of other chemistries; the controller against the averaged buck stage. @module */
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { type ElectricalChain, emptyChainPoint, solveForCurrent } from '@shaftwork/sim-core/drive/electrical-chain';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { monotoneCubic, monotoneCubicAt } from '@shaftwork/sim-core/numerics/interpolation';
import { activationFactor, openCircuitVoltage, resistanceFactor } from '@shaftwork/sim-core/parts/battery/battery';
import { openCircuitCurve, polymerVoltage } from '@shaftwork/sim-core/parts/battery/open-circuit';
import { deadTimeDrop, switchingShare } from '@shaftwork/sim-core/parts/controller';
import { RULES } from '@shaftwork/sim-core/provenance/rules/rules';
import { csvRows } from '../csv-rows.js';
import { chargeGiven, discharge } from '../discharge.js';
import { amount, amountBetween, type Check, once, type Point, share, shared, type Topic } from './check.js';

const CHEN = 'M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006';
const polymer = openCircuitCurve('lithium-polymer');

const rowsOfCurve =
  (chemistry: 'lithium-iron-phosphate' | 'lithium-ion', rows: readonly (readonly [number, number])[]) => (): readonly Point[] =>
    rows.map(([charge, volts]) => ({
      at: `${100 * charge} % charge`,
      theirs: volts,
      ours: openCircuitVoltage(openCircuitCurve(chemistry), charge),
    }));

/** R_s of eq. 3 [Ω]. */
const series = (s: number): number => 0.1562 * Math.exp(-24.37 * s) + 0.07446;

/** Half charge, eqs. 3–7 by their closed form; ours integrates the same two RC pairs over our open-circuit curve. */
function pulse(): readonly Point[] {
  const s = 0.5;
  const short = { r: 0.3208 * Math.exp(-29.14 * s) + 0.04669, c: -752.9 * Math.exp(-13.51 * s) + 703.6 };
  const long = { r: 6.603 * Math.exp(-155.2 * s) + 0.04984, c: -6056 * Math.exp(-27.12 * s) + 4475 };
  const y = new Float64Array(2);
  const system = {
    dimension: 2,
    eventCount: 0,
    // the same RC law as parts/battery equation 3, once per pair
    derivative: (_: number, v: Float64Array, dv: Float64Array) => {
      dv[0] = (short.r * 0.5 - v[0]) / (short.r * short.c);
      dv[1] = (long.r * 0.5 - v[1]) / (long.r * long.c);
    },
  };
  const terminal = () => openCircuitVoltage(polymer, s) - series(s) * 0.5 - y[0] - y[1];
  const atOnce = { at: 'at once', theirs: 3.76613, ours: terminal() };
  let time = 0;
  const later = [
    [10, 3.75891],
    [60, 3.74066],
    [300, 3.72436],
  ].map(([until, volts]) => {
    integrate(system, 'odex', { relative: 1e-9, absolute: new Float64Array(2).fill(1e-10) }, time, y, until);
    time = until;
    return { at: `${until} s`, theirs: volts, ours: terminal() };
  });
  return [atOnce, ...later];
}

const KINETICS = { activation: 5500, activatedShare: 0.25, emptyRise: 2.1, emptyRiseWidth: 0.041 };
const factor = (celsius: number, charge: number): number =>
  resistanceFactor(KINETICS, activationFactor(KINETICS, 273.15 + celsius), charge);

const ECKER = 'M. Ecker et al., J. Electrochem. Soc. 162 A1849, 2015';
/** Its resistance is the one number fitted; curve, rise, slow part and lag are the rules'. */
const POUCH = [
  ['lithium-ion', 5.4],
  ['lithium-polymer', 6.3],
] as const;
const pouchRun = ([chemistry, milliohms]: (typeof POUCH)[number]) =>
  discharge(chemistry, 'battery_current: 37.5 A', 25, `discharge_rating: 5 C, cell_resistance: ${milliohms} mohm, cell_cutoff: 2 V`);
const pouchChecks = (pouch: (typeof POUCH)[number]): readonly Check[] => {
  const rows = csvRows('pouch-at-5c.csv').map((row) => [Number(row['time_s']), Number(row['voltage_V'])] as const);
  const [end] = rows[rows.length - 1];
  const run = shared(() => pouchRun(pouch));
  const words = `a pouch cell at 5C, by the curve of ${pouch[0]} and ${pouch[1]} mΩ`;
  return [
    {
      standing: 'measured',
      source: ECKER,
      what: `voltage of ${words}, but for the last tenth`,
      unit: 'V',
      allowed: share(0.03),
      least: 21,
      points: () => {
        const { recorded } = run();
        if (recorded === undefined) throw new Error('the run was not recorded');
        const cubic = monotoneCubic([...recorded.trace.time], [...recorded.trace.cellVoltage]);
        return rows.filter(([t]) => t <= 0.9 * end).map(([t, volts]) => ({ at: `${t} s`, theirs: volts, ours: monotoneCubicAt(cubic, t) }));
      },
    },
    {
      standing: 'measured',
      source: ECKER,
      what: `how long ${words} lasts`,
      unit: 's',
      allowed: share(0.03),
      points: once(end, () => run().time),
    },
  ];
};

/** Warmed as a round cell alone in moving air is: 42 cm² and 10 W/(m²·K) on 46 g. */
function coldCells(): readonly Point[] {
  const more = 'discharge_rating: 2 C, cell_cutoff: 2.5 V, mass: 1.2 kg, thermal: { to_air: 1.1 W/K }';
  const at = (celsius: number) => chargeGiven(discharge('lithium-ion', 'battery_current: 7.5 A', celsius, more));
  const warm = at(25);
  return [
    [0, 0.9],
    [-10, 0.83],
    [-20, 0.7],
  ].map(([celsius, given]) => ({ at: `${celsius} °C`, theirs: given, ours: at(celsius) / warm }));
}
/** Resistance times capacity by the rule [mΩ·A·h]. */
const byRating = (rating: number): number => RULES['cell-resistance-lithium'].law({ capacity: 3600, rating: rating / 3600 }) * 1e3;

export const CELLS: Topic = {
  title: 'Cells',
  checks: [
    {
      standing: 'printed',
      source: `${CHEN}, eq. 2`,
      what: 'open-circuit voltage of lithium polymer, full',
      unit: 'V',
      allowed: amount(5e-5),
      points: once(4.1029, () => openCircuitVoltage(polymer, 1)),
    },
    {
      standing: 'printed',
      source: `${CHEN}, eq. 2`,
      what: 'open-circuit voltage of lithium polymer, half full',
      unit: 'V',
      allowed: amount(5e-6),
      points: once(3.80336, () => openCircuitVoltage(polymer, 0.5)),
    },
    {
      standing: 'theory',
      source: `${CHEN}, eq. 2`,
      what: 'grid of the curve against the formula',
      unit: 'V',
      allowed: amount(1e-6),
      points: () =>
        Array.from({ length: 730 }, (_, k) => 0.00137 * k)
          .filter((s) => s <= 1)
          .map((s) => ({ at: `${(100 * s).toFixed(1)} % charge`, theirs: polymerVoltage(s), ours: openCircuitVoltage(polymer, s) })),
    },
    {
      standing: 'printed',
      source: 'C/30 data published with G. L. Plett, Battery Management Systems, vol. 1, 2015',
      what: 'open-circuit voltage of lithium iron phosphate',
      unit: 'V',
      allowed: amount(1e-4),
      points: rowsOfCurve('lithium-iron-phosphate', [
        [0.1, 3.1834],
        [0.5, 3.3081],
        [0.95, 3.3658],
      ]),
    },
    {
      standing: 'printed',
      source: 'C.-H. Chen et al., J. Electrochem. Soc. 167 080534, 2020',
      what: 'open-circuit voltage of lithium ion',
      unit: 'V',
      allowed: amount(1e-4),
      points: rowsOfCurve('lithium-ion', [
        [0.2, 3.4835],
        [0.5, 3.7459],
        [1, 4.1809],
      ]),
    },
    {
      standing: 'theory',
      source: `${CHEN}, eqs. 3–7`,
      what: 'voltage under a pulse of 0.5 A at half charge',
      unit: 'V',
      allowed: amount(1e-4),
      points: pulse,
    },
    {
      standing: 'practice',
      source: 'about double in the cold',
      what: 'resistance at 0 °C over that at 25 °C',
      allowed: amountBetween(-0.1, 0.2),
      points: once(2, () => factor(0, 0.5)),
    },
    {
      standing: 'practice',
      source: 'a fifth less when hot',
      what: 'resistance at 50 °C over that at 25 °C',
      allowed: amount(0.05),
      points: once(0.8, () => factor(50, 0.5)),
    },
    {
      standing: 'theory',
      source: `${CHEN}, eq. 3`,
      what: 'rise of the resistance towards empty',
      allowed: amount(0.5 * 10 ** -1.7),
      points: () =>
        [0, 0.02, 0.05, 0.1, 0.2, 0.5, 1].map((s) => ({
          at: `${100 * s} % charge`,
          theirs: 1,
          ours: factor(25, s) / (series(s) / series(0.5)),
        })),
    },
    ...POUCH.flatMap(pouchChecks),
    {
      standing: 'memory',
      source: 'makers’ sheets of energy cells rated 2C',
      what: 'charge given at 1C in the cold over that at 25 °C',
      allowed: amount(0.1),
      points: coldCells,
    },
    {
      standing: 'memory',
      source: 'what high-rate round cells were found to have, 17 to 35 mΩ·A·h',
      what: 'resistance times capacity by the rule at 10C',
      unit: 'mΩ·A·h',
      allowed: amount(9),
      points: once(26, () => byRating(10)),
    },
    {
      standing: 'memory',
      source: 'what an energy pouch was found to have, 42 to 56 mΩ·A·h',
      what: 'resistance times capacity by the rule at 5C',
      unit: 'mΩ·A·h',
      allowed: amount(7),
      points: once(49, () => byRating(5)),
    },
  ],
};

const ideal: ElectricalChain = {
  emf: 12,
  sourceResistance: 1e-9,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  reactiveShare: 0,
  sinusoidal: false,
  switchingShare: 0,
  rippleLoss: 0,
  diodeDrop: 0,
  deadTimeDrop: 0,
  regenerative: false,
};
const DUTIES = [0.1, 0.35, 0.8, 1];
const BUCK = 'R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2';
const ROHM = 'ROHM application note 64AN035E';
/** 0.8 V, two dead times of 100 ns, 100 kHz. */
const dead = (): number => deadTimeDrop({ deadTime: 200e-9, deadTimeDrop: 0.8, pwmFrequency: 100e3 });
/** The ideal chain, changed, at a duty against 1 V. */
export function idealAt(changed: Partial<ElectricalChain>, duty: number) {
  const out = emptyChainPoint();
  solveAtDuty({ ...ideal, ...changed }, duty, 1, out);
  return out;
}
/** What enters the bus less what the motor takes [W]. */
const lost = ({ current, busVoltage, busCurrent }: ReturnType<typeof idealAt>, winding = 1): number =>
  busVoltage * busCurrent - (winding * current + 1) * current;

export const CONTROLLER: Topic = {
  title: 'Controller',
  checks: [
    {
      standing: 'memory',
      source: BUCK,
      what: 'voltage of an ideal stage, V_out = D·V_in',
      unit: 'V',
      allowed: amount(5e-8),
      points: () => DUTIES.map((duty) => ({ at: `D ${duty}`, theirs: duty * 12, ours: idealAt({}, duty).current + 1 })),
    },
    {
      standing: 'memory',
      source: BUCK,
      what: 'current of an ideal stage, I_in = D·I_out',
      unit: 'A',
      allowed: amount(5e-10),
      points: () =>
        DUTIES.map((duty) => {
          const { current, busCurrent } = idealAt({}, duty);
          return { at: `D ${duty}`, theirs: duty * current, ours: busCurrent };
        }),
    },
    {
      standing: 'memory',
      source: `${BUCK.replace('ch. 2', 'ch. 4')}`,
      what: 'switching loss at 5 A, 12 V, 50 ns, 100 kHz',
      unit: 'W',
      allowed: amount(5e-13),
      points: once(0.15, () => switchingShare({ switchingTime: 50e-9, pwmFrequency: 100e3 }) * 5 * 12),
    },
    {
      standing: 'memory',
      source: `${BUCK.replace('ch. 2', 'chs. 2 and 4')}`,
      what: 'conduction and switching loss together, 50 mΩ, 5 A, 12 V',
      unit: 'W',
      allowed: amount(5e-7),
      points: once(1.4, () => {
        const out = emptyChainPoint();
        const stage = {
          pathResistance: 0.05,
          windingResistance: 0.95,
          switchingShare: switchingShare({ switchingTime: 50e-9, pwmFrequency: 100e3 }),
        };
        solveForCurrent({ ...ideal, ...stage }, 5, 1, out);
        return lost(out, 0.95);
      }),
    },
    {
      standing: 'printed',
      source: ROHM,
      what: 'loss of dead time at 0.8 V, two times 100 ns, 100 kHz, 5 A',
      unit: 'W',
      allowed: amount(5e-13),
      points: once(0.08, () => dead() * 5),
    },
    {
      standing: 'theory',
      source: ROHM,
      what: 'current that dead time leaves',
      unit: 'A',
      allowed: amount(5e-7),
      points: () => [{ at: 'D 0.6', theirs: 0.6 * 12 - 1 - dead(), ours: idealAt({ deadTimeDrop: dead() }, 0.6).current }],
    },
    {
      standing: 'theory',
      source: ROHM,
      what: 'power that dead time takes, driving and braking',
      unit: 'W',
      allowed: amount(5e-7),
      points: () =>
        [
          ['driving, D 0.6', { deadTimeDrop: dead() }, 0.6] as const,
          ['braking into the pack, D 0.05', { deadTimeDrop: dead(), regenerative: true }, 0.05] as const,
        ].map(([words, chain, duty]) => {
          const point = idealAt(chain, duty);
          return { at: words, theirs: dead() * Math.abs(point.current), ours: lost(point) };
        }),
    },
  ],
};
