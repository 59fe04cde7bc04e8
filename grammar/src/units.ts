import type { Dimension } from './schema/shape.ts';

/** What the language needs to know of units; whoever reads a file hands it in, since the grammar has no table of its own. */
export interface UnitLookup {
  dimensionOf(symbol: string): Dimension | undefined;
  /** The usual one first. */
  symbolsOf(dimension: Dimension): readonly string[];
  /** The unit that a bare number of this size most likely lacks. */
  likelyUnit(dimension: Dimension, value: number): string;
}
