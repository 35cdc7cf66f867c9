/** A Result → one HTML page. @module */
export { type IdentifiedOptions, renderIdentified } from './page/render-identified.js';
export { type ReportOptions, renderReport } from './page/render-report.js';
