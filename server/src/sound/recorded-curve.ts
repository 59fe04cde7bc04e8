/**
 * A recorded sweep as a curve over frequency: what the pickup's channel gives against the reference's. Both channels are unfolded by the
 * sweep that was played, so that each frequency falls into one short pulse: what a recorder adds in harmonics falls ahead of it, its noise
 * and the hum lie evenly around it. The ratio is taken over bands of 1/24 octave (S. Müller, P. Massarani, JAES 49 (2001) 443; the deviation
 * of a ratio after J. S. Bendat, A. G. Piersol, Random Data). The clock of what played and how late it was recorded fall out of the ratio.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import { solveInPlace } from '../physics/linear-solve.ts';
import { passedAtHz, passesAfterS, type SweepSignal, sweepSamples, sweepToHz } from './exponential-sweep.ts';
import { fft } from './fft.ts';

/** What was heard in two channels that were recorded together; without a reference, against the sweep as it was played. */
export interface RecordedSweep {
  readonly pickup: Float64Array;
  readonly reference: Float64Array | undefined;
  readonly signal: SweepSignal;
}

export interface RecordedPoint {
  readonly hz: number;
  readonly levelDb: number;
  /** Of the pickup against the reference, from −180 to 180. */
  readonly phaseDeg: number;
  /** One standard deviation of the level, by the noise around the pulse. */
  readonly levelSdDb: number;
}

export interface RecordedCurve {
  readonly points: readonly RecordedPoint[];
  /** Without a reference that was recorded with it: neither the level at one frequency nor the phase is known. */
  readonly isShapeOnly: boolean;
  /** Hum that was found and taken out of the pickup's channel. */
  readonly hum: Hum | undefined;
  /** Loudest sample of a channel, of full scale, in decibels. */
  readonly peakDbfs: { readonly pickup: number; readonly reference: number | undefined };
  /** One input is turned over: the phase stands half a turn away. */
  readonly isInverted: boolean;
}

export interface Hum {
  readonly hz: number;
  /** Of full scale, at mains frequency. */
  readonly levelDbfs: number;
}

/** What makes a recording useless, and is mended by recording anew. */
export type RecordingFault = 'clipped' | 'channels' | 'cut-short' | 'silent';

export type Channel = 'pickup' | 'reference';

export interface FaultyRecording {
  readonly fault: RecordingFault;
  readonly channel: Channel | undefined;
}

export function recordedCurve(sweep: RecordedSweep): RecordedCurve | FaultyRecording {
  const { pickup, reference, signal } = sweep;
  const channels = [['pickup', pickup] as const, ...(reference ? [['reference', reference] as const] : [])];
  for (const [channel, samples] of channels) {
    if (peakOf(samples) < SILENT_PEAK) return { fault: 'silent', channel };
    if (isClipped(samples)) return { fault: 'clipped', channel };
  }
  const unfold = unfolding(signal, Math.max(pickup.length, reference?.length ?? 0));
  const heardPulse = unfold(reference ?? pickup);
  const pulseAt = largestAt(heardPulse);
  if (!standsOut(heardPulse, pulseAt, signal)) return { fault: 'silent', channel: reference ? 'reference' : 'pickup' };
  const endS = (reference ?? pickup).length / signal.sampleRate;
  const pulseS = secondsAt(pulseAt, heardPulse.length, signal);
  if (pulseS < -EARLY_S || pulseS + passesAfterS(signal, HIGHEST_HZ) > endS)
    return { fault: 'cut-short', channel: undefined };
  const answer = reference ? unfold(pickup) : heardPulse;
  const place = { pulseS, endS, signal };
  const hum = takeHumOut(answer, place);
  if (reference) takeHumOut(heardPulse, place);
  const spectra = {
    pickup: windowed(answer, place, 0),
    reference: reference
      ? windowed(heardPulse, place, 0)
      : windowed(unfold(sweepSamples(signal)), { ...place, pulseS: 0 }, 0),
    noise: noiseSpectrum(answer, place),
    referenceNoise: reference ? noiseSpectrum(heardPulse, place) : undefined,
  };
  const points = bandCentres(signal).map((hz) => pointAt(hz, spectra, signal));
  if (reference && isExchanged(points)) return { fault: 'channels', channel: undefined };
  return {
    points,
    isShapeOnly: reference === undefined,
    hum,
    peakDbfs: { pickup: decibels(peakOf(pickup)), reference: reference && decibels(peakOf(reference)) },
    isInverted: reference !== undefined && isInverted(points),
  };
}

