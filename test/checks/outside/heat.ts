/** Convection, radiation, fins and tubes against worked examples of textbooks, closed forms and other published laws. @module */
import { cylinderEndCoefficient, cylinderSideCoefficient, plateCoefficient } from '@shaftwork/sim-core/heat/convection';
import { heatSinkConductance, straightFinEfficiency } from '@shaftwork/sim-core/heat/fins';
import { crossFlowNusselt, laminarPlateNusselt } from '@shaftwork/sim-core/heat/nusselt-forced';
import { channelNaturalNusselt, cylinderNaturalNusselt, plateNaturalNusselt } from '@shaftwork/sim-core/heat/nusselt-natural';
import { turningCylinderNusselt, turningDiscNusselt } from '@shaftwork/sim-core/heat/nusselt-rotation';
import { radiationCoefficient, radiationFlux } from '@shaftwork/sim-core/heat/radiation';
import { gnielinskiNusselt } from '@shaftwork/sim-core/heat/tube-flow';
import { SEA_LEVEL_PRESSURE } from '@shaftwork/sim-core/media/standard-atmosphere';
import { RPM } from '@shaftwork/sim-core/quantities/constants';
import { type Allowed, type Check, once, type Point, type Standing, share, shareBetween, type Topic } from './check.js';

/** The book's g and its 0 °C = 273 K. */
const BOOK_GRAVITY = 9.8;
const BOOK_ZERO = 273;
/** Table A.4 calls itself atmospheric, but its densities are those of dry air at 100 kPa (0.995 kg/m³ at 350 K). */
const BOOK_PRESSURE = 1e5;
const BOOK = 'Incropera, DeWitt, Bergman & Lavine, 6th ed.';

const example = (
  place: string,
  what: string,
  unit: string,
  theirs: number,
  allowed: Allowed,
  ours: () => number,
  standing: Standing = 'printed',
): Check => ({ standing, source: `${BOOK}, ${place}`, what, unit, allowed, points: once(theirs, ours) });

// example 9.4: horizontal pipe, D 0.1 m, 165 °C in air and room of 23 °C, ε 0.85
const [pipe, room] = [BOOK_ZERO + 165, BOOK_ZERO + 23];
const pipeRayleigh = (BOOK_GRAVITY * 2.725e-3 * 142 * 0.1 ** 3) / (22.8e-6 * 32.8e-6);
const natural = (): number => (cylinderNaturalNusselt(pipeRayleigh, 0.697) * 31.3e-3) / 0.1;
const radiated = (): number => radiationFlux(pipe, room, 0.85) * Math.PI * 0.1;
// example 9.2: vertical plate 0.71 m × 1.02 m, 232 °C in air of 23 °C
const plateRayleigh = (BOOK_GRAVITY * 0.0025 * 209 * 0.71 ** 3) / (26.4e-6 * 38.3e-6);
const plate = (): number => plateNaturalNusselt(plateRayleigh, 0.69);

/** Nu = 0.26·Re^0.6·Pr^0.37·(Pr/Prs)^¼ at the free stream. */
export const zukauskas = (prandtl = 707e-3): number => 0.26 * 7992 ** 0.6 * prandtl ** 0.37 * (prandtl / 0.69) ** 0.25;

/** Eq. 3.72: heat flow over temperature difference and width of a fin whose tip gives off heat too [W/(m·K)]. */
const exactFin = (h: number, k: number, t: number, height: number): number => {
  const m = Math.sqrt((2 * h) / (k * t));
  const [mL, tip] = [m * height, h / (m * k)];
  return (Math.sqrt(2 * h * k * t) * (Math.sinh(mL) + tip * Math.cosh(mL))) / (Math.cosh(mL) + tip * Math.sinh(mL));
};
const FINS = [
  [10, 200, 0.001, 0.01],
  [60, 200, 0.001, 0.02],
  [60, 15, 0.001, 0.02],
  [100, 200, 0.0005, 0.03],
  [250, 120, 0.002, 0.025],
] as const;
const ARRAY = { fins: 7, finHeight: 0.02, finThickness: 0.001, length: 0.04, breadth: 0.037, conductivity: 15 };

/** von Kármán's disc: F″ = F² − G² + HF′, G″ = 2FG + HG′, H′ = −2F, θ″ = Pr·H·θ′; K = −θ′(0). Starting slopes: M.H. Rogers & G.N. Lance, J. Fluid Mechanics 7, 1960. */
function discConstant(prandtl: number): number {
  type State = readonly [F: number, dF: number, G: number, dG: number, H: number, exponent: number, rise: number];
  const slope = ([f, df, g, dg, h, exponent]: State): State => [
    df,
    f * f - g * g + h * df,
    dg,
    2 * f * g + h * dg,
    -2 * f,
    h,
    Math.exp(prandtl * exponent),
  ];
  const shifted = ([a, b, c, d, e, f, g]: State, k: State, step: number): State => [
    a + step * k[0],
    b + step * k[1],
    c + step * k[2],
    d + step * k[3],
    e + step * k[4],
    f + step * k[5],
    g + step * k[6],
  ];
  let y: State = [0, 0.5102326189, 1, -0.6159220144, 0, 0, 0];
  const step = 0.005;
  for (let z = 0; z < 11; z += step) {
    const k1 = slope(y);
    const k2 = slope(shifted(y, k1, step / 2));
    const k3 = slope(shifted(y, k2, step / 2));
    const k4 = slope(shifted(y, k3, step));
    for (const [k, part] of [
      [k1, 1],
      [k2, 2],
      [k3, 2],
      [k4, 1],
    ] as const)
      y = shifted(y, k, (part * step) / 6);
  }
  // Beyond, H has reached its end value and the rest of the temperature's rise is a plain exponential.
  const [, , , , inflow, exponent, rise] = y;
  return 1 / (rise + Math.exp(prandtl * exponent) / (-prandtl * inflow));
}

