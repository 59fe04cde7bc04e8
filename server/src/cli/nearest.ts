/** The name that the writer most likely meant: the nearest by edit distance, if it is near enough to be a slip. */
export function nearest(written: string, names: Iterable<string>): string | undefined {
  let best: string | undefined;
  // One slip in a short word, up to a third of a long one.
  let bestDistance = Math.max(1, Math.floor(written.length / 3)) + 1;
  for (const name of names) {
    const distance = editDistance(written.toLowerCase(), name.toLowerCase(), bestDistance);
    if (distance < bestDistance) [best, bestDistance] = [name, distance];
  }
  return best ?? onlyContinuation(written, names);
}

/** `repo` is far from `report`, yet can only become that. */
function onlyContinuation(written: string, names: Iterable<string>): string | undefined {
  if (written.length < 2) return undefined;
  const longer = [...names].filter((name) => name.startsWith(written.toLowerCase()));
  return longer.length === 1 ? longer[0] : undefined;
}

/** Insertions, deletions, substitutions and swaps of neighbours; stops counting at `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      const at = (line: readonly number[], index: number): number => line[index] ?? limit;
      let cost = Math.min(at(last, column) + 1, at(current, column - 1) + 1, at(last, column - 1) + (same ? 0 : 1));
      if (a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, at(beforeLast, column - 2) + 1);
      }
      current.push(cost);
    }
    [beforeLast, last] = [last, current];
  }
  return last[b.length] ?? limit;
}
