/** The cautions that every report carries. @module */

/** What every report says, whatever it found. */
export const CAUTIONS: readonly string[] = [
  'These are estimates, not a clearance. Verify with a meter, a thermometer and short runs before you trust them, and stop when a reading surprises you.',
  'Spinning propellers cut. Take the propeller off for set-up, stand behind its plane, and secure the model before power is on.',
  'Lithium packs can burn. Charge and store them as their maker says, fuse the supply, and never run a damaged or swollen pack.',
  'Windings, controllers and cells stay hot after a run; the can goes on warming for a minute after the stop.',
  'Local rules for models, waters, airspace and batteries come first. Where people can be hurt, a licensed engineer decides.',
];