const decibels = (ratio: number): number => 20 * Math.log10(ratio);
const peakOf = (samples: Float64Array): number => samples.reduce((most, each) => Math.max(most, Math.abs(each)), 0);

/** Below it a channel holds nothing but the last bit of its converter. */
const SILENT_PEAK = 10 ** (-80 / 20);

/** Samples that stand at one value near the end of the range: a sine passes there, it does not stay. */
function isClipped(samples: Float64Array): boolean {
  const top = peakOf(samples);
  const atTop = samples.reduce((count, sample) => count + Number(Math.abs(sample) > top - LAST_BITS), 0);
  return top > NEAR_FULL_SCALE && atTop >= STAYING;
}

const NEAR_FULL_SCALE = 0.98;
const LAST_BITS = 2 ** -14;
const STAYING = 8;

/** Takes the sweep out of a recording: each channel's answer to a pulse, at index 0 what came at once, at the end what came before. */
function unfolding(signal: SweepSignal, samples: number): (recorded: Float64Array) => Float64Array {
  const played = sweepSamples(signal);
  const size = 2 ** Math.ceil(Math.log2(samples + played.length));
  const [re, im] = transformed(played, size);
  const power = re.map((each, k) => each ** 2 + (im[k] ?? 0) ** 2);
  // Outside of what was played there is nothing to divide by.
  const least = REGULAR * power.reduce((most, each) => Math.max(most, each), 0);
  return (recorded) => {
    const [a, b] = transformed(recorded, size);
    for (let k = 0; k < size; k++) {
      const [x, y, c, d, p] = [a[k] ?? 0, b[k] ?? 0, re[k] ?? 0, im[k] ?? 0, (power[k] ?? 0) + least];
      a[k] = (x * c + y * d) / p;
      b[k] = (y * c - x * d) / p;
    }
    fft(a, b, true);
    return a;
  };
}

const REGULAR = 1e-6;

function transformed(samples: Float64Array, size: number): [Float64Array, Float64Array] {
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  re.set(samples);
  fft(re, im);
  return [re, im];
}

function largestAt(samples: Float64Array): number {
  let at = 0;
  for (let index = 1; index < samples.length; index++)
    if (Math.abs(samples[index] ?? 0) > Math.abs(samples[at] ?? 0)) at = index;
  return at;
}

/** A pulse is a pulse where it stands far above what lies around it; noise alone has no such place. */
function standsOut(pulse: Float64Array, at: number, { sampleRate }: SweepSignal): boolean {
  const rms = Math.sqrt(pulse.reduce((sum, each) => sum + each ** 2, 0) / pulse.length);
  const near = Math.round(0.002 * sampleRate);
  const peak = peakOf(slice(pulse, at - near, 2 * near));
  return peak > OVER_NOISE * rms;
}

const OVER_NOISE = 20;

/** Pulses a little ahead of the recording's start belong to a signal whose first silence was cut off. */
const EARLY_S = 0.001;
const HIGHEST_HZ = 20_000;

const secondsAt = (index: number, size: number, { sampleRate }: SweepSignal): number =>
  (index > size / 2 ? index - size : index) / sampleRate;

interface Place {
  readonly pulseS: number;
  /** Length of the recording. */
  readonly endS: number;
  readonly signal: SweepSignal;
}

/** Samples from an index on, around the end where it asks for it. */
const slice = (samples: Float64Array, from: number, length: number): Float64Array =>
  Float64Array.from(
    { length },
    (_, index) => samples[(((from + index) % samples.length) + samples.length) % samples.length] ?? 0,
  );

