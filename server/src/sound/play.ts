/** Sound through a filter, and two sounds brought to one loudness. */
import { fft } from './fft.ts';

/** The samples through the filter, as long as they were. */
export function playThrough(samples: Float32Array, filter: Float32Array): Float32Array {
  const played = new Float64Array(samples.length);
  if (filter.length === 0) return Float32Array.from(played);
  let size = 2;
  while (size < 4 * filter.length) size *= 2;
  const block = size - filter.length + 1;
  const [filterRe, filterIm] = spectrum(filter, 0, filter.length, size);
  for (let start = 0; start < samples.length; start += block) {
    const [re, im] = spectrum(samples, start, Math.min(block, samples.length - start), size);
    for (let bin = 0; bin < size; bin++) {
      const [a, b, c, d] = [re[bin] ?? 0, im[bin] ?? 0, filterRe[bin] ?? 0, filterIm[bin] ?? 0];
      re[bin] = a * c - b * d;
      im[bin] = a * d + b * c;
    }
    fft(re, im, true);
    const end = Math.min(size, samples.length - start);
    for (let index = 0; index < end; index++) played[start + index] = (played[start + index] ?? 0) + (re[index] ?? 0);
  }
  return Float32Array.from(played);
}

function spectrum(
  from: Float32Array,
  start: number,
  length: number,
  size: number,
): readonly [Float64Array, Float64Array] {
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  for (let index = 0; index < length; index++) re[index] = from[start + index] ?? 0;
  fft(re, im);
  return [re, im];
}

/** Each brought to the same root mean square, all as loud as leaves the loudest sample below full scale. Silence stays silent. */
export function levelMatched(sounds: readonly Float32Array[]): readonly Float32Array[] {
  const even = sounds.map((sound) => scaled(sound, 1 / rootMeanSquare(sound)));
  const loudest = Math.max(0, ...even.map(peak));
  return even.map((sound) => scaled(sound, LOUDEST / loudest));
}

/** −1 dB under full scale. */
const LOUDEST = 10 ** (-1 / 20);

const peak = (sound: Float32Array): number => sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

const rootMeanSquare = (sound: Float32Array): number =>
  Math.sqrt(sound.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, sound.length));

const scaled = (sound: Float32Array, factor: number): Float32Array =>
  Number.isFinite(factor) ? sound.map((sample) => sample * factor) : new Float32Array(sound.length);
