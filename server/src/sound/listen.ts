/** One pluck through one or more responses, level-matched: what is heard before, what is heard now. */
import type { FrequencyResponse } from '../estimates/estimates.ts';
import { filterFrom, SAMPLE_RATE } from './filter.ts';
import { levelMatched, playThrough } from './play.ts';
import { type Pluck, renderPluck } from './pluck.ts';

export { filterFrom, isSilentResponse, SAMPLE_RATE } from './filter.ts';
export { levelMatched, playThrough } from './play.ts';
export { renderPluck } from './pluck.ts';
export { wavBytes } from './wav.ts';

/** The same pluck through each response, equally loud, so that only the colour differs. */
export function heard(
  responses: readonly FrequencyResponse[],
  { frequencyHz, seconds, seed }: Pick<Pluck, 'frequencyHz' | 'seconds' | 'seed'>,
): readonly Float32Array[] {
  const dry = renderPluck({ frequencyHz, seconds, seed, sampleRate: SAMPLE_RATE });
  return levelMatched(responses.map((response) => playThrough(dry, filterFrom(response))));
}

/** One after the other with a rest between. */
export function inTurn(sounds: readonly Float32Array[]): Float32Array {
  const rest = Math.round(REST_S * SAMPLE_RATE);
  const length = sounds.reduce((sum, sound) => sum + sound.length, rest * Math.max(0, sounds.length - 1));
  const all = new Float32Array(length);
  let at = 0;
  for (const sound of sounds) {
    all.set(sound, at);
    at += sound.length + rest;
  }
  return all;
}

const REST_S = 0.4;

/** Frequency of a note by its name, `E2`, `F#3`, `Bb1`: equal temperament on A4 = 440 Hz (ISO 16:1975). `undefined`: no note. */
export function noteHz(name: string): number | undefined {
  const [, letter = '', accidental = '', octave = ''] = /^([A-Ga-g])([#b♯♭]?)(-?\d)$/.exec(name.trim()) ?? [];
  const semitone = SEMITONES[letter.toUpperCase()];
  if (semitone === undefined) return undefined;
  const raised = accidental === '' ? 0 : accidental === '#' || accidental === '♯' ? 1 : -1;
  return 440 * 2 ** ((semitone + raised + 12 * (Number(octave) - 4)) / 12);
}

/** From A of the same octave. */
const SEMITONES: Readonly<Record<string, number>> = { C: -9, D: -7, E: -5, F: -4, G: -2, A: 0, B: 2 };
