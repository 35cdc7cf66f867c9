/** A CSV table with a head, its cells as text; commas inside quotes stay. */
export type Row = Readonly<Record<string, string>>;

export function readTable(text: string): Row[] {
  const cells = (line: string): string[] =>
    [...line.matchAll(/("([^"]*)"|[^,]*)(,|$)/g)].map(([, plain, quoted]) => quoted ?? plain!).slice(0, -1);
  const [head, ...lines] = text.trim().split(/\r?\n/);
  const names = cells(`${head!},`).filter((name) => name !== '');
  return lines.map((line) => {
    const found = cells(`${line},`);
    return Object.fromEntries(names.map((name, k) => [name, found[k] ?? '']));
  });
}
