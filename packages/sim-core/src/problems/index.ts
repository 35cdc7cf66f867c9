export { AUDIT_EXPLANATIONS } from './audit-explanations.js';
export type { Explanation } from './explanation.js';
export { EXPLAINED_KINDS, explanationOf, FINDING_EXPLANATIONS, PROBLEM_EXPLANATIONS } from './explanations.js';
export { PROBLEM_KINDS, type ProblemKind, type ProblemPlace, type ScenarioProblem } from './scenario-problem.js';
