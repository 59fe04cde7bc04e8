/** Sound as the bytes of a WAV file: RIFF, one channel, 16-bit linear PCM (Microsoft and IBM 1991, Multimedia Programming Interface). */
import { SAMPLE_RATE } from './filter.ts';

/** Samples beyond −1 to 1 are cut off there; what is no number is silent. */
export function wavBytes(samples: Float32Array, sampleRate = SAMPLE_RATE): Uint8Array {
  const dataBytes = 2 * samples.length;
  const bytes = new Uint8Array(HEADER_BYTES + dataBytes);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => {
    for (let index = 0; index < text.length; index++) view.setUint8(at + index, text.charCodeAt(index));
  };
  word(0, 'RIFF');
  view.setUint32(4, HEADER_BYTES - 8 + dataBytes, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, 2 * sampleRate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  word(36, 'data');
  view.setUint32(40, dataBytes, true);
  samples.forEach((sample, index) => {
    const bounded = Number.isNaN(sample) ? 0 : Math.max(-1, Math.min(1, sample));
    view.setInt16(HEADER_BYTES + 2 * index, Math.round(bounded * FULL_SCALE), true);
  });
  return bytes;
}

const HEADER_BYTES = 44;
const PCM = 1;
const FULL_SCALE = 32_767;
