import assert from 'node:assert/strict';
import { passedAtHz, SWEEP_SIGNAL, type SweepSignal, testSignal } from '../../server/src/sound/exponential-sweep.ts';
import { wavBytes } from '../../server/src/sound/wav.ts';
import { readWav } from '../../server/src/sound/wav-read.ts';

const SAMPLES = Float32Array.of(0, 0.5, -0.5, 1, -1, 0.123456, -0.654321);

/** A file as the format's description has it, by hand: its chunks after the head. */
function riff(...chunks: readonly (readonly [name: string, bytes: readonly number[]])[]): Uint8Array {
  const u32 = (value: number) => [value & 255, (value >> 8) & 255, (value >> 16) & 255, (value >>> 24) & 255];
  const text = (word: string) => [...word].map((letter) => letter.charCodeAt(0));
  const body = chunks.flatMap(([name, bytes]) => [
    ...text(name),
    ...u32(bytes.length),
    ...bytes,
    ...(bytes.length % 2 ? [0] : []),
  ]);
  return Uint8Array.from([...text('RIFF'), ...u32(4 + body.length), ...text('WAVE'), ...body]);
}

/** 48 kHz. */
const format = (kind: number, channels: number, bits: number, ...more: readonly number[]) =>
  ['fmt ', [kind & 255, kind >> 8, channels, 0, 0x80, 0xbb, 0, 0, 0, 0, 0, 0, 0, 0, bits, 0, ...more]] as const;

describe('a WAV file', () => {
  for (const [bits, step] of [
    [16, 2 ** -15],
    [24, 2 ** -23],
  ] as const) {
    it(`of ${bits} bits comes back as it was written`, () => {
      const read = readWav(wavBytes(SAMPLES, 44_100, bits));
      assert.ok(typeof read !== 'string', String(read));
      assert.equal(read.sampleRate, 44_100);
      assert.equal(read.channels.length, 1);
      read.channels[0]?.forEach((sample, index) => {
        assert.ok(Math.abs(sample - (SAMPLES[index] ?? 0)) < 1.6 * step, `${index}: ${sample}`);
      });
    });
  }

  it('has two channels in turn, other chunks ahead of them, and 32-bit numbers or the extensible form', () => {
    const two = readWav(riff(['LIST', [1, 2, 3]], format(1, 2, 16), ['data', [0, 64, 0, 192, 0, 32, 0, 224]]));
    assert.deepEqual(two, {
      sampleRate: 48_000,
      channels: [Float64Array.of(0.5, 0.25), Float64Array.of(-0.5, -0.25)],
    });
    const half = [...new Uint8Array(Float32Array.of(0.5).buffer)];
    const extensible = format(0xfffe, 1, 32, 22, 0, 32, 0, 4, 0, 0, 0, 3, 0);
    for (const floats of [format(3, 1, 32), extensible])
      assert.deepEqual(readWav(riff(floats, ['data', half])), { sampleRate: 48_000, channels: [Float64Array.of(0.5)] });
  });

  for (const [what, bytes, told] of [
    ['no file of that kind', Uint8Array.from([1, 2, 3]), /no WAV file/],
    ['no sound', riff(format(1, 1, 16)), /holds no sound/],
    ['sound ahead of its format', riff(['data', [0, 0]]), /no format/],
    ['packed sound', riff(format(85, 1, 16), ['data', [0, 0]]), /PCM of 16 or 24 bits/],
    ['a hundred channels', riff(format(1, 100, 16), ['data', [0, 0]]), /100 channels/],
    ['numbers that are none', riff(format(3, 1, 32), ['data', [0, 0, 192, 127]]), /no numbers/],
  ] as const) {
    it(`with ${what} is told as that`, () => assert.match(String(readWav(bytes)), told));
  }

  it('that was cut off at any byte is read as far as it goes, or told', () => {
    const whole = wavBytes(SAMPLES);
    for (let length = 0; length < whole.length; length++) {
      const read = readWav(whole.subarray(0, length));
      assert.ok(typeof read === 'string' || (read.channels[0]?.length ?? 0) <= SAMPLES.length);
    }
  });
});

describe('the test signal', () => {
  it('is silent, rises by equal ratios in equal times, and is silent again; its peak is 12 dB below full scale', () => {
    const samples = testSignal(SWEEP_SIGNAL);
    assert.equal(samples.length, 7 * 48_000);
    assert.ok(samples.subarray(0, 24_000).every((sample) => sample === 0));
    assert.ok(samples.subarray(-24_000).every((sample) => sample === 0));
    assert.ok(Math.abs(20 * Math.log10(samples.reduce((most, each) => Math.max(most, each))) + 12) < 0.01);
    // Crossings of zero, counted over a tenth of a second, around the middle: √(20 Hz · 22 kHz).
    const middle = samples.subarray(3.45 * 48_000, 3.55 * 48_000);
    const crossings = middle.reduce((sum, each, index) => sum + Number(each > 0 && (middle[index - 1] ?? 1) <= 0), 0);
    assert.ok(Math.abs(crossings - 0.1 * Math.sqrt(20 * 22_000)) <= 1.5, `${crossings}`);
    const signal: SweepSignal = SWEEP_SIGNAL;
    assert.ok(Math.abs(passedAtHz(signal, 3) - Math.sqrt(20 * 22_000)) < 1e-6);
  });
});
