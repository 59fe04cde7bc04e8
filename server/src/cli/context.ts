/** All that a command may touch of the process. Tests hand in their own. */
import type { Analyser } from '../analysis/analysis.ts';
import type { Output } from './output.ts';
import type { Progress } from './progress.ts';
import type { Styles } from './styles.ts';
import type { Threads } from './threads.ts';

export interface Context {
  readonly cwd: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Results. */
  readonly stdout: Output;
  /** Everything else. */
  readonly stderr: Output;
  readonly styles: Styles;
  readonly progress: Progress;
  readStandardInput(): Promise<Uint8Array>;
  /** Asks whoever sits at the terminal; absent where nobody does. */
  readonly ask?: (question: string) => Promise<string>;
  readonly analyser: Analyser;
  readonly threads: Threads;
}
