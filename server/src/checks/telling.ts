/** What a finding tells, in parts, so that a terminal, a drawing or a card can set each where it belongs. */
import { type Said, say } from './say.ts';

/** Whole sentences each. */
export interface Telling {
  /** The fault, and what follows from it. */
  readonly what: Said;
  /** What is likely behind it, or why it matters. */
  readonly hint?: Said | undefined;
  /** What to do, as an order. */
  readonly action?: Said | undefined;
}

export interface Told extends Telling {
  /** All parts in one text. */
  readonly message: Said;
}

export function told({ what, hint, action }: Telling): Told {
  const message = say`${what}${hint ? say` ${hint}` : ''}${action ? say` ${action}` : ''}`;
  return { what, hint, action, message };
}
