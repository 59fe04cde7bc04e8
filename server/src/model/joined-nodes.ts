/** Which named points are one, joined pair by pair. */
export class JoinedNodes {
  private readonly parent = new Map<string, string>();

  has(node: string): boolean {
    return this.parent.has(node);
  }

  add(node: string): void {
    if (!this.parent.has(node)) this.parent.set(node, node);
  }

  /** What `b` is joined to goes by the name of what `a` is joined to. */
  unite(a: string, b: string): void {
    this.add(a);
    this.add(b);
    const [rootA, rootB] = [this.root(a), this.root(b)];
    if (rootA !== rootB) this.parent.set(rootB, rootA);
  }

  /** The name of the set; a point that is joined to nothing stands for itself. */
  root(node: string): string {
    let at = node;
    for (let up = this.parent.get(at); up !== undefined && up !== at; up = this.parent.get(at)) at = up;
    return at;
  }

  /** The sets, numbered in order of their first points. */
  number(): { readonly netOf: ReadonlyMap<string, number>; readonly members: readonly (readonly string[])[] } {
    const netOf = new Map<string, number>();
    const byRoot = new Map<string, number>();
    const members: string[][] = [];
    for (const node of this.parent.keys()) {
      const root = this.root(node);
      const index = byRoot.get(root) ?? members.push([]) - 1;
      byRoot.set(root, index);
      members[index]?.push(node);
      netOf.set(node, index);
    }
    return { netOf, members };
  }
}
