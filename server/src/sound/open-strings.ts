import { noteHz } from './listen.ts';

export interface OpenString {
  /** `6, E2`: its number, the highest string being 1, and its note. */
  readonly name: string;
  readonly hz: number;
}

/**
 * Open strings in the usual tuning for so many, the lowest first: four and five strings are a bass, twelve are six courses. Common
 * practice, no published source. A count without a usual tuning has the highest strings of the guitar, or all of eight.
 */
export function openStrings(count = 6): readonly OpenString[] {
  const notes = TUNINGS[count] ?? (count < GUITAR.length ? GUITAR.slice(-Math.max(count, 1)) : EIGHT);
  return notes.flatMap((note, index) => {
    const hz = noteHz(note);
    return hz === undefined ? [] : [{ name: `${notes.length - index}, ${note}`, hz }];
  });
}

const BASS = ['E1', 'A1', 'D2', 'G2'];
const GUITAR = ['E2', 'A2', 'D3', 'G3', 'B3', 'E4'];
const EIGHT = ['F#1', 'B1', ...GUITAR];

const TUNINGS: Readonly<Record<number, readonly string[]>> = {
  4: BASS,
  5: ['B0', ...BASS],
  6: GUITAR,
  7: ['B1', ...GUITAR],
  8: EIGHT,
  12: GUITAR,
};
