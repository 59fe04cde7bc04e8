import { SWEEP_LEVEL_DBFS, SWEEP_SIGNAL, sweepToHz, testSignal } from '../sound/exponential-sweep.ts';
import { wavBytes } from '../sound/wav.ts';
import { cautionsOf } from '../words/cautions.ts';
import { CommandError, defineCommand } from './command.ts';
import { SIGNAL_OPTIONS, signalOf } from './signal-options.ts';
import { writeOutput } from './write-file.ts';

export const signal = defineCommand({
  name: 'signal',
  summary: 'the test signal for measuring a pickup over frequency, as a sound file',
  positionals: '',
  options: {
    output: { type: 'text', value: 'FILE.wav', short: 'o', meaning: 'the file to write; it is needed' },
    ...SIGNAL_OPTIONS,
    rate: { type: 'choice', choices: ['48000', '44100', '96000'], meaning: 'samples a second' },
    level: {
      type: 'number',
      value: '-40..-3',
      min: -40,
      max: -3,
      meaning: `peak against full scale, in dB; ${SWEEP_LEVEL_DBFS} unless given`,
    },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
  },
  notes: [
    'WAV, 24 bit, one channel: half a second of silence, a sine that rises from 20 Hz to 22 kHz by equal ratios in equal times, half a second of silence.',
    'The output to the left input and to the hot lead of the pickup; its ground lead to the right input and over 10 kohm, 1 %, to ground: `over 10 kohm` in a spec. Covers and baseplates go with the ground lead.',
    'Play it, record both channels together, and make a curve of the recording with `curve`.',
    ...cautionsOf('sweep'),
  ],
  example: { line: 'pickup-spec signal -o sweep.wav', meaning: 'six seconds, at 12 dB below full scale' },
  async run(values, _, context) {
    if (values.output === undefined) throw new CommandError('signal needs a file to write: -o FILE.wav');
    const played = signalOf(values, Number(values.rate));
    const samples = testSignal(played, values.level);
    const bytes = wavBytes(samples, played.sampleRate, 24);
    await writeOutput(values.output, bytes, { replace: values.force }, context);
    const [from, to] = [20, Math.round(sweepToHz(played) / 100) / 10];
    context.stderr.write(`${from} Hz to ${to} kHz in ${played.seconds} s, ${values.level ?? SWEEP_LEVEL_DBFS} dBFS\n`);
    if (played.seconds !== SWEEP_SIGNAL.seconds)
      context.stderr.write(`its recording is read with: curve --seconds ${played.seconds}\n`);
    for (const line of cautionsOf('sweep')) context.stderr.write(`${line}\n`);
    return 0;
  },
});
