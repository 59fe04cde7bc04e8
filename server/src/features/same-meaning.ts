import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';

/**
 * True where a rewritten text has the same findings of the same things, and so says the same of the build. `moved`: pieces of which
 * another file tells afterwards.
 */
export function isSameMeaning(
  before: Analysis,
  after: Analysis | undefined,
  moved: ReadonlySet<Chunk> = new Set(),
): boolean {
  return after !== undefined && told(before, moved) === told(after, moved);
}

const told = (analysis: Analysis, moved: ReadonlySet<Chunk>): string => toldOf(analysis, moved).join('\n');

/** What is said of which thing, apart from where it stands. */
export const toldOf = ({ findings }: Analysis, moved: ReadonlySet<Chunk> = new Set()): readonly string[] =>
  findings
    .filter(({ place }) => !moved.has(place.chunk))
    .map(({ code, severity, subject, isAccepted }) => JSON.stringify([code, severity, subject, isAccepted === true]))
    .sort();
