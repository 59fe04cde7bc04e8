/** What sounds, folded by series and parallel steps, from hot to ground. */

export type Folded =
  /** `turned`: its end toward hot is the one that its pickup's own hookup has toward ground. */
  | { readonly kind: 'element'; readonly name: string; readonly turned: boolean }
  /** From hot to ground. */
  | { readonly kind: 'series'; readonly of: readonly Folded[] }
  | { readonly kind: 'parallel'; readonly of: readonly Folded[] };

/** Read from ground to hot. */
export function turned(folded: Folded): Folded {
  switch (folded.kind) {
    case 'element':
      return { ...folded, turned: !folded.turned };
    case 'series':
      return { kind: 'series', of: folded.of.map(turned).reverse() };
    case 'parallel':
      return { kind: 'parallel', of: folded.of.map(turned) };
  }
}

/** Several in a row or side by side; those of the same kind inside are taken apart, so that each shape is written in one way. */
export function joined(kind: 'series' | 'parallel', parts: readonly Folded[]): Folded {
  const of = parts.flatMap((part) => (part.kind === kind ? part.of : [part]));
  const [only] = of;
  return of.length === 1 && only ? only : { kind, of };
}

/** Names of all that it holds, in order. */
export const namesIn = (folded: Folded): readonly string[] =>
  folded.kind === 'element' ? [folded.name] : folded.of.flatMap(namesIn);

/**
 * One text for all that sound alike: neither a meter nor a listener can tell the order in a series or side by side. `(…)` series,
 * `[…]` parallel, `+` or `-` by how a coil is turned, `~` for what has no direction.
 */
export function sameText(folded: Folded, textOf: (name: string, turned: boolean) => string): string {
  if (folded.kind === 'element') return textOf(folded.name, folded.turned);
  const inner = folded.of.map((part) => sameText(part, textOf)).sort(byCode);
  return folded.kind === 'series' ? `(${inner.join(' ')})` : `[${inner.join(' ')}]`;
}

/** By character code, whatever the place: the text never changes between machines. */
const byCode = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

interface FoldingEdge {
  readonly a: number;
  readonly b: number;
  /** Read from `a` to `b`. */
  readonly folded: Folded;
}

/** Folds edges between two nodes by series and parallel steps; `undefined` where they are neither. */
export function foldBetween(hot: number, ground: number, elements: readonly FoldingEdge[]): Folded | undefined {
  let edges = [...elements];
  for (let before = edges.length + 1; edges.length < before && edges.length > 1; ) {
    before = edges.length;
    edges = inSeries(sideBySide(edges), hot, ground);
  }
  const [only] = edges;
  if (edges.length !== 1 || !only) return undefined;
  return only.a === hot ? only.folded : turned(only.folded);
}

function sideBySide(edges: readonly FoldingEdge[]): FoldingEdge[] {
  const between = new Map<string, FoldingEdge[]>();
  for (const edge of edges) {
    const key = edge.a < edge.b ? `${edge.a} ${edge.b}` : `${edge.b} ${edge.a}`;
    const list = between.get(key);
    if (list) list.push(edge);
    else between.set(key, [edge]);
  }
  return [...between.values()].flatMap((list) => {
    const [first] = list;
    if (!first || list.length === 1) return list;
    const parts = list.map((each) => (each.a === first.a ? each.folded : turned(each.folded)));
    return [{ ...first, folded: joined('parallel', parts) }];
  });
}

/** Takes out the nodes that only two edges meet at. */
function inSeries(edges: FoldingEdge[], hot: number, ground: number): FoldingEdge[] {
  let left = edges;
  for (const node of new Set(edges.flatMap(({ a, b }) => [a, b]))) {
    if (node === hot || node === ground) continue;
    const [first, second, third] = left.filter(({ a, b }) => a === node || b === node);
    if (!first || !second || third) continue;
    const into = first.b === node ? first : { a: first.b, b: first.a, folded: turned(first.folded) };
    const out = second.a === node ? second : { a: second.b, b: second.a, folded: turned(second.folded) };
    if (into.a === out.b) continue;
    const one = { a: into.a, b: out.b, folded: joined('series', [into.folded, out.folded]) };
    left = [...left.filter((each) => each !== first && each !== second), one];
  }
  return left;
}
