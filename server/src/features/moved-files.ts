/** What becomes of `use` lines when files move. */
import { resolveUse } from '../analysis/use-graph.ts';

export interface UsingFile<At> {
  readonly uri: string;
  readonly uses: readonly { readonly path: string; readonly target: string; readonly range: At }[];
}

export interface UseEdit<At> {
  readonly uri: string;
  readonly range: At;
  /** With its quotes. */
  readonly newText: string;
}

/**
 * The paths that lead elsewhere once files have moved, written anew; those of files that move too, and of those they lead to. A path
 * that stays right stays as it is written. `moved`: where a file lies then, itself where it stays.
 */
export function usesAfterMove<At>(
  files: Iterable<UsingFile<At>>,
  moved: (uri: string) => string,
): readonly UseEdit<At>[] {
  const edits: UseEdit<At>[] = [];
  for (const { uri, uses } of files) {
    const from = moved(uri);
    for (const { path, target, range } of uses) {
      const to = moved(target);
      if ((from === uri && to === target) || resolveUse(from, path) === to) continue;
      const newText = relativePath(from, to);
      if (newText !== undefined) edits.push({ uri, range, newText: `"${newText.replace(/[\\"]/g, '\\$&')}"` });
    }
  }
  return edits;
}

/** From a file to another of the same place, with `..` where needed; `undefined` where no path leads there. */
export function relativePath(from: string, to: string): string | undefined {
  try {
    const [a, b] = [new URL(from), new URL(to)];
    if (a.protocol !== b.protocol || a.host !== b.host) return undefined;
    const own = a.pathname.split('/').slice(0, -1);
    const other = b.pathname.split('/');
    let same = 0;
    while (same < own.length && same < other.length - 1 && own[same] === other[same]) same += 1;
    const steps = [...own.slice(same).map(() => '..'), ...other.slice(same).map(decodeURIComponent)];
    return steps.join('/');
  } catch {
    return undefined;
  }
}
