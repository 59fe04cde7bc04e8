/** Choices that are the same for the same seed. */
export interface Chance {
  /** A whole number from 0 up to, not including, `below`. */
  whole(below: number): number;
  pick<T>(from: readonly [T, ...T[]]): T;
}

/** Numbers from 0 up to 1: the 32-bit generator mulberry32, in the public domain. */
export function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export function chance(seed: number): Chance {
  const next = uniform(seed);
  const whole = (below: number) => Math.floor(next() * below);
  return { whole, pick: (from) => from[whole(from.length)] ?? from[0] };
}