const AHEAD_S = 0.015;
const BEHIND_S = 0.12;
const TAPER_S = 0.008;

type Spectrum = readonly [re: Float64Array, im: Float64Array];

/** Spectrum of what lies around the pulse, or a stretch of the same length elsewhere. */
function windowed(pulse: Float64Array, { pulseS, signal }: Place, laterS: number): Spectrum {
  const { sampleRate } = signal;
  const length = Math.round((AHEAD_S + BEHIND_S) * sampleRate);
  const samples = slice(pulse, Math.round((pulseS + laterS - AHEAD_S) * sampleRate), length);
  const taper = Math.round(TAPER_S * sampleRate);
  const shaped = samples.map((each, index) => {
    const edge = Math.min(1, (index + 0.5) / taper, (length - index - 0.5) / taper);
    return each * Math.sin((Math.PI / 2) * edge) ** 2;
  });
  return transformed(shaped, spectrumSize(signal));
}

/** Some 1.5 Hz between lines. */
const spectrumSize = ({ sampleRate }: SweepSignal): number => 2 ** Math.ceil(Math.log2(sampleRate / 1.5));

interface Noise {
  readonly before: Spectrum;
  readonly behind: Spectrum;
  /** From this frequency on the recording is over before the stretch behind the pulse is. */
  readonly endsFromHz: number;
}

/** Noise at a frequency reaches from the start of the recording, less the time at which the sweep passes it, to its end less the same. */
function noiseSpectrum(pulse: Float64Array, place: Place): Noise {
  const { pulseS, endS, signal } = place;
  const stretchS = AHEAD_S + BEHIND_S;
  const endsFromHz = passedAtHz(signal, endS - (pulseS + stretchS + BEHIND_S));
  return { before: windowed(pulse, place, -stretchS), behind: windowed(pulse, place, stretchS), endsFromHz };
}

interface Spectra {
  readonly pickup: Spectrum;
  readonly reference: Spectrum;
  readonly noise: Noise;
  readonly referenceNoise: Noise | undefined;
}

const BANDS_AN_OCTAVE = 24;

function bandCentres(signal: SweepSignal): readonly number[] {
  const highest = Math.min(HIGHEST_HZ, sweepToHz(signal) / 1.1);
  const last = Math.floor(BANDS_AN_OCTAVE * Math.log2(highest / LOWEST_HZ));
  return Array.from({ length: last + 1 }, (_, band) => LOWEST_HZ * 2 ** (band / BANDS_AN_OCTAVE));
}

const LOWEST_HZ = 25;

function pointAt(hz: number, spectra: Spectra, signal: SweepSignal): RecordedPoint {
  const size = spectrumSize(signal);
  const line = (hz / signal.sampleRate) * size;
  const half = Math.max(1, (line * Math.log(2)) / BANDS_AN_OCTAVE / 2);
  const lines = { from: Math.ceil(line - half), to: Math.floor(line + half), at: line, half };
  const [re, im] = ratioAt(lines, spectra.pickup, spectra.reference);
  const share = (own: Spectrum, noise: Noise | undefined) =>
    noise === undefined ? 0 : powerOf(lines, hz < noise.endsFromHz ? noise.behind : noise.before) / powerOf(lines, own);
  // Lines of one window's width say the same thing once.
  const independent = Math.max(1, (2 * half * (AHEAD_S + BEHIND_S) * signal.sampleRate) / size);
  const relative = Math.sqrt(
    (share(spectra.pickup, spectra.noise) + share(spectra.reference, spectra.referenceNoise)) / 2 / independent,
  );
  return {
    hz,
    levelDb: decibels(Math.hypot(re, im)),
    phaseDeg: (Math.atan2(im, re) * 180) / Math.PI,
    levelSdDb: Math.max(spectra.referenceNoise ? LEAST_SD_DB : SHAPE_SD_DB, (20 / Math.LN10) * relative),
  };
}

