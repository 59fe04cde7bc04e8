import type { Output } from './output.ts';

/** Says what is being done on standard error, on a terminal only and only once a command has taken longer than a second. */
export interface Progress {
  step(doing: string): void;
  /** Wipes the line, before anything else is written. */
  clear(): void;
}

const PATIENCE_MS = 1000;

export function progressOn(output: Output, now: () => number = Date.now): Progress {
  const begun = now();
  let shown = false;
  return {
    step(doing) {
      if (!output.isTerminal || now() - begun < PATIENCE_MS) return;
      output.write(`\r\u001b[K${doing} …`);
      shown = true;
    },
    clear() {
      if (shown) output.write('\r\u001b[K');
      shown = false;
    },
  };
}
