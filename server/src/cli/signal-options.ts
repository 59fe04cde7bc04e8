/** How long the test signal sweeps: what plays it and what reads its recording must agree on it. */
import { SWEEP_SIGNAL, type SweepSignal } from '../sound/exponential-sweep.ts';
import type { Options, Values } from './command.ts';

export const SIGNAL_OPTIONS = {
  seconds: {
    type: 'number',
    value: '1..30',
    min: 1,
    max: 30,
    meaning: `how long the sweep of the test signal takes; ${SWEEP_SIGNAL.seconds} unless given`,
  },
} as const satisfies Options;

export const signalOf = ({ seconds }: Values<typeof SIGNAL_OPTIONS>, sampleRate: number): SweepSignal => ({
  seconds: seconds ?? SWEEP_SIGNAL.seconds,
  sampleRate,
});
