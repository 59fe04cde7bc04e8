export interface TunedString {
  /** 1 is the highest. */
  readonly number: number;
  readonly note: string;
  readonly fundamentalHz: number;
}

/**
 * Open strings in the tuning that is usual for their number, the highest first; none where no tuning is usual. Tunings: common
 * practice, no published source. Frequencies: equal temperament on 440 Hz (ISO 16:1975).
 */
export function usualTuning(strings: number): readonly TunedString[] {
  const notes = USUAL_NOTES[strings] ?? [];
  return notes.map(({ note, fromA4 }, index) => ({ number: index + 1, note, fundamentalHz: 440 * 2 ** (fromA4 / 12) }));
}

const semitones = (note: string, fromA4: number) => ({ note, fromA4 });
const SIX = [
  semitones('E', -5),
  semitones('B', -10),
  semitones('G', -14),
  semitones('D', -19),
  semitones('A', -24),
  semitones('E', -29),
];
const FOUR = [semitones('G', -26), semitones('D', -31), semitones('A', -36), semitones('E', -41)];
/** Four and five strings are basses. */
const USUAL_NOTES: Readonly<Record<number, typeof SIX>> = {
  4: FOUR,
  5: [...FOUR, semitones('B', -46)],
  6: SIX,
  7: [...SIX, semitones('B', -34)],
};
