import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import type { Position } from '../model/instrument.ts';
import { slotsOf } from '../model/selection.ts';

/** A selector position through which a pickup or an instrument is heard. */
export interface HeardPosition {
  /** `quorl/2`: instrument and key. */
  readonly id: string;
  readonly instrument: InstrumentAnalysis;
  readonly position: Position;
}

/** All positions of an instrument of the file; of a pickup, those of the file's instruments that it takes part in. */
export function heardPositions(
  { instruments }: Analysis,
  subject: { readonly kind: 'pickup' | 'instrument'; readonly name: string },
): readonly HeardPosition[] {
  return instruments.flatMap((instrument) => {
    const { name, positions } = instrument.instrument;
    if (subject.kind === 'instrument' && name !== subject.name) return [];
    return positions.flatMap((position): readonly HeardPosition[] => {
      const heard = position.selection ? slotsOf(position.selection) : [];
      const takesPart = subject.kind === 'instrument' || heard.some(({ pickup }) => pickup?.name === subject.name);
      return takesPart ? [{ id: `${name}/${position.key.value}`, instrument, position }] : [];
    });
  });
}
