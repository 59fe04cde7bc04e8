import path from 'node:path';
import { curveFromRecordings } from '../sound/curve-from-recordings.ts';
import { type Recording, readWav } from '../sound/wav-read.ts';
import { cautionsOf } from '../words/cautions.ts';
import { CommandError, defineCommand } from './command.ts';
import { SIGNAL_OPTIONS } from './signal-options.ts';
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
    ...cautionsOf('sweep'),
  ],
  example: {
    line: 'pickup-spec curve heron.wav -o sweeps/heron.csv',
    meaning: 'left is what was sent, right what came from the pickup',
  },
  async run(values, [file = ''], context) {
    const { output } = values;
    if (output === undefined) throw new CommandError('curve needs a file to write: -o CURVE.csv');
    const { reference } = values;
    const isSide = reference === 'left' || reference === 'right';
    const files = reference === undefined || isSide ? [file] : [file, reference];
    const [pickup, beside] = files.map((each) => recordingAt(each, context.cwd));
    if (pickup === undefined) throw new CommandError('curve needs a recording');
    const made = curveFromRecordings({
      pickup,
      beside,
      side: isSide ? reference : undefined,
      names: files.map((each) => path.basename(each)),
      seconds: values.seconds,
    });
    if (made.kind === 'unfit') throw new CommandError(`${file}: ${made.why}`);
    context.progress.clear();
    if (made.kind !== 'curve') {
      context.stderr.write(`${visible(file)}: ${made.why}\n`);
      for (const line of cautionsOf('sweep')) context.stderr.write(`${line}\n`);
      return 1;
    }
    const { text, lines } = made;
    const madeFrom = files.map((each) => path.resolve(context.cwd, each));
    for (const line of [...lines, ...cautionsOf('sweep')]) context.stderr.write(`${line}\n`);
    await writeOutput(output, text, { replace: values.force, madeFrom }, context);
    const named = visible(output.split(path.sep).join('/'));
    context.stderr.write(
      `write into readings, with the leads and the resistor that it was: sweep hot to ground "${named}" over 10 kohm\n`,
    );
    return 0;
  },
});

function recordingAt(file: string, cwd: string): Recording {
  const bytes = readPlainFile(path.resolve(cwd, file));
  const recording = typeof bytes === 'string' ? bytes : readWav(bytes);
  if (typeof recording === 'string') throw new CommandError(`${file}: ${recording}`);
  return recording;
}
