/** The progress bar. @module */

/** A bar on standard error while samples are worked; nothing where standard error is no terminal. */
export interface Progress {
  show(done: number, of: number): void;
  /** Takes the bar away. */
  end(): void;
}

export interface ProgressStream {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

const WIDTH = 24;

export function createProgress(words: string, stream: ProgressStream, quiet = false): Progress {
  if (quiet || stream.isTTY !== true) return { show: () => {}, end: () => {} };
  let shown = '';
  return {
    show(done, of) {
      const filled = Math.round((WIDTH * done) / of);
      const line = `${words} ${'█'.repeat(filled)}${'░'.repeat(WIDTH - filled)} ${done}/${of}`.slice(0, (stream.columns ?? 80) - 1);
      if (line !== shown) stream.write(`\r${line}`);
      shown = line;
    },
    end() {
      if (shown !== '') stream.write(`\r${' '.repeat(shown.length)}\r`);
      shown = '';
    },
  };
}
