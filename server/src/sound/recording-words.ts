/** What is said of a recorded sweep: what was found in it, and what makes it useless. */
import { joinUnit, printNumber } from '../quantities/print.ts';
import type { Channel, FaultyRecording, RecordedCurve, RecordingFault } from './recorded-curve.ts';

const CHANNELS: Readonly<Record<Channel, string>> = {
  pickup: "the pickup's channel",
  reference: "the reference's channel",
};

const FAULTS: Readonly<Record<RecordingFault, (channel: string) => string>> = {
  clipped: (channel) => `clipped: ${channel} reaches full scale. Turn its input down and record again.`,
  channels: () =>
    'the channels are exchanged: a pickup behind a resistor gives less than it gets, and here it gives more. Name the other one as the reference, or exchange the plugs.',
  'cut-short': () =>
    'cut short: the recording does not hold the whole sweep. Start it before the signal plays, end it after the silence; or the signal had another length.',
  silent: (channel) =>
    `silent: there is no sweep in ${channel}. Look at plugs and levels; a signal of another length is not found either.`,
};

export const recordingFaultText = ({ fault, channel }: FaultyRecording): string =>
  FAULTS[fault](channel === undefined ? 'the recording' : CHANNELS[channel]);

/** One line each. */
export function recordingLines(curve: RecordedCurve): readonly string[] {
  const { points, isShapeOnly, hum, peakDbfs, isInverted } = curve;
  const sds = points.map(({ levelSdDb }) => levelSdDb);
  const dbfs = (value: number) => joinUnit(printNumber(value, 1), 'dBFS');
  const peaks = [
    `peak of the pickup's channel ${dbfs(peakDbfs.pickup)}`,
    ...(peakDbfs.reference === undefined ? [] : [`of the reference's ${dbfs(peakDbfs.reference)}`]),
  ];
  return [
    `${points.length} points, level known to ${printNumber(Math.min(...sds), 3)} to ${joinUnit(printNumber(Math.max(...sds), 3), 'dB')}`,
    peaks.join(', '),
    ...(hum
      ? [`hum of ${joinUnit(printNumber(hum.hz, 2), 'Hz')} at ${dbfs(hum.levelDbfs)} and its harmonics taken out`]
      : []),
    ...(isInverted
      ? ['one input turns the signal over (half a turn at the low end); a fit undoes it, a right cable saves it']
      : []),
    ...(isShapeOnly ? ['against the signal as it was played: the shape only, neither its level nor a phase'] : []),
  ];
}
