/** What people take away from a run beside the page; loads nothing of the drawing. @module */

export { markdownList, textList } from './export/build-list.js';
export { csvOf } from './export/csv.js';
export { type DrawingFile, drawingFiles, poster } from './export/drawings.js';