/** What averaging over a band and unlike filters of two converters leave. */
const LEAST_SD_DB = 0.003;
/** Against the signal as it was played, the recorder's own response stays in. */
const SHAPE_SD_DB = 0.03;

interface Lines {
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly half: number;
}

/** Pickup against reference: a parabola over the lines of a band, weighed by what the reference holds there, taken at the band's middle. */
function ratioAt({ from, to, at, half }: Lines, [a, b]: Spectrum, [c, d]: Spectrum): readonly [number, number] {
  const order = to - from >= 5 ? 3 : to > from ? 2 : 1;
  const matrix = new Float64Array(order * order);
  const right = [new Float64Array(order), new Float64Array(order)] as const;
  for (let k = from; k <= to; k++) {
    const [x, y, u, v] = [a[k] ?? 0, b[k] ?? 0, c[k] ?? 0, d[k] ?? 0];
    const offset = (k - at) / half;
    for (let row = 0; row < order; row++) {
      const weight = offset ** row;
      for (let column = 0; column < order; column++)
        matrix[row * order + column] =
          (matrix[row * order + column] ?? 0) + weight * (u * u + v * v) * offset ** column;
      right[0][row] = (right[0][row] ?? 0) + weight * (x * u + y * v);
      right[1][row] = (right[1][row] ?? 0) + weight * (y * u - x * v);
    }
  }
  solveInPlace(matrix, right);
  return [right[0][0] ?? 0, right[1][0] ?? 0];
}

function powerOf({ from, to }: Lines, [re, im]: Spectrum): number {
  let sum = 0;
  for (let k = from; k <= to; k++) sum += (re[k] ?? 0) ** 2 + (im[k] ?? 0) ** 2;
  return sum / (to - from + 1);
}

/** A circuit without a source gives less than it gets: where nearly all is above, the channels are the wrong way round. */
const isExchanged = (points: readonly RecordedPoint[]): boolean =>
  points.filter(({ levelDb }) => levelDb > BALANCE_DB).length > points.length / 2;

/** What two inputs may differ by. */
const BALANCE_DB = 0.3;

/** At the low end a pickup behind or ahead of a resistor turns the phase by less than a right angle. */
function isInverted(points: readonly RecordedPoint[]): boolean {
  const low = points.filter(({ hz }) => hz < 60);
  return low.length > 0 && low.every(({ phaseDeg }) => Math.abs(phaseDeg) > 150);
}

/** Hum is a steady tone, also once the sweep is taken out; it is fitted beside the pulse and taken away, each harmonic by itself. */
function takeHumOut(pulse: Float64Array, place: Place): Hum | undefined {
  const base = MAINS_HZ.flatMap((mains) => toneNear(pulse, mains, place) ?? []).sort((a, b) => b.power - a.power)[0];
  if (base === undefined) return undefined;
  const harmonics = Array.from({ length: HARMONICS }, (_, index) => toneAt(pulse, (index + 1) * base.hz, place));
  for (const tone of harmonics) if (tone && isHeard(pulse, tone, place)) subtractTone(pulse, tone, place);
  return { hz: base.hz, levelDbfs: decibels(Math.sqrt(base.power) * sweepGain(place.signal, base.hz)) };
}

const MAINS_HZ = [50, 60] as const;
const HARMONICS = 20;

interface Tone {
  readonly hz: number;
  /** At time 0 of the unfolded recording. */
  readonly cos: number;
  readonly sin: number;
  /** Square of the amplitude. */
  readonly power: number;
}

/** The strongest tone within half a hertz of the mains; nothing where noise is as strong. */
function toneNear(pulse: Float64Array, mains: number, place: Place): Tone | undefined {
  const around = (centre: number, stepHz: number) =>
    Array.from({ length: 11 }, (_, index) => toneAt(pulse, centre + (index - 5) * stepHz, place) ?? NO_TONE).reduce(
      (best, each) => (each.power > best.power ? each : best),
    );
  const rough = around(mains, 0.1);
  const tone = around(rough.hz, 0.01);
  return tone.power > 0 && isHeard(pulse, tone, place) ? tone : undefined;
}

