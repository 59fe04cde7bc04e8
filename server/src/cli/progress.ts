import type { Output } from './output.ts';

/** Says what is being done on standard error, on a terminal only and only once a command has taken longer than a second. */
export interface Progress {
  step(doing: string): void;
  /** Wipes the line, before anything else is written. */
  clear(): void;
}

const PATIENCE_MS = 1000;
/** Nobody reads faster. */
const PAUSE_MS = 50;

export function progressOn(output: Output, now: () => number = Date.now): Progress {
  const begun = now();
  let shown = false;
  let last = Number.NEGATIVE_INFINITY;
  return {
    step(doing) {
      if (!output.isTerminal) return;
      const at = now();
      if (at - begun < PATIENCE_MS || at - last < PAUSE_MS) return;
      last = at;
      output.write(`\r\u001b[K${doing} …`);
      shown = true;
    },
    clear() {
      if (shown) output.write('\r\u001b[K');
      shown = false;
    },
  };
}
