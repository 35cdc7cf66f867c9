/** What a report remembers and carries; loads nothing of the drawing. @module */

export { type EmbeddedRun, embeddedRun, remembered } from './history/embedded.js';
export { type Headline, headlineOf } from './history/headline.js';
export { type Move, movedBetween } from './history/moved.js';
