import type { CancellationToken } from 'vscode-languageserver';
import { slice } from './pace.ts';

/** Work in steps, a slice a turn, so that whatever is typed meanwhile comes in between; `undefined` where nobody waits any more. */
export async function inSlices<T>(steps: Iterator<unknown, T, void>, token: CancellationToken): Promise<T | undefined> {
  for (let isOver = slice(); ; ) {
    const step = steps.next();
    if (step.done) return step.value;
    if (!isOver()) continue;
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (token.isCancellationRequested) return undefined;
    isOver = slice();
  }
}
