/** What is heard of a pickup or a switch position, in one line. */
import type { PositionEstimates } from '../estimates/estimates.ts';
import type { HumVerdict } from '../estimates/phase.ts';
import { ENGLISH, type Language, type PlainText } from './languages/language.ts';
import { numberText } from './number-text.ts';
import { POSITION_NUMBERS } from './numbers.ts';
import { phaseWords } from './phases.ts';

export const HUM_WORDS: Readonly<Record<HumVerdict, PlainText>> = {
  adds: 'hum adds',
  hums: 'hum does not cancel',
  'in part': 'hum cancels in part',
  gone: 'hum cancels',
};

export type Heard = Pick<PositionEstimates, 'phase' | 'signalDb' | 'humDb'> & {
  /** `undefined` for one coil, or where nobody knows. */
  readonly hum: HumVerdict | undefined;
  readonly pickup?: string;
  /** Key of a position of the switch. */
  readonly position?: string;
  readonly title?: string;
};

/** `position 2 (both): in phase, hum cancels; string +6 ± 1 dB, hum −27 dB or lower against one coil`. */
export function heardWords(heard: Heard, t = ENGLISH): string {
  const { pickup, position, title } = heard;
  const name =
    position === undefined ? pickup : t('position {0}', position + (title === undefined ? '' : ` (${title})`));
  return name === undefined ? soundWords(heard, t) : `${name}: ${soundWords(heard, t)}`;
}

function soundWords({ phase, hum, signalDb, humDb }: Heard, t: Language): string {
  // One coil is what levels are told against.
  if (phase === 'single' && hum === undefined) return t('{0}, which hums by nature', phaseWords(phase, t));
  const verdict = [phaseWords(phase, t), ...(hum === undefined ? [] : [t(HUM_WORDS[hum])])].join(', ');
  const levels = [
    ...(signalDb ? [t('string {0}', numberText(signalDb, POSITION_NUMBERS.signalDb, t))] : []),
    ...(humDb ? [t('hum {0}', numberText(humDb, POSITION_NUMBERS.humDb, t))] : []),
  ];
  return levels.length === 0 ? verdict : t('{0}; {1} against one coil', verdict, levels.join(', '));
}

/** Of a reading that a repair makes history. */
export const noLongerWords = (what: string, t = ENGLISH): string => t('no longer as read, read anew: {0}', what);
