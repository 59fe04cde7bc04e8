import type { Analysis, Played } from '../analysis/analysis-types.ts';
import { type HeardPosition, heardPositions } from '../features/heard-positions.ts';
import type { SectionParams } from './bench-view-protocol.ts';
import type { Pots, Subject } from './protocol-parts.ts';

/** The position asked for; an instrument is always heard in one, its first unless another is named. */
export function heardAt(
  analysis: Analysis,
  { subject, position }: Pick<SectionParams, 'subject' | 'position'>,
): HeardPosition | undefined {
  const heard = positionsOf(analysis, subject);
  const asked = heard.find(({ id }) => id === position);
  return asked ?? (subject.kind === 'instrument' ? heard[0] : undefined);
}

/** Positions through which the subject is heard: parts on the shelf in none. */
export const positionsOf = (analysis: Analysis, { kind, name }: Subject): readonly HeardPosition[] =>
  kind === 'parts' ? [] : heardPositions(analysis, { kind, name });

/** From another process anything may come: pots lie between 0 and 10, to a tenth. */
export function potsFrom(played: Pots | undefined): Played {
  const at = (value: unknown): number =>
    typeof value === 'number' && Number.isFinite(value) ? Math.round(Math.min(Math.max(value, 0), 10) * 10) / 10 : 10;
  return { volume: at(played?.volume), tone: at(played?.tone) };
}
