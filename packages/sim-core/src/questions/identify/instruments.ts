/**
 * How far instruments are off: a gain that stays (its 95 % interval, as a share) and scatter from row to row (one standard deviation).
 *
 * Scatter is what a fit starts from; what the rows show corrects it. A gain cannot be seen in the rows of one log and widens every interval.
 * *Source* common practice, no published source: watt meters and thrust stands of model builders.
 * @module
 */
export interface Instrument {
  readonly words: string;
  /** 95 % of the gain's error [1]. */
  readonly gain: number;
  /** Scatter of one row: share of the value [1], and amount [SI], whichever way they add. */
  readonly share: number;
  readonly amount: number;
}

export const INSTRUMENTS = {
  voltage: { words: 'voltmeter', gain: 0.005, share: 0.001, amount: 0.01 },
  current: { words: 'ammeter at the pack', gain: 0.01, share: 0.005, amount: 0.02 },
  motorCurrent: { words: 'ammeter at the motor', gain: 0.02, share: 0.01, amount: 0.05 },
  speed: { words: 'tachometer', gain: 0.0005, share: 0.002, amount: 1 },
  torque: { words: 'torque sensor', gain: 0.01, share: 0.005, amount: 0.001 },
  thrust: { words: 'thrust sensor', gain: 0.01, share: 0.01, amount: 0.02 },
} as const satisfies Record<string, Instrument>;
export type InstrumentId = keyof typeof INSTRUMENTS;
export type Instruments = Readonly<Record<InstrumentId, Instrument>>;

/** Standard deviation of one row of `value`. */
export const scatterOf = ({ share, amount }: Instrument, value: number): number => Math.hypot(share * value, amount);
