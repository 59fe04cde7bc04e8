/**
 * The candidate that a mistyped word most likely meant: fewest insertions, deletions, replacements and exchanges of
 * neighbours (Damerau–Levenshtein, each pair exchanged once), at most one for a word of three letters, two up to eight,
 * three beyond. `undefined` where none is that near; the first of equals wins. Other figures are another thing, however near:
 * `alnico-4` is no slip for `alnico-5`, nor `w43` for `w42`.
 */
export function nearest(text: string, candidates: Iterable<string>): string | undefined {
  const limit = text.length <= 3 ? 1 : text.length <= 8 ? 2 : 3;
  const figures = figuresOf(text);
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - text.length) > limit || candidate === text) continue;
    if (figuresOf(candidate) !== figures || tellsApart(text, candidate)) continue;
    const distance = editDistance(text.toLowerCase(), candidate.toLowerCase());
    if (distance < bestDistance && distance < Math.max(candidate.length, text.length)) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** `rod-n` and `rod-s`: parts of one or two letters are what tells names apart. */
function tellsApart(a: string, b: string): boolean {
  const [left, right] = [a.toLowerCase().split('-'), b.toLowerCase().split('-')];
  if (left.length < 2 || left.length !== right.length) return false;
  return left.some((part, index) => part.length <= 2 && right[index]?.length === part.length && part !== right[index]);
}

const figuresOf = (text: string): string => text.replace(/\D+/g, '');

export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1);
      }
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? 0;
}
