/** What it is called how the coils of a pickup or a switch position sound together. */
import type { PhaseVerdict } from '../estimates/estimates.ts';
import { ENGLISH, type PlainText } from './languages/language.ts';

const WORDS: Readonly<Record<PhaseVerdict, PlainText>> = {
  in: 'in phase',
  out: 'out of phase',
  single: 'one coil',
  unproven: 'phase not proven',
  silent: 'silent',
};

const HINTS: Readonly<Partial<Record<PhaseVerdict, PlainText>>> = {
  out: 'thin',
  unproven: 'a kick at each coil settles it',
};

export const phaseWords = (phase: PhaseVerdict, t = ENGLISH): string => t(WORDS[phase]);

/** With what it sounds like, or what would settle it. */
export const phaseExplained = (phase: PhaseVerdict, t = ENGLISH): string => {
  const hint = HINTS[phase];
  return hint === undefined ? t(WORDS[phase]) : `${t(WORDS[phase])}: ${t(hint)}`;
};
