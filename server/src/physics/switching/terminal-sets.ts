/** Which terminals are one, by number: quick to join and to copy, since thousands of wirings are tried. */
export class TerminalSets {
  private readonly parent: Int16Array;

  /** Of so many terminals, each by itself; or a copy. */
  constructor(of: number | TerminalSets) {
    this.parent = typeof of === 'number' ? Int16Array.from({ length: of }, (_, each) => each) : of.parent.slice();
  }

  join(a: number, b: number): void {
    const to = this.rootOf(a);
    const from = this.rootOf(b);
    if (to !== from) this.parent[from] = to;
  }

  joinAll(group: readonly number[]): void {
    for (const each of group) this.join(group[0] ?? each, each);
  }

  /** Stands for the whole set. */
  rootOf(terminal: number): number {
    let at = terminal;
    for (let up = this.parent[at] as number; up !== at; up = this.parent[at] as number) at = up;
    return at;
  }
}
