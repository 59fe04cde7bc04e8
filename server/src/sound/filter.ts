/**
 * A response as a filter that sound can be played through. A response holds levels, no phases: the filter is the minimum-phase
 * one with these levels, as a network of coils, resistors and capacitors in one path is (Bode 1945). Phase of parallel coils may
 * differ from it, which the ear does not tell on one string. Made from the real cepstrum (Oppenheim and Schafer, Discrete-Time
 * Signal Processing, 3rd ed. 2010, chapter 13; recalled).
 */
import type { FrequencyResponse } from '../estimates/estimates.ts';
import { isSilentDb } from '../physics/circuit/silence.ts';
import { fft } from './fft.ts';

export const SAMPLE_RATE = 48_000;

/** True where nothing reaches the output: made as loud as a sound, its strays would be heard as noise. */
export const isSilentResponse = ({ levelDb }: FrequencyResponse): boolean => levelDb.every(isSilentDb);

/** Coefficients of a finite filter, its gain that of the response in dB; empty where the response holds nothing. */
export function filterFrom(response: FrequencyResponse, sampleRate = SAMPLE_RATE): Float32Array {
  if (isSilentResponse(response) || response.frequencyHz.length !== response.levelDb.length) return new Float32Array(0);
  const levelAt = levelReader(response);
  const re = new Float64Array(GRID);
  const im = new Float64Array(GRID);
  for (let bin = 0; bin <= GRID / 2; bin++) {
    const neper = levelAt((bin * sampleRate) / GRID) / DB_PER_NEPER;
    re[bin] = neper;
    if (bin > 0 && bin < GRID / 2) re[GRID - bin] = neper;
  }
  // To the cepstrum; folding its acausal half onto the causal one is what makes the phase the least; and back.
  fft(re, im, true);
  for (let n = 1; n < GRID / 2; n++) {
    re[n] = 2 * (re[n] ?? 0);
    re[GRID - n] = 0;
  }
  im.fill(0);
  fft(re, im);
  for (let bin = 0; bin < GRID; bin++) {
    const size = Math.exp(re[bin] ?? 0);
    const angle = im[bin] ?? 0;
    re[bin] = size * Math.cos(angle);
    im[bin] = size * Math.sin(angle);
  }
  fft(re, im, true);
  return Float32Array.from(re.subarray(0, TAPS), (value, index) => value * taper(index));
}

const DB_PER_NEPER = 20 / Math.LN10;
const GRID = 32_768;
/** 170 ms: the ringing of a resonance is over long before. */
const TAPS = 8192;

/** The last eighth fades, so that cutting the filter off adds no edge. */
const taper = (index: number): number => {
  const left = (TAPS - index) / (TAPS / 8);
  return left >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * left);
};

/** Below this a level is silence; the logarithm needs an end. */
const LOWEST_DB = -120;

/** Straight over the logarithm of frequency; beyond the ends as at the ends. */
function levelReader({ frequencyHz, levelDb }: FrequencyResponse): (hz: number) => number {
  const at = (index: number) =>
    Math.max(LOWEST_DB, Number.isFinite(levelDb[index]) ? (levelDb[index] ?? LOWEST_DB) : LOWEST_DB);
  const last = frequencyHz.length - 1;
  let above = 0;
  return (hz) => {
    // Asked in rising order: the place is found once for all.
    while (above <= last && (frequencyHz[above] ?? 0) < hz) above++;
    if (above === 0) return at(0);
    if (above > last) return at(last);
    const [low = 1, high = 1] = [frequencyHz[above - 1], frequencyHz[above]];
    const share = Math.log(hz / low) / Math.log(high / low);
    return at(above - 1) + share * (at(above) - at(above - 1));
  };
}
