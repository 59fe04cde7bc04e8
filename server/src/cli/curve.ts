import path from 'node:path';
import { curveText } from '../sound/curve-text.ts';
import { recordedCurve } from '../sound/recorded-curve.ts';
import { recordingFaultText, recordingLines } from '../sound/recording-words.ts';
import { type Recording, readWav } from '../sound/wav-read.ts';
import { CommandError, defineCommand } from './command.ts';
import { SIGNAL_OPTIONS, signalOf } from './signal-options.ts';
import { readPlainFile } from './text-file.ts';
import { visible } from './visible.ts';
import { writeOutput } from './write-file.ts';

export const curve = defineCommand({
  name: 'curve',
  summary: 'a recording of the test signal as a curve over frequency, for `sweep` in a spec',
  positionals: 'RECORDING.wav',
  options: {
    output: { type: 'text', value: 'CURVE.csv', short: 'o', meaning: 'the file to write; it is needed' },
    reference: {
      type: 'text',
      value: 'left|right|FILE.wav',
      meaning: 'the channel, or the recording made with it, that holds what was sent; left unless given',
    },
    ...SIGNAL_OPTIONS,
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
  },
  notes: [
    'A recording of one channel without a reference is taken against the signal as it was played: its shape only, without phase.',
    '24 points an octave from 25 Hz on, each with what its level is known to. What a recorder adds in harmonics is cut off, hum is fitted and taken out.',
    'A recording that is clipped, silent, cut short, or whose channels are exchanged is told as that, and no file is written.',
  ],
  example: {
    line: 'pickup-spec curve heron.wav -o sweeps/heron.csv',
    meaning: 'left is what was sent, right what came from the pickup',
  },
  async run(values, [file = ''], context) {
    const { output } = values;
    if (output === undefined) throw new CommandError('curve needs a file to write: -o CURVE.csv');
    const recording = recordingAt(file, context.cwd);
    const channels = channelsOf(recording, file, values.reference, context.cwd);
    const result = recordedCurve({ ...channels.heard, signal: signalOf(values, recording.sampleRate) });
    context.progress.clear();
    if ('fault' in result) {
      context.stderr.write(`${visible(file)}: ${recordingFaultText(result)}\n`);
      return 1;
    }
    const lines = recordingLines(result);
    const text = curveText(result, [
      `made of ${channels.files.map((each) => path.basename(each)).join(' and ')}`,
      ...lines,
    ]);
    const madeFrom = channels.files.map((each) => path.resolve(context.cwd, each));
    for (const line of lines) context.stderr.write(`${line}\n`);
    await writeOutput(output, text, { replace: values.force, madeFrom }, context);
    return 0;
  },
});

function recordingAt(file: string, cwd: string): Recording {
  const bytes = readPlainFile(path.resolve(cwd, file));
  const recording = typeof bytes === 'string' ? bytes : readWav(bytes);
  if (typeof recording === 'string') throw new CommandError(`${file}: ${recording}`);
  return recording;
}

interface Channels {
  readonly heard: { readonly pickup: Float64Array; readonly reference: Float64Array | undefined };
  readonly files: readonly string[];
}

function channelsOf(recording: Recording, file: string, reference: string | undefined, cwd: string): Channels {
  const [left = new Float64Array(), right] = recording.channels;
  if (recording.channels.length > 2)
    throw new CommandError(`${file}: holds ${recording.channels.length} channels; save the two that were used`);
  const files = [file];
  if (reference === undefined || reference === 'left' || reference === 'right') {
    if (right === undefined) {
      if (reference !== undefined)
        throw new CommandError(`${file}: holds one channel, so its ${reference} is no reference beside it`);
      return { heard: { pickup: left, reference: undefined }, files };
    }
    const isRight = reference === 'right';
    return { heard: { pickup: isRight ? left : right, reference: isRight ? right : left }, files };
  }
  if (right !== undefined) throw new CommandError(`${file}: holds two channels; --reference is left or right`);
  const sent = recordingAt(reference, cwd);
  if (sent.channels.length > 1 || sent.sampleRate !== recording.sampleRate)
    throw new CommandError(`${reference}: one channel of as many samples a second as ${file} is needed`);
  return { heard: { pickup: left, reference: sent.channels[0] }, files: [file, reference] };
}
