/** Levels of a WAV file's sound at single frequencies, by the plain sum of the discrete Fourier transform: no shared code. */
import assert from 'node:assert/strict';

/** Samples of a WAV file: RIFF, 'fmt ' and 'data' chunks read by their places and lengths. */
export function samplesOf(bytes: Uint8Array): { readonly sampleRate: number; readonly samples: Float64Array } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const word = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  assert.deepEqual([word(0), word(8)], ['RIFF', 'WAVE']);
  assert.equal(view.getUint32(4, true), bytes.length - 8);
  let sampleRate = 0;
  for (let at = 12; at < bytes.length; at += 8 + view.getUint32(at + 4, true)) {
    const [name, length] = [word(at), view.getUint32(at + 4, true)];
    if (name === 'fmt ') {
      assert.deepEqual([view.getUint16(at + 8, true), view.getUint16(at + 10, true)], [1, 1], 'PCM, one channel');
      assert.equal(view.getUint16(at + 22, true), 16);
      sampleRate = view.getUint32(at + 12, true);
    }
    if (name === 'data')
      return {
        sampleRate,
        samples: Float64Array.from({ length: length / 2 }, (_, index) => view.getInt16(at + 8 + 2 * index, true)),
      };
  }
  return assert.fail('no data');
}

/**
 * Level in dB at a frequency, over the whole sound without a window: so a filter's output has exactly the filter's gain above its
 * input (convolution theorem), wherever the partials of the sound stand.
 */
export function levelDb(samples: Float64Array | Float32Array, sampleRate: number, hz: number): number {
  let [re, im] = [0, 0];
  const step = (2 * Math.PI * hz) / sampleRate;
  samples.forEach((sample, index) => {
    re += sample * Math.cos(step * index);
    im -= sample * Math.sin(step * index);
  });
  return 20 * Math.log10(Math.hypot(re, im));
}
