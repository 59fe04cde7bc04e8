import type { PositionEstimates } from '../estimates/estimates.ts';
import { phaseWords } from '../words/phases.ts';
import { capital } from '../words/text.ts';

export interface PositionVerdict {
  /** Short sentences; `stands out` where a player will notice it. */
  readonly sentences: readonly { readonly text: string; readonly standsOut: boolean }[];
}

/** Below this a position is quiet; a real null is not deeper than the steel of the poles leaves it. */
const QUIET_DB = -30;
const PARTLY_DB = -6;
const ADDS_DB = 1;

/** What is to be heard in a position, in the trade's words. */
export function positionVerdict(
  { phase, humDb, resistanceOhm, response }: PositionEstimates,
  onPurpose: boolean,
): PositionVerdict {
  if (resistanceOhm === null) return said([['Nothing is connected.', true]]);
  if (resistanceOhm !== undefined && resistanceOhm.value < SHORT_OHM) return said([['The output is shorted.', true]]);
  if (phase === 'unproven' && response === undefined && humDb === undefined)
    return said([['Unknown: turns or a coil’s sign are missing.', false]]);
  const meant = onPurpose ? ', as meant' : '';
  const sentence = `${capital(phaseWords(phase))}.`;
  const phases = {
    in: [[sentence, false]],
    out: [[`${capital(phaseWords('out'))}${meant}.`, !onPurpose]],
    unproven: [[sentence, true]],
    single: [],
  } as const;
  if (humDb === undefined) return said([...phases[phase], ['Hum not known.', false]]);
  const bound = humDb.value + humDb.sd;
  const alone = phase === 'single' && Math.abs(humDb.value) < 0.5;
  const hum: Sentence =
    humDb.value > ADDS_DB
      ? [`Hum adds${meant}.`, !onPurpose]
      : alone
        ? ['A single coil hums by nature.', false]
        : bound <= QUIET_DB + 0.5
          ? ['Hum cancels.', false]
          : humDb.value <= PARTLY_DB
            ? ['Hum cancels in part.', true]
            : [`Hum does not cancel${meant}.`, !onPurpose];
  return said([...phases[phase], hum]);
}

/** A jack that reads less is shorted, whatever hangs on it. */
const SHORT_OHM = 1;

type Sentence = readonly [text: string, standsOut: boolean];

const said = (sentences: readonly Sentence[]): PositionVerdict => ({
  sentences: sentences.map(([text, standsOut]) => ({ text, standsOut })),
});
