/** A stream that a command writes to. */
export interface Output {
  readonly isTerminal: boolean;
  write(text: string): void;
}
