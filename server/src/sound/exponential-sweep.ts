/**
 * The test signal: a sine whose frequency rises by equal ratios in equal times (A. Farina, 108th AES Convention, Paris 2000), so that what a
 * recorder adds in harmonics falls ahead of the answer once the sweep is taken out, and is cut off there.
 */

export interface SweepSignal {
  /** Length of the sweep itself, without the silence on both sides. */
  readonly seconds: number;
  readonly sampleRate: number;
}

export const SWEEP_SIGNAL: SweepSignal = { seconds: 6, sampleRate: 48_000 };
const SWEEP_FROM_HZ = 20;
/** Silence ahead of the sweep and behind it, for what a recorder is late by and for its noise. */
const SILENCE_S = 0.5;
/** Of full scale: loud enough beside the noise of a line input, far enough from clipping it. */
export const SWEEP_LEVEL_DBFS = -12;

/** Highest frequency: 22 kHz, less where the sample rate holds less. */
export const sweepToHz = ({ sampleRate }: SweepSignal): number => Math.min(22_000, (11 / 24) * sampleRate);

/** When the sweep passes a frequency, counted from its start. */
export const passesAfterS = (signal: SweepSignal, hz: number): number =>
  (signal.seconds * Math.log(hz / SWEEP_FROM_HZ)) / Math.log(sweepToHz(signal) / SWEEP_FROM_HZ);

/** The frequency that it passes at a time. */
export const passedAtHz = (signal: SweepSignal, seconds: number): number =>
  SWEEP_FROM_HZ * (sweepToHz(signal) / SWEEP_FROM_HZ) ** (seconds / signal.seconds);

/** The sweep alone at full scale, faded in and out over a few milliseconds, so that it neither starts nor ends with a click. */
export function sweepSamples(signal: SweepSignal): Float64Array {
  const { seconds, sampleRate } = signal;
  const length = Math.round(seconds * sampleRate);
  const octaves = Math.log(sweepToHz(signal) / SWEEP_FROM_HZ);
  const fade = Math.round(FADE_S * sampleRate);
  return Float64Array.from({ length }, (_, index) => {
    const turns = ((SWEEP_FROM_HZ * seconds) / octaves) * Math.expm1((index / length) * octaves);
    const edge = Math.min(1, index / fade, (length - 1 - index) / fade);
    return Math.sin(2 * Math.PI * turns) * Math.sin((Math.PI / 2) * edge) ** 2;
  });
}

const FADE_S = 0.005;

/** What is played: silence, the sweep at its level, silence. */
export function testSignal(signal: SweepSignal, levelDbfs = SWEEP_LEVEL_DBFS): Float32Array {
  const silence = Math.round(SILENCE_S * signal.sampleRate);
  const sweep = sweepSamples(signal);
  const played = new Float32Array(sweep.length + 2 * silence);
  const gain = 10 ** (levelDbfs / 20);
  played.set(
    sweep.map((sample) => gain * sample),
    silence,
  );
  return played;
}
