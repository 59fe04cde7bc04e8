import { given } from '../../../grammar/values/present.ts';
import { sweepLine } from '../features/sweep-line.ts';
import { curveFromRecordings } from '../sound/curve-from-recordings.ts';
import { SWEEP_SIGNAL, testSignal } from '../sound/exponential-sweep.ts';
import { wavBytes } from '../sound/wav.ts';
import { type Recording, readWav } from '../sound/wav-read.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Language } from '../words/languages/language.ts';
import { fromBase64, toBase64 } from './base64.ts';
import { offsetFrom } from './from-protocol.ts';
import type { AnswerOwn } from './guard.ts';
import {
  CURVE_REQUEST,
  type CurveParams,
  type CurveResult,
  SWEEP_LINE_REQUEST,
  type SweepLineParams,
  type SweepLineResult,
  TEST_SIGNAL_REQUEST,
  type TestSignalResult,
} from './protocol.ts';
import type { Session } from './session.ts';
import { toWorkspaceEdit } from './to-protocol.ts';

/** Measuring a pickup over frequency: the signal that is played, the curve of its recording, the line that names it. */
export function serveSweeps(own: AnswerOwn, session: Session, t: Language): void {
  const cautions = cautionsOf('sweep').map((each) => t(each));
  own<object, TestSignalResult>(TEST_SIGNAL_REQUEST, 'test signal', { wav: '', cautions }, () => ({
    wav: toBase64(wavBytes(testSignal(SWEEP_SIGNAL), SWEEP_SIGNAL.sampleRate, 24)),
    cautions,
  }));
  const failed = { lines: [], problem: 'The server’s output says why there is no curve.', cautions };
  own<CurveParams, CurveResult>(CURVE_REQUEST, 'curve', failed, (params) => ({ ...curveOf(params), cautions }));
  own<SweepLineParams, SweepLineResult>(SWEEP_LINE_REQUEST, 'line of a sweep', {}, async (params, token) => {
    const found = await session.whenAnalysed(params.uri, token);
    if (!found) return {};
    const edits = sweepLine(found.analysis, offsetFrom(found.document, params.cursor), params);
    return given({ edit: edits && toWorkspaceEdit((uri) => session.files.document(uri), edits) });
  });
}

function curveOf({ recordings, reference, seconds }: CurveParams): Omit<CurveResult, 'protocol' | 'cautions'> {
  const read: Recording[] = [];
  for (const { name, wav } of recordings) {
    const recording = readWav(fromBase64(wav));
    if (typeof recording === 'string') return { lines: [], problem: `${name}: ${recording}` };
    read.push(recording);
  }
  const [pickup, beside] = read;
  const names = recordings.map(({ name }) => name);
  if (pickup === undefined) return { lines: [], problem: 'There is no recording.' };
  const made = curveFromRecordings({ pickup, beside, side: reference, names, seconds });
  return made.kind === 'curve'
    ? { text: made.text, lines: made.lines }
    : { lines: [], problem: `${names[0]}: ${made.why}` };
}
