/**
 * A plucked string, synthesised: the velocity of an ideal string plucked at one point, as a sum of decaying partials, which is what
 * a pickup senses of it. Plucked at the share p of its length, partial n has the amplitude sin(nπp)/n (velocity; Fletcher and
 * Rossing, The Physics of Musical Instruments, 2nd ed. 1998, chapter 2; recalled). Stiffness stretches the partials by
 * √(1 + Bn²); air and the string itself damp the high ones sooner. No recording stands behind it.
 */
export interface Pluck {
  readonly frequencyHz: number;
  readonly seconds: number;
  readonly sampleRate: number;
  /** The same seed gives the same samples; another one a pluck that differs a little in its partials. */
  readonly seed: number;
}

/** Samples between −1 and 1, the loudest at the ends of that range; silent where the pluck has no length or pitch. */
export function renderPluck({ frequencyHz, seconds, sampleRate, seed }: Pluck): Float32Array {
  const length = Math.max(0, Math.round(seconds * sampleRate));
  const samples = new Float64Array(Number.isFinite(length) ? length : 0);
  if (!(frequencyHz > 0) || !(sampleRate > 0)) return Float32Array.from(samples);
  const random = randomNumbers(seed);
  const highest = Math.min(HIGHEST_HZ, 0.45 * sampleRate);
  for (let partial = 1; partial <= MOST_PARTIALS; partial++) {
    const hz = partialHz(frequencyHz, partial);
    const loudness = 10 ** ((random() - 0.5) / 20);
    if (hz > highest) break;
    addPartial(samples, {
      amplitude: (loudness * Math.sin(partial * Math.PI * PLUCKED_AT)) / partial,
      step: (2 * Math.PI * hz) / sampleRate,
      decay: Math.exp(-decayPerSecond(hz) / sampleRate),
    });
  }
  fadeOut(samples, Math.min(samples.length, Math.round(FADE_S * sampleRate)));
  return normalised(samples);
}

/** Frequency of a partial: stiffness stretches it. */
export const partialHz = (frequencyHz: number, partial: number): number =>
  frequencyHz * partial * Math.sqrt((1 + INHARMONICITY * partial ** 2) / (1 + INHARMONICITY));

/** About an eighth of the string from its end, where it is often plucked, but no whole fraction: no partial is missing for good. Common practice, no published source. */
const PLUCKED_AT = 0.1273;
/** Of a wound low string, 1e-5 to 1e-4. Common practice, no published source. */
const INHARMONICITY = 3e-5;
const HIGHEST_HZ = 18_000;
const MOST_PARTIALS = 600;
const FADE_S = 0.05;

/** Neper per second: some seconds at the fundamental, a few tenths at 8 kHz. Common practice, no published source. */
const decayPerSecond = (hz: number): number => 0.9 + 1.6 * (hz / 1000) + 0.05 * (hz / 1000) ** 2;

function addPartial(
  samples: Float64Array,
  { amplitude, step, decay }: { readonly amplitude: number; readonly step: number; readonly decay: number },
): void {
  // A pointer that turns and shrinks by the same factor at each sample: its height is the partial.
  const [turnRe, turnIm] = [decay * Math.cos(step), decay * Math.sin(step)];
  let [re, im] = [amplitude, 0];
  for (let index = 0; index < samples.length; index++) {
    samples[index] = (samples[index] ?? 0) + im;
    [re, im] = [re * turnRe - im * turnIm, re * turnIm + im * turnRe];
  }
}

function fadeOut(samples: Float64Array, over: number): void {
  for (let index = 0; index < over; index++) {
    const at = samples.length - 1 - index;
    samples[at] = (samples[at] ?? 0) * (index / over);
  }
}

function normalised(samples: Float64Array): Float32Array {
  const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return Float32Array.from(samples, (sample) => (loudest > 0 ? sample / loudest : 0));
}

/** Numbers from 0 to 1 by a linear congruence modulo 2³² (Knuth, The Art of Computer Programming, vol. 2; constants recalled). */
function randomNumbers(seed: number): () => number {
  let state = Math.trunc(seed) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
