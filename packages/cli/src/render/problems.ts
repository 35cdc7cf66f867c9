import type { ScenarioProblem } from '@shaftwork/sim-core/problems';

/** Problems for a person: place, what was expected and found, what to do; the last line is the next command. */
export function problemText(problems: readonly ScenarioProblem[], scenario: string): string {
  const lines = problems.flatMap(({ place, expected, found, nearest, hint }) => [
    `${place.file}:${place.line}:${place.column}  ${place.path}`,
    `  expected ${expected}; found ${found}${nearest === undefined ? '' : ` (did you mean ${nearest}?)`}`,
    ...(hint === undefined ? [] : [`  ${hint}`]),
  ]);
  const count = problems.length === 1 ? '1 problem' : `${problems.length} problems`;
  return `${lines.join('\n')}\n\n${count}. Mend and try again: shaftwork check ${scenario}\n`;
}

export const problemJson = (problems: readonly ScenarioProblem[]): string =>
  `${JSON.stringify({ schema: 'shaftwork.problems/1', problems }, null, 2)}\n`;
