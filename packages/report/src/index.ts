/** A Result → one HTML page. */
export { type ReportOptions, renderReport } from './page/render-report.js';
