/** The marks sheets and runs are held against. All are common practice, no published source, unless the line says otherwise. @module */

/** Rated power over rated voltage × current: above, the sheet contradicts itself; below, the three cannot be meant together [1]. */
export const POWER_SHARE = { low: 0.5, high: 1.03 } as const;
/** Surface speed of the rotor that glued magnets without bandage are trusted with [m/s]. */
export const ROTOR_SURFACE_SPEED = 100;
/** Rotor diameter over can diameter [1]; an outrunner's bell is its can. */
export const ROTOR_SHARE = { inrunner: 0.5, outrunner: 1 } as const;
/** Electrical speed that usual controllers commutate [rad/s of the electrical angle], 240 000 rpm. */
export const ELECTRICAL_SPEED = { value: 240_000, unit: 'rpm' } as const;
/** How far a motor constant may be from that of its mass, a factor either way; six measured outrunners lie within 1.7 of the level. */
export const MOTOR_CONSTANT_FACTOR = 2.2;
/** The same against the middle of three or more candidates of one layout, a factor either way. */
export const PEER_FACTOR = 1.7;
/** Winds of one frame: cans within, masses within (shares), and how far R·Kv² may differ (largest over smallest). */
export const SAME_FRAME = { size: 0.015, mass: 0.04, spread: 1.25 } as const;
/** Sheets that the shape laws hold against each other: masses within (share), Kv within (a factor), and from where on they disagree [1]. */
export const SAME_MASS = { mass: 0.1, kv: 1.5, spread: 1.1 } as const;
/** Best efficiency of brushless motors of 20 g to 2 kg [1]. */
export const PEAK_EFFICIENCY = { low: 0.6, high: 0.945 } as const;
/** No-load current over rated current [1]. */
export const NO_LOAD_SHARE = { low: 0.004, high: 0.2 } as const;
/** No-load current over that of motors of its mass and Kv (rules-motor.ts, exact to a factor of 2; the smallest of 2 to 4 g reach 2.5, from memory) [1]. */
export const NO_LOAD_FACTOR = 3;
/** Rated current over stall current at the rated voltage [1]; at 0.5 the shaft power is past its maximum (physics). */
export const STALL_SHARE = 0.4;
/** Advertised input power per mass [W/kg]; about 3 W a gram last, 5 are a burst. */
export const RATED_INPUT_PER_MASS = 5000;
/** Mean input of the run per mass [W/kg]. */
export const MEAN_INPUT_PER_MASS = 3000;
/** Mean input of the run over the rated power [1]. */
export const SUSTAINED_SHARE = 0.5;
/** Speed at full throttle over Kv × the pack's voltage at rest [1]: 0.75 to 0.85 are usual; from where on it is worth a word. */
export const LOADED_SPEED = { low: 0.65, high: 0.93 } as const;
/** Iron and friction loss over copper loss, energies of the run [1], and as a share of the motor's input [1]. */
export const LIGHT_LOAD = { overCopper: 3, ofInput: 0.1 } as const;
/** Mach number of the blade tips [1]. */
export const TIP_MACH = 0.85;
/** Air past the motor of a boat or car over its top speed [m/s]; small fans blow 5 to 10 at their mouth, less where the air arrives. */
export const AIR_OVER_SPEED = 8;
/** Case temperature people keep to [°C]. */
export const CAN_TEMPERATURE = 70;
/** Discharge that real packs give [C]: below, any; above, none; the mark for a word lies between. */
export const DISCHARGE = { every: 12, word: 24, none: 36 } as const;
/** Mass of a motor over the volume of its can [kg/m³]: steel, copper and air; open outrunners 2000–4000, solid inrunners 3500–5500. */
export const CAN_DENSITY = { low: 1200, high: 7500 } as const;
/** Speed that the sheet gives at a reading's voltage and current over the speed that was read [1]: further apart, one of them is wrong. */
export const READING_APART = 0.05;
/** More blades than free propellers have [1]. */
export const MOST_BLADES = 6;
/** Root mean square of measured thrust or power about one curve [1]; a bench without slips scatters by 2 to 5 %. */
export const POINTS_SCATTER = 0.08;
/**
 * Energy of a pack over its mass [W·h/kg]. Upper: what lithium-ion's active materials hold in theory (P. G. Bruce et al., Nature Materials 11, 2012,
 * pp. 19–29, table 1, from memory); lower: below nickel-metal-hydride in its case, common practice.
 */
export const SPECIFIC_ENERGY = {
  low: 30,
  high: 387,
  source: 'P. G. Bruce et al., Nature Materials 11, 2012, table 1, from memory',
} as const;
/** Capacity of packs that models carry [A·h]. */
export const PACK_CAPACITY = { low: 0.01, high: 200 } as const;
/** Half-width of a written 95 % interval, as a share of its number, from which on it says next to nothing [1]. */
export const WIDE_INTERVAL = 0.7;
/**
 * What wheels, gears and wings of models have, by path of keys [SI]: from the smallest car one holds in a hand to the largest that a child rides,
 * and from an indoor aircraft to a large-scale one. Wide enough that only a slip of a digit or of a unit lies outside.
 */
export const MODEL_NUMBERS: { readonly [Subject in string]?: { readonly low: number; readonly high: number; readonly unit: string } } = {
  'wheel.radius': { low: 0.006, high: 0.18, unit: 'm' },
  'wheel.rolling_resistance': { low: 0.004, high: 0.3, unit: '1' },
  'wheel.drag_area': { low: 0.0003, high: 0.4, unit: 'm²' },
  'wheel.grip': { low: 0.15, high: 3, unit: '1' },
  'gearbox.ratio': { low: 1, high: 150, unit: '1' },
  'vehicle.wing.area': { low: 0.005, high: 6, unit: 'm²' },
  'vehicle.wing.aspect_ratio': { low: 1, high: 45, unit: '1' },
  'vehicle.wing.zero_lift_drag': { low: 0.005, high: 0.2, unit: '1' },
};

/** The mark of two that a value lies beyond; undefined where it lies between them, or is none. */
export const passed = (value: number, { low, high }: { readonly low: number; readonly high: number }): number | undefined =>
  value > high ? high : value < low ? low : undefined;
