/** The key that somebody may have meant. @module */

import { editDistance } from '../quantities/index.js';

/** Words people use for a key of ours; trade words only. */
const SYNONYMS: Readonly<Record<string, readonly string[]>> = {
  esc: ['controller'],
  prop: ['propeller'],
  screw: ['propeller'],
  gears: ['gearbox'],
  accumulator: ['battery'],
  pack: ['battery'],
  hull: ['vehicle'],
  weight: ['mass'],
  rm: ['resistance'],
  ri: ['cell_resistance', 'resistance'],
  io: ['no_load'],
  idlecurrent: ['no_load', 'idle_current'],
  noloadcurrent: ['no_load'],
  speed: ['vehicle_speed', 'shaft_speed'],
  rpm: ['shaft_speed'],
  power: ['battery_power', 'shaft_power', 'input_power'],
  type: ['layout', 'chemistry', 'kind', 'family'],
  lipo: ['lithium-polymer'],
  liion: ['lithium-ion'],
  life: ['lithium-iron-phosphate'],
  lifepo4: ['lithium-iron-phosphate'],
  nimh: ['nickel-metal-hydride'],
  motors: ['drives'],
  current: ['motor_current', 'battery_current'],
  duration: ['for'],
  time: ['for'],
  slope: ['grade'],
  incline: ['grade'],
  gradient: ['grade'],
  temperature: ['air'],
  magnets: ['poles'],
  polepairs: ['poles'],
};

const folded = (text: string): string => text.toLowerCase().replace(/[-_ ]/g, '');

/** The known word closest to the one written, where there is one close enough to be meant. */
export function nearestWord(written: string, known: readonly string[]): string | undefined {
  const word = folded(written);
  const same = known.find((key) => folded(key) === word);
  if (same !== undefined) return same;
  // a word that people use for another key is no slip of a letter
  if (Object.hasOwn(SYNONYMS, word)) return SYNONYMS[word].find((key) => known.includes(key));
  const begun =
    word.length >= 3 ? known.filter((key) => folded(key).startsWith(word) || (key.length >= 4 && word.startsWith(folded(key)))) : [];
  if (begun.length === 1) return begun[0];
  const allowed = word.length < 3 ? 0 : word.length < 5 ? 1 : word.length < 9 ? 2 : 3;
  let nearest: string | undefined;
  let least = allowed + 1;
  for (const key of known) {
    const distance = editDistance(word, folded(key));
    if (distance < least) [nearest, least] = [key, distance];
  }
  return nearest;
}
