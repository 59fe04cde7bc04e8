/** Numbers from 0 up to 1 that are the same for the same seed: a linear congruence (constants of the C standard's example). */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
}
