/** Which samples of a recording are the pickup's and which what was sent. */
import type { RecordedSweep } from './recorded-curve.ts';
import type { Recording } from './wav-read.ts';

/** One recording of two channels, or of one beside another that was made with it; of one alone, its shape is all that it says. */
export interface RecordedFiles {
  readonly pickup: Recording;
  /** The channel that holds what was sent, where there are two; the left one unless named. */
  readonly side?: 'left' | 'right' | undefined;
  readonly beside?: Recording | undefined;
}

/** A text: why these do not go together. */
export function recordedChannels({ pickup, side, beside }: RecordedFiles): Omit<RecordedSweep, 'signal'> | string {
  const [left = new Float64Array(), right, ...more] = pickup.channels;
  if (more.length > 0) return `holds ${pickup.channels.length} channels; save the two that were used`;
  if (beside) {
    if (right) return 'holds two channels already; beside them no other recording is the reference';
    return beside.channels.length === 1 && beside.sampleRate === pickup.sampleRate
      ? { pickup: left, reference: beside.channels[0] }
      : 'does not go with its reference: one channel each, with as many samples a second, is needed';
  }
  if (right === undefined)
    return side === undefined
      ? { pickup: left, reference: undefined }
      : `holds one channel; its ${side} is no reference`;
  return side === 'right' ? { pickup: left, reference: right } : { pickup: right, reference: left };
}
