/** A stream that a command writes to. */
export interface Output {
  readonly isTerminal: boolean;
  /** Cells across a terminal. */
  readonly columns?: number | undefined;
  write(text: string): void;
}
