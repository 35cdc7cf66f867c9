/** Results as JSON: people's units, a suffix in every name. @module */

export { auditJson, costlyJson } from './audit-json.js';
export { doubtJson, whyJson } from './doubt-json.js';
export { afterStopJson, coolJson, partThrottleJson, ratingJson, readingJson } from './heat-json.js';
export { benchPlanJson, changeJson, identifyJson } from './identify-json.js';
export { measuredJson } from './measured-json.js';
export { resultJson } from './result-json.js';
export { shapeJson, windingJson } from './shape-json.js';
