export { EXPLAINED_KINDS, type Explanation, explanationOf, FINDING_EXPLANATIONS, PROBLEM_EXPLANATIONS } from './explanations.js';
export { PROBLEM_KINDS, type ProblemKind, type ProblemPlace, type ScenarioProblem } from './scenario-problem.js';
