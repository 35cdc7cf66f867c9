/** Where power comes from and goes to, in the order it flows. Each term has its own law; their sum is a test, never a definition. */
export const POWER_TERMS = {
  batteryChemical: { words: 'out of the cells', kind: 'source' },
  batteryLoss: { words: 'cells', kind: 'loss' },
  polarisationStored: { words: 'held in the cells’ slow part', kind: 'store' },
  wiringLoss: { words: 'wiring', kind: 'loss' },
  otherLoads: { words: 'other loads', kind: 'use' },
  controllerIdle: { words: 'controller idle', kind: 'loss' },
  controllerConduction: { words: 'controller conduction', kind: 'loss' },
  controllerSwitching: { words: 'controller switching', kind: 'loss' },
  copperLoss: { words: 'copper', kind: 'loss' },
  ironLoss: { words: 'iron', kind: 'loss' },
  frictionLoss: { words: 'bearings and windage', kind: 'loss' },
  shaftStored: { words: 'held in the turning shaft', kind: 'store' },
  gearLoss: { words: 'gear and shaft', kind: 'loss' },
  propellerLoss: { words: 'propeller', kind: 'loss' },
  useful: { words: 'moves the vehicle', kind: 'use' },
} as const;

export type PowerTerm = keyof typeof POWER_TERMS;
export const POWER_TERM_IDS = Object.keys(POWER_TERMS) as readonly PowerTerm[];
/** Watts, or joules over a run, by term. */
export type PowerAccount = { readonly [K in PowerTerm]: number };
