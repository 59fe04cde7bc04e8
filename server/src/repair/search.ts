/** Uniform-cost search over sets of moves: the cheapest sets that leave no fault come first. */

import type { Judge } from './faults.ts';
import { coversOff, exclude, type Move, minutesOf } from './moves.ts';

export interface Solution {
  readonly moves: readonly Move[];
  readonly minutes: number;
}

export interface Search {
  /** Cheapest first; none holds all the moves of another. */
  readonly solutions: readonly Solution[];
  /** Every set of moves that takes less than this has been looked at. */
  readonly completeBelowMinutes: number;
}

export interface SearchLimits {
  /** Sets looked at. */
  readonly states: number;
  /** Dearer than the cheapest solution by more than this is not looked for. */
  readonly beyondBestMinutes: number;
  readonly solutions: number;
}

interface State {
  /** Indices into the moves, rising. */
  readonly chosen: readonly number[];
  readonly minutes: number;
  readonly bits: bigint;
  /** Bits and the covers that are off. */
  readonly key: string;
}

export function cheapestSolutions(moves: readonly Move[], judge: Judge, limits: SearchLimits): Search {
  const bits = moves.map((move) => judge.bitsOf(move));
  const queue = new Queue();
  const reached = new Map<string, number>();
  const reach = (state: State): void => {
    if ((reached.get(state.key) ?? Number.POSITIVE_INFINITY) <= state.minutes) return;
    reached.set(state.key, state.minutes);
    queue.push(state);
  };
  reach({ chosen: [], minutes: 0, bits: 0n, key: '' });
  const solutions: (Solution & { readonly chosen: readonly number[] })[] = [];
  let looked = 0;
  for (let state = queue.pop(); state; state = queue.pop()) {
    const { chosen, minutes } = state;
    if (minutes > (reached.get(state.key) ?? minutes)) continue;
    const best = solutions[0];
    const enough = solutions.length >= limits.solutions || (best && minutes > best.minutes + limits.beyondBestMinutes);
    if (enough || looked >= limits.states) return { solutions, completeBelowMinutes: minutes };
    looked += 1;
    if (solutions.some((each) => each.chosen.every((index) => chosen.includes(index)))) continue;
    const made = chosen.flatMap((index) => moves[index] ?? []);
    if (judge.faults(made)?.length === 0) {
      solutions.push({ moves: made, minutes, chosen });
      continue;
    }
    // A set that cannot be made as it is may be made once another move is added: it is built on all the same.
    moves.forEach((move, index) => {
      if (chosen.includes(index) || made.some((each) => exclude(each, move))) return;
      const larger = [...chosen, index].sort((a, b) => a - b);
      const all = [...made, move];
      const next = state.bits ^ (bits[index] ?? 0n);
      // What a cover is off for already takes less from here on: it is another state.
      const open = coversOff(all).map(({ name }) => name);
      reach({
        chosen: larger,
        minutes: minutesOf(all),
        bits: next,
        key: [next.toString(36), ...open.sort()].join(' '),
      });
    });
  }
  return { solutions, completeBelowMinutes: Number.POSITIVE_INFINITY };
}

/** A binary heap by minutes, then by how few moves, then by their order: the same plan on every run. */
class Queue {
  private readonly heap: State[] = [];

  push(state: State): void {
    const { heap } = this;
    let at = heap.push(state) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!this.before(at, up)) break;
      this.swap(at, up);
      at = up;
    }
  }

  pop(): State | undefined {
    const { heap } = this;
    const [top] = heap;
    const last = heap.pop();
    if (top === undefined || last === undefined) return undefined;
    if (heap.length === 0) return top;
    heap[0] = last;
    let at = 0;
    for (;;) {
      let least = at;
      for (const child of [2 * at + 1, 2 * at + 2]) if (child < heap.length && this.before(child, least)) least = child;
      if (least === at) return top;
      this.swap(at, least);
      at = least;
    }
  }

  private before(a: number, b: number): boolean {
    const [one, other] = [this.heap[a], this.heap[b]];
    if (!one || !other) return false;
    if (one.minutes !== other.minutes) return one.minutes < other.minutes;
    if (one.chosen.length !== other.chosen.length) return one.chosen.length < other.chosen.length;
    const index = one.chosen.findIndex((each, place) => each !== other.chosen[place]);
    return index >= 0 && (one.chosen[index] ?? 0) < (other.chosen[index] ?? 0);
  }

  private swap(a: number, b: number): void {
    const [one, other] = [this.heap[a], this.heap[b]];
    if (!one || !other) return;
    this.heap[a] = other;
    this.heap[b] = one;
  }
}
