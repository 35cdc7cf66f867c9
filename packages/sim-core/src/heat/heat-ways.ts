/**
 * The ways out for the heat of one drive and its pack, in the order they are told. The record that the network fills, the sum, the energy account and every
 * table follow from this list: what is not in it cannot leave, and `heatResidual` of the energy account is open where a way is taken and not told.
 *
 * @module
 */

import type { Term } from '../problems/index.js';

/** Key and words of each way out. */
export const HEAT_WAYS = {
  canSide: { words: 'by the can’s side', of: 'drive' },
  canEnds: { words: 'by both its ends', of: 'drive' },
  throughFlow: { words: 'to the air through it', of: 'drive' },
  windage: { words: 'stirred into the air by the rotor', of: 'drive' },
  mount: { words: 'by the mount', of: 'drive' },
  water: { words: 'to the water', of: 'drive' },
  sink: { words: 'by the heat sink', of: 'drive' },
  strap: { words: 'by the strap to the hull', of: 'drive' },
  controller: { words: 'by the controller', of: 'drive' },
  cells: { words: 'by the cells', of: 'pack' },
} as const satisfies Record<string, { readonly words: Term; readonly of: 'drive' | 'pack' }>;

/** One of `HEAT_WAYS`. */
export type HeatWay = keyof typeof HEAT_WAYS;
/** Keys of `HEAT_WAYS`, in their order. */
export const HEAT_WAY_IDS = Object.keys(HEAT_WAYS) as readonly HeatWay[];
/** Watts, or joules over a run, by way. */
export type HeatByWay = { readonly [K in HeatWay]: number };
/** What leaves each way [W]; reused record. The cells’ is the whole pack’s. */
export type HeatOutlets = { -readonly [K in HeatWay]: number };

/** A record to be written over. */
export const emptyHeatOutlets = (): HeatOutlets => Object.fromEntries(HEAT_WAY_IDS.map((way) => [way, 0])) as HeatOutlets;

/** Drives among which a way's heat is shared: all of them for what the pack gives off. */
export const sharers = (way: HeatWay, drives: number): number => (HEAT_WAYS[way].of === 'pack' ? drives : 1);
