/** An estimate as files and other programs take it: plain data, nothing that JSON cannot say. */
import type { Basis, Estimate } from './estimate.ts';

export interface Figure {
  readonly value: number;
  /** One standard deviation; `null` where it is unbounded. */
  readonly uncertainty: number | null;
  readonly basis: Basis;
  readonly restsOn: readonly string[];
}

/** A value that is not finite is not known: JSON has no number for it. */
export function figureOf({ value, sd, basis, restsOn }: Estimate): Figure | undefined {
  if (!Number.isFinite(value)) return undefined;
  return { value, uncertainty: Number.isFinite(sd) ? sd : null, basis, restsOn: [...new Set(restsOn)] };
}
