import { SHORT_OHM } from '../estimates/common-practice.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { humVerdict } from '../estimates/phase.ts';
import { HUM_WORDS } from '../words/heard.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { phaseWords } from '../words/phases.ts';
import { capital } from '../words/text.ts';
import { untoldShortly } from '../words/untold.ts';

export interface PositionVerdict {
  /** Short sentences; `stands out` where a player will notice it. */
  readonly sentences: readonly { readonly text: string; readonly standsOut: boolean }[];
}

/** What is to be heard in a position, in the trade's words. */
export function positionVerdict(
  { phase, humDb, resistanceOhm, response, untold }: PositionEstimates,
  onPurpose: boolean,
  t = ENGLISH,
): PositionVerdict {
  if (resistanceOhm === null) return said([[t('Silent: nothing is connected.'), true]]);
  if (resistanceOhm !== undefined && resistanceOhm.value < SHORT_OHM)
    return said([[t('Silent: hot and ground are joined.'), true]]);
  if (untold) return said([[untoldShortly(untold, t), false]]);
  if (phase === 'unproven' && response === undefined && humDb === undefined)
    return said([[t('Unknown: turns or a coil’s sign are missing.'), false]]);
  const meant = onPurpose ? `, ${t('as meant')}` : '';
  const sentence = `${capital(phaseWords(phase, t))}.`;
  const phases = {
    in: [[sentence, false]],
    out: [[`${capital(phaseWords('out', t))}${meant}.`, !onPurpose]],
    unproven: [[sentence, true]],
    single: [],
    silent: [[sentence, true]],
  } as const;
  if (phase === 'silent') return said(phases[phase]);
  if (humDb === undefined) return said([...phases[phase], [t('Hum not known.'), false]]);
  return said([...phases[phase], humSentence(humDb.value, phase === 'single', onPurpose, t)]);
}

function humSentence(db: number, isSingle: boolean, onPurpose: boolean, t: Language): Sentence {
  const meant = onPurpose ? `, ${t('as meant')}` : '';
  if (isSingle && Math.abs(db) < 0.5) return [t('A single coil hums by nature.'), false];
  const verdict = humVerdict(db);
  const standsOut = verdict === 'in part' || (verdict !== 'gone' && !onPurpose);
  return [`${capital(t(HUM_WORDS[verdict]))}${verdict === 'adds' || verdict === 'hums' ? meant : ''}.`, standsOut];
}

type Sentence = readonly [text: string, standsOut: boolean];

const said = (sentences: readonly Sentence[]): PositionVerdict => ({
  sentences: sentences.map(([text, standsOut]) => ({ text, standsOut })),
});
