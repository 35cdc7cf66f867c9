/** A plain table for the terminal: the first column to the left, the others to the right, two blanks between. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, k) => {
      widths[k] = Math.max(widths[k] ?? 0, [...cell].length);
    });
  const pad = (cell: string, k: number): string => {
    const blanks = ' '.repeat(widths[k] - [...cell].length);
    return k === 0 ? cell + blanks : blanks + cell;
  };
  return `${rows.map((row) => row.map(pad).join('  ').trimEnd()).join('\n')}\n`;
}

/** Breaks a paragraph at blanks so that no line is longer than `width`. */
export function wrap(text: string, width = 80): string {
  const lines: string[] = [''];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== '' && last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines.join('\n');
}
