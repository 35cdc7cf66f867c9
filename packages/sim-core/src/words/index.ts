/** Sentences, names and printed numbers of results, the same for terminal, page and report. @module */

export { listed } from '../problems/listed.js';
export { CAUTIONS } from './cautions.js';
export { CHANGE_WORDS, changeParts, changeSentence } from './change-words.js';
export { type FindingLine, findingLines } from './finding-words.js';
export { atBattery, drivesOnPack, hasFlow, inflow, type Outflow, outflows, percentText, wattText } from './flow-account.js';
export {
  fitSentence,
  identifySentence,
  misfits,
  notToldSentence,
  numberName,
  numberParts,
} from './identify-words.js';
export { limitNotes } from './limit-notes.js';
export { differenceOf, measurablePrinting, moveText, signedText } from './measured-words.js';
export {
  besideLimit,
  capital,
  channelPrinting,
  clock,
  clockUnit,
  countWord,
  differenceText,
  grouped,
  limitPrinting,
  NO_NUMBER,
  numberText,
  type Printing,
  printed,
  printedDifference,
  quantityText,
  roundText,
  sentenceText,
} from './printing.js';
export { contradictionSentence, narrowedWords, readingSentence, readingsNote } from './reading-words.js';
export { RUN_ENDS } from './run-ends.js';
export { throttleText } from './throttle-text.js';
export { costlyName, costlyValue, measureFirst, measureFirstSentence, tipWords, withoutTips } from './tipping-words.js';
export { decidingLimit, INSTANT, keepsLimits, meetsDemands, shortfallOf, type VerdictGrounds, verdictOf } from './verdict.js';
export { advantageOf, comparedWith, windingBurns } from './verdict-comparison.js';
export { whySentence } from './why-sentence.js';
