/** A Result → one HTML page. @module */

export { type ReportOptions, renderReport } from './page/render-report.js';