/** Area mean of laminar and turbulent local laws: local Nu on the local radius, K·Re^½ and, since the mean 0.015·Re^0.8 goes with r^0.6, 1.3 × 0.015·Re^0.8. */
function meanOverDisc(outer: number): number {
  let sum = 0;
  const rings = 20000;
  for (let ring = 0; ring < rings; ring++) {
    const x = (ring + 0.5) / rings;
    const local = outer * x * x;
    const nusselt = local < 250000 ? turningDiscNusselt(1, 0.71) * Math.sqrt(local) : 1.3 * 0.015 * local ** 0.8;
    sum += ((nusselt / x) * 2 * x) / rings;
  }
  return sum;
}

/** A bell of 43.5 × 27 mm at 353 K in air of 298 K that turns at `spin` [rad/s]: its resistance to ambient [K/W]. */
function bell(spin: number): number {
  const [surface, air, diameter, length] = [353, 298, 0.0435, 0.027];
  const side = Math.PI * diameter * length;
  const ends = (Math.PI * diameter ** 2) / 2;
  const radiation = radiationCoefficient(surface, air, 0.85);
  return (
    1 /
    ((cylinderSideCoefficient(surface, air, SEA_LEVEL_PRESSURE, diameter, length, 0, 0, spin) + radiation) * side +
      (cylinderEndCoefficient(surface, air, SEA_LEVEL_PRESSURE, diameter, 0, spin) + radiation) * ends)
  );
}
const BELL = 'catalogue page of a maker’s flat outrunner of 43.5 mm, 4690 rpm; its length of 27 mm from memory';

