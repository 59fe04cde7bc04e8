/** What it is called how the coils of a pickup or a switch position sound together. */
import type { PhaseVerdict } from '../estimates/estimates.ts';

const WORDS: Readonly<Record<PhaseVerdict, string>> = {
  in: 'in phase',
  out: 'out of phase',
  single: 'one coil',
  unproven: 'phase not proven',
  silent: 'silent',
};

const HINTS: Readonly<Partial<Record<PhaseVerdict, string>>> = {
  out: 'thin',
  unproven: 'a kick at each coil settles it',
};

export const phaseWords = (phase: PhaseVerdict): string => WORDS[phase];

/** With what it sounds like, or what would settle it. */
export const phaseExplained = (phase: PhaseVerdict): string => {
  const hint = HINTS[phase];
  return hint === undefined ? WORDS[phase] : `${WORDS[phase]}: ${hint}`;
};
