/** Wires and connectors between pack and controller: one resistance, both ways and all plugs counted. Its heat is left out. @module */

import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** Wires and connectors of one drive. */
export interface Wiring<N extends Quantities = PlainNumbers> {
  /** R — both ways and all plugs [Ω]. */
  readonly resistance: N['resistance'];
}

/** Resistance of annealed copper at 20 °C [Ω·m], IEC 60028:1925. */
export const COPPER_RESISTIVITY = 0.017241e-6;

/** R = ρ·2L/A + n·R_c [Ω]: `length` [m] one way, conductor `area` [m²], `connectors` pairs of `contact` resistance [Ω]. */
export const wiringResistance = (length: number, area: number, connectors: number, contact: number): number =>
  (COPPER_RESISTIVITY * 2 * length) / area + connectors * contact;
