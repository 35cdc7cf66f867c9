/** Problems and their explanations. @module */

export { AUDIT_EXPLANATIONS } from './audit-explanations.js';
export { certain, entryOf, lastOf, named } from './certain.js';
export type { Explanation } from './explanation.js';
export { EXPLAINED_KINDS, EXPLAINED_TERMS, explanationOf, type Term } from './explanations.js';
export { FINDING_EXPLANATIONS } from './finding-explanations.js';
export { listed } from './listed.js';
export { PROBLEM_EXPLANATIONS } from './problem-explanations.js';
export { PROBLEM_KINDS, type ProblemKind, type ProblemPlace, type ScenarioProblem } from './scenario-problem.js';