export const HEAT: Topic = {
  title: 'Heat transfer',
  checks: [
    example(
      'example 9.4',
      'h of a hot pipe, with the book’s properties (two roundings of the book)',
      'W/(m²·K)',
      7.23,
      share(0.002),
      natural,
    ),
    example('example 9.4', 'what it radiates', 'W/m', 441, share(0.002), radiated),
    example('example 9.4', 'what it loses in all', 'W/m', 763.5, share(0.002), () => natural() * Math.PI * 0.1 * 142 + radiated()),
    example('example 9.4', 'h of the same pipe with our own air', 'W/(m²·K)', 7.23, share(0.01), () =>
      cylinderSideCoefficient(pipe, room, BOOK_PRESSURE, 0.1, 0.1, 0, 0, 0),
    ),
    example('example 9.2', 'Nu of a hot vertical plate', '', 147.2, share(0.002), plate),
    example(
      'example 9.2',
      'what it gives off (the book rounds h to 7.0)',
      'W',
      1060,
      share(0.003),
      () => ((plate() * 33.8e-3) / 0.71) * 0.71 * 1.02 * 209,
    ),
    example(
      'example 9.2',
      'the same with our own air',
      'W',
      1060,
      share(0.01),
      () => plateCoefficient(BOOK_ZERO + 232, BOOK_ZERO + 23, BOOK_PRESSURE, 0.71, 0) * 0.71 * 1.02 * 209,
    ),
    example(
      'eq. 9.34, by hand at Gr 2.63·10⁹, Pr 0.69',
      'natural convection of a cylinder',
      '',
      139.134,
      share(1e-5),
      () => cylinderNaturalNusselt(2.63e9 * 0.69, 0.69),
      'theory',
    ),
    example(
      'eq. 9.26, by hand at Gr 2.63·10⁹, Pr 0.69',
      'natural convection of a plate',
      '',
      147.162,
      share(1e-5),
      () => plateNaturalNusselt(2.63e9 * 0.69, 0.69),
      'theory',
    ),
    example('example 7.4', 'Nu of a cylinder across a stream, Re 6071, Pr 0.70', '', 40.64, share(0.001), () =>
      crossFlowNusselt(6071, 0.7),
    ),
    example('example 7.4', 'h of it', 'W/(m²·K)', 96, share(0.001), () => (crossFlowNusselt(6071, 0.7) * 0.03) / 0.0127),
    example(
      'example 7.4 (temperatures and speed)',
      'h of it with our own air at 10 m/s',
      'W/(m²·K)',
      96,
      share(0.02),
      () => cylinderSideCoefficient(BOOK_ZERO + 128.4, BOOK_ZERO + 26.2, BOOK_PRESSURE, 0.0127, 0.1, 10, 0, 0),
      'memory',
    ),
    example(
      'example 7.4, Zukauskas’ law',
      'h of it beside that law, each at its own reference temperature (the book’s remark on their spread)',
      'W/(m²·K)',
      (zukauskas() * 0.0263) / 0.0127,
      share(0.2),
      () => (crossFlowNusselt(6071, 0.7) * 0.03) / 0.0127,
    ),
    example('example 7.1', 'Nu of a laminar plate, Re 9600, Pr 0.687', '', 57.4, share(0.001), () => laminarPlateNusselt(9600, 0.687)),
    {
      standing: 'theory',
      source: 'Incropera et al., 7th ed., problem 9.62: law printed, number by hand',
      what: 'Nu of a shaft of 20 mm at 10 000 rpm, Re 22 642, Pr 0.703',
      allowed: share(0.001),
      points: once(94.65, () => turningCylinderNusselt(22642, 0.703)),
    },
    {
      standing: 'theory',
      source: `${BOOK}, eq. 8.60, Dittus–Boelter; 25 % is the book’s error of it`,
      what: 'Nu in a tube by Gnielinski’s law',
      allowed: share(0.25),
      points: () =>
        [1e4, 3e4, 1e5].map((reynolds) => ({
          at: `Re ${reynolds}`,
          theirs: 0.023 * reynolds ** 0.8 * 7 ** 0.4,
          ours: gnielinskiNusselt(reynolds, 7),
        })),
    },
    {
      standing: 'memory',
      source: `${BOOK}, eqs. 9.45 and 9.47`,
      what: 'Nu between fins: narrow and wide limit',
      allowed: share(0.01),
      points: () => [
        { at: 'narrow, Ra·S/L 0.1', theirs: 0.1 / 24, ours: channelNaturalNusselt(0.1) },
        { at: 'wide, Ra·S/L 10⁵', theirs: 0.59 * 1e5 ** 0.25, ours: channelNaturalNusselt(1e5) },
      ],
    },
    {
      standing: 'theory',
      source: `${BOOK}, eq. 3.72`,
      what: 'a straight fin whose tip gives off heat, by its corrected height',
      unit: 'W/(m·K)',
      allowed: share(1e-3),
      points: () =>
        FINS.map(([h, k, t, height]): Point => {
          const corrected = height + t / 2;
          return {
            at: `h ${h}, k ${k}, ${1e3 * t} × ${1e3 * height} mm`,
            theirs: exactFin(h, k, t, height),
            ours: 2 * h * corrected * straightFinEfficiency(h, k, t, corrected),
          };
        }),
    },
    {
      standing: 'theory',
      source: `${BOOK}, eq. 3.72`,
      what: 'an array of seven fins with its free base',
      unit: 'W/K',
      allowed: share(1e-3),
      points: once(0.04 * (7 * exactFin(60, 15, 0.001, 0.02) + 60 * 0.03), () => heatSinkConductance(ARRAY, 60)),
    },
    {
      standing: 'theory',
      source: 'von Kármán’s similar solution; slopes of M.H. Rogers & G.N. Lance, J. Fluid Mechanics 7, 1960',
      what: 'laminar turning disc, Nu/√Re',
      allowed: share(0.002),
      points: () =>
        [0.66, 0.69, 0.71, 0.73].map((prandtl) => ({
          at: `Pr ${prandtl}`,
          theirs: discConstant(prandtl),
          ours: turningDiscNusselt(1e4, prandtl) / 100,
        })),
    },
    {
      standing: 'theory',
      source: 'area mean of the local laws, summed in rings',
      what: 'turning disc, laminar inside, turbulent outside, Re 10⁶',
      allowed: share(1e-4),
      points: () => [{ at: '', theirs: meanOverDisc(1e6), ours: turningDiscNusselt(1e6, 0.71) }],
    },
    {
      standing: 'memory',
      source: 'F. Kreith, Principles of Heat Transfer: Nu = 0.11·(½·Re²)^0.35, Re = ω·D²/(2ν)',
      what: 'Nu of a turning bell: other laws for air lie 0 to 40 % below',
      allowed: shareBetween(0, 1 / 0.6 - 1),
      points: () =>
        [2e4, 6e4, 2e5].map((reynolds) => ({
          at: `ω·D²/ν ${reynolds}`,
          theirs: 0.11 * (0.5 * (reynolds / 2) ** 2) ** 0.35,
          ours: turningCylinderNusselt(reynolds, 0.71),
        })),
    },
    {
      standing: 'printed',
      source: BELL,
      what: 'resistance of the bell to ambient',
      unit: 'K/W',
      allowed: share(0.35),
      points: once(1.57, () => bell(4690 * RPM)),
    },
    {
      standing: 'printed',
      source: BELL,
      what: 'the same by formulas of a can that does not turn: fivefold at least',
      unit: 'K/W',
      allowed: shareBetween(4, Number.POSITIVE_INFINITY),
      points: once(1.57, () => bell(0)),
    },
  ],
};
