export { PROBLEM_KINDS, type ProblemKind, type ProblemPlace, type ScenarioProblem } from './scenario-problem.js';