const NO_TONE: Tone = { hz: 0, cos: 0, sin: 0, power: 0 };

/** Well above what a few hertz beside it holds. */
function isHeard(pulse: Float64Array, tone: Tone, place: Place): boolean {
  const beside = BESIDE_HZ.map((offset) => toneAt(pulse, tone.hz + offset, place)?.power ?? 0);
  return tone.power > (TIMES_BESIDE / beside.length) * beside.reduce((sum, each) => sum + each, 0);
}

const BESIDE_HZ = [-9, -6, 6, 9] as const;
const TIMES_BESIDE = 6;

/** A tone of that frequency in the stretch behind the pulse, as long as the recording still holds it; least squares. */
function toneAt(pulse: Float64Array, hz: number, place: Place): Tone | undefined {
  const { sampleRate } = place.signal;
  const fromS = place.pulseS + BEHIND_S;
  const toS = place.endS - passesAfterS(place.signal, hz) - TAPER_S;
  if (toS - fromS < LEAST_STRETCH_S) return undefined;
  const first = Math.round((fromS * sampleRate) / TOGETHER);
  const count = Math.floor(((toS - fromS) * sampleRate) / TOGETHER);
  const means = meansOf(pulse);
  // What a mean leaves of a tone.
  const turned = (Math.PI * hz) / sampleRate;
  const left = Math.sin(TOGETHER * turned) / (TOGETHER * Math.sin(turned));
  let [cc, cs, ss, c, s] = [0, 0, 0, 0, 0];
  for (let index = 0; index < count; index++) {
    const sample = (means[(first + index) % means.length] ?? 0) / left;
    const angle = turned * (2 * TOGETHER * (first + index) + TOGETHER - 1);
    const [x, y] = [Math.cos(angle), Math.sin(angle)];
    // Tapered, so that the tones beside it do not leak in.
    const weight = Math.sin((Math.PI * (index + 0.5)) / count) ** 2;
    cc += weight * x * x;
    cs += weight * x * y;
    ss += weight * y * y;
    c += weight * x * sample;
    s += weight * y * sample;
  }
  const determinant = cc * ss - cs * cs;
  const [cos, sin] = [(c * ss - s * cs) / determinant, (s * cc - c * cs) / determinant];
  return { hz, cos, sin, power: cos ** 2 + sin ** 2 };
}

const LEAST_STRETCH_S = 0.2;

/** Hum ends far below what neighbours of this number could tell apart. */
const TOGETHER = 16;

const meansOf = onceFor((samples: Float64Array) =>
  Float64Array.from({ length: samples.length / TOGETHER }, (_, index) => {
    let sum = 0;
    for (let k = 0; k < TOGETHER; k++) sum += samples[TOGETHER * index + k] ?? 0;
    return sum / TOGETHER;
  }),
);

function subtractTone(pulse: Float64Array, { hz, cos, sin }: Tone, { pulseS, endS, signal }: Place): void {
  const { sampleRate } = signal;
  const passes = passesAfterS(signal, hz);
  const first = Math.round(Math.max(-passes, pulseS - 3 * (AHEAD_S + BEHIND_S)) * sampleRate);
  const last = Math.round((endS - passes) * sampleRate);
  const step = (2 * Math.PI * hz) / sampleRate;
  for (let index = first; index < last; index++) {
    const at = (index + pulse.length) % pulse.length;
    pulse[at] = (pulse[at] ?? 0) - cos * Math.cos(step * index) - sin * Math.sin(step * index);
  }
}

/** What the sweep makes of a tone when it is taken out of the recording, the other way round. */
function sweepGain(signal: SweepSignal, hz: number): number {
  const step = (2 * Math.PI * hz) / signal.sampleRate;
  let [re, im] = [0, 0];
  sweepSamples(signal).forEach((sample, index) => {
    re += sample * Math.cos(step * index);
    im -= sample * Math.sin(step * index);
  });
  return Math.hypot(re, im);
}
