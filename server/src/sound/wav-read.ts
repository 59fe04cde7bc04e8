/**
 * The samples of a WAV file: RIFF (Microsoft and IBM 1991, Multimedia Programming Interface), linear PCM of 16, 24 or 32 bits or 32-bit
 * numbers, also in the extensible form. Bytes in, samples or one line of what is wrong out.
 */

export interface Recording {
  readonly sampleRate: number;
  /** Full scale is 1. One array a channel, all of one length. */
  readonly channels: readonly Float64Array[];
}

const MOST_WAV_BYTES = 100 * 1024 * 1024;

export function readWav(bytes: Uint8Array): Recording | string {
  if (bytes.length > MOST_WAV_BYTES) return `is larger than ${MOST_WAV_BYTES / 1024 / 1024} MB`;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const word = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || word(0) !== 'RIFF' || word(8) !== 'WAVE') return 'is no WAV file';
  let format: Format | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const name = word(at);
    const start = at + 8;
    // A recorder that was cut off leaves a length that is longer than the file, or none.
    const end = Math.min(bytes.length, start + view.getUint32(at + 4, true));
    if (name === 'fmt ' && end - start >= 16) format = formatAt(view, start, end);
    if (name === 'data') {
      if (format === undefined) return 'names no format ahead of its sound';
      const read = READERS[`${format.kind} ${format.bits}`];
      if (read === undefined) return `holds sound of a kind that is not read; save it as PCM of 16 or 24 bits`;
      return samplesOf(view, start, end, format, read);
    }
    at = end + ((end - start) % 2);
  }
  return 'holds no sound';
}

interface Format {
  readonly kind: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly bits: number;
}

const EXTENSIBLE = 0xfffe;

function formatAt(view: DataView, start: number, end: number): Format {
  const kind = view.getUint16(start, true);
  return {
    kind: kind === EXTENSIBLE && end - start >= 26 ? view.getUint16(start + 24, true) : kind,
    channels: view.getUint16(start + 2, true),
    sampleRate: view.getUint32(start + 4, true),
    bits: view.getUint16(start + 14, true),
  };
}

type Read = (view: DataView, at: number) => number;

const READERS: Readonly<Record<string, Read>> = {
  '1 16': (view, at) => view.getInt16(at, true) / 2 ** 15,
  '1 24': (view, at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 2 ** 23,
  '1 32': (view, at) => view.getInt32(at, true) / 2 ** 31,
  '3 32': (view, at) => view.getFloat32(at, true),
};

function samplesOf(view: DataView, start: number, end: number, format: Format, read: Read): Recording | string {
  const { channels, sampleRate, bits } = format;
  if (channels < 1 || channels > 8) return `holds ${channels} channels; one or two are needed`;
  if (sampleRate < 32_000 || sampleRate > 384_000)
    return `has ${sampleRate} samples a second; 32,000 or more are needed`;
  const bytes = bits / 8;
  const length = Math.floor((end - start) / (bytes * channels));
  const samples = Array.from({ length: channels }, (_, channel) =>
    Float64Array.from({ length }, (_, index) => read(view, start + bytes * (channels * index + channel))),
  );
  return samples.every((each) => each.every(Number.isFinite))
    ? { sampleRate, channels: samples }
    : 'holds samples that are no numbers';
}
