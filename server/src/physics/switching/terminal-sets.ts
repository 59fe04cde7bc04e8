/** Which terminals are one, by number: quick enough to try hundreds of wirings. */
export class TerminalSets {
  private readonly parent: number[] = [];

  constructor(count: number) {
    for (let each = 0; each < count; each++) this.parent.push(each);
  }

  join(group: readonly number[]): void {
    const first = group[0];
    for (const each of group) if (first !== undefined) this.parent[this.rootOf(each)] = this.rootOf(first);
  }

  /** Stands for the whole set. */
  rootOf(terminal: number): number {
    let at = terminal;
    for (let up = this.parent[at]; up !== undefined && up !== at; up = this.parent[at]) {
      this.parent[at] = this.parent[up] ?? up;
      at = up;
    }
    return at;
  }
}
