/**
 * What a pickup's place does to a string's spectrum. An ideal string fixed at both ends moves in standing waves: at a distance x
 * from its end the wave of frequency f has the amplitude |sin(k x)|, with k = π f / (f₀ L); f₀ L, half the speed of waves on the
 * string, is the same for every fret, so the comb stays where it is while the note changes (textbook result, e.g. Fletcher and
 * Rossing, The Physics of Musical Instruments, 2nd ed. 1998, chapter 2; recalled). A coil that looks at one point x senses sin(k x),
 * and coils together sense the sum. For two equal coils in phase at x ± s/2 the sum is 2 sin(k x) cos(k s/2): the comb of the place
 * and, as cos(k s/2), that of the aperture.
 *
 * Left out: stiffness, which stretches the upper partials; where and how the string is plucked; the width of the field of one pole;
 * that coils in a network weigh differently at high frequencies.
 */
export interface SensingPoint {
  /** From the saddle, in metres. */
  readonly distanceM: number;
  /** Signed share of the output: 1 and 1 for two equal coils in phase, 1 and −1 out of phase. */
  readonly weight: number;
}

export interface OpenString {
  /** Fundamental of the open string, in Hz. */
  readonly fundamentalHz: number;
  /** Saddle to nut, in metres. */
  readonly scaleM: number;
}

/** Amplitude between 0 and 1 that the points sense together at a frequency; 1 where all of them stand on an antinode. */
export function combAmplitude(
  { fundamentalHz, scaleM }: OpenString,
  points: readonly SensingPoint[],
  hz: number,
): number {
  const total = points.reduce((sum, { weight }) => sum + Math.abs(weight), 0);
  if (!(total > 0)) return 0;
  const k = (Math.PI * hz) / (fundamentalHz * scaleM);
  return Math.abs(points.reduce((sum, { distanceM, weight }) => sum + weight * Math.sin(k * distanceM), 0)) / total;
}

/** The lowest frequency that a single point at this distance does not hear at all: f₀ L / x. */
export function firstNullHz({ fundamentalHz, scaleM }: OpenString, distanceM: number): number {
  return (fundamentalHz * scaleM) / distanceM;
}

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
