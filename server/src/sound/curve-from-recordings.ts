/** What a recording, or two that were made together, become: the text of a curve file, or what is wrong with them. */
import { curveText } from './curve-text.ts';
import { SWEEP_SIGNAL } from './exponential-sweep.ts';
import { type RecordedFiles, recordedChannels } from './recorded-channels.ts';
import { recordedCurve } from './recorded-curve.ts';
import { recordingFaultText, recordingLines } from './recording-words.ts';

export interface CurveAsked extends RecordedFiles {
  /** Of the files, as the curve tells what it is made of. */
  readonly names: readonly string[];
  /** How long the sweep took, where it was not the usual signal. */
  readonly seconds: number | undefined;
}

export type CurveMade =
  | { readonly kind: 'curve'; readonly text: string; readonly lines: readonly string[] }
  /** The files do not go together, or what was recorded is of no use; `why` follows a file's name. */
  | { readonly kind: 'unfit' | 'faulty'; readonly why: string };

export function curveFromRecordings({ names, seconds, ...files }: CurveAsked): CurveMade {
  const channels = recordedChannels(files);
  if (typeof channels === 'string') return { kind: 'unfit', why: channels };
  const signal = { seconds: seconds ?? SWEEP_SIGNAL.seconds, sampleRate: files.pickup.sampleRate };
  const result = recordedCurve({ ...channels, signal });
  if ('fault' in result) return { kind: 'faulty', why: recordingFaultText(result) };
  const lines = recordingLines(result);
  return { kind: 'curve', text: curveText(result, names, lines), lines };
}
