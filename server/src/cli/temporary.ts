/** Files and folders that are not to outlive the program, however it ends. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';

/**
 * Does work whose temporary files must be gone before a signal ends the program: the signal waits until the work is done. It is
 * delivered in the turn that follows.
 */
export async function temporarily<T>(work: () => T | Promise<T>, cleanUp: () => void = () => undefined): Promise<T> {
  const ends = (signal: NodeJS.Signals): void => {
    cleanUp();
    for (const each of SIGNALS) process.off(each, ends);
    process.kill(process.pid, signal);
  };
  for (const signal of SIGNALS) process.on(signal, ends);
  try {
    return await work();
  } finally {
    cleanUp();
    await nextTurn();
    await nextTurn();
    for (const signal of SIGNALS) process.off(signal, ends);
  }
}

/** A folder for as long as the work takes. */
export function inTemporaryFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  let folder: string | undefined;
  return temporarily(
    () => {
      folder = mkdtempSync(path.join(tmpdir(), 'pickup-spec-'));
      return work(folder);
    },
    () => {
      if (folder !== undefined) rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  );
}

const SIGNALS: readonly NodeJS.Signals[] = ['SIGINT', 'SIGTERM', 'SIGHUP'];
