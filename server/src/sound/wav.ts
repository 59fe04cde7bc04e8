/** Sound as the bytes of a WAV file: RIFF, one channel, linear PCM of 16 or 24 bits (Microsoft and IBM 1991, Multimedia Programming Interface). */
import { SAMPLE_RATE } from './filter.ts';

/** Samples beyond −1 to 1 are cut off there; what is no number is silent. */
export function wavBytes(samples: Float32Array, sampleRate = SAMPLE_RATE, bits: 16 | 24 = 16): Uint8Array {
  const sampleBytes = bits / 8;
  const dataBytes = sampleBytes * samples.length;
  // What follows a chunk of an odd length starts one byte later.
  const bytes = new Uint8Array(HEADER_BYTES + dataBytes + (dataBytes % 2));
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => {
    for (let index = 0; index < text.length; index++) view.setUint8(at + index, text.charCodeAt(index));
  };
  word(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleBytes * sampleRate, true);
  view.setUint16(32, sampleBytes, true);
  view.setUint16(34, bits, true);
  word(36, 'data');
  view.setUint32(40, dataBytes, true);
  const fullScale = 2 ** (bits - 1) - 1;
  samples.forEach((sample, index) => {
    const bounded = Number.isNaN(sample) ? 0 : Math.max(-1, Math.min(1, sample));
    const whole = Math.round(bounded * fullScale);
    const at = HEADER_BYTES + sampleBytes * index;
    // The low bytes come first, the last one carries the sign.
    if (bits === 24) view.setUint8(at, whole & 0xff);
    view.setInt16(at + sampleBytes - 2, bits === 24 ? whole >> 8 : whole, true);
  });
  return bytes;
}

const HEADER_BYTES = 44;
const PCM = 1;
