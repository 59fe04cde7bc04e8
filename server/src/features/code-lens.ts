/** What stands above a pickup and an instrument: its numbers in one line, who uses it, and what to open. */
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printValue } from '../quantities/print.ts';
import { marked, numberText } from '../words/number-text.ts';
import { type NumberName, PICKUP_NUMBERS, POSITION_NUMBERS } from '../words/numbers.ts';
import { phaseWords } from '../words/phases.ts';
import { list } from '../words/text.ts';
import { ownSubjects } from './own-subjects.ts';
import { nameItem } from './syntax-at.ts';

/** What can be opened first: numbers that come later move nothing, and are what is cut in a narrow pane. */
export const LENS_KINDS = ['bench view', 'cards', 'numbers', 'used by'] as const;
export type LensKind = (typeof LENS_KINDS)[number];

export interface CodeLens {
  readonly kind: LensKind;
  readonly of: LensSubject;
  /** The name of what it is about. */
  readonly span: Span;
}

export interface LensSubject {
  readonly kind: 'pickup' | 'instrument';
  readonly name: string;
}

/** Only where they stand: nothing is worked out for it. A record is looked at in its later state. */
export function codeLenses(analysis: Analysis): readonly CodeLens[] {
  return ownSubjects(analysis).flatMap(({ kind, name, span, chunk, isRecord }) =>
    LENS_KINDS.flatMap((lens): readonly CodeLens[] => {
      if (isRecord || chunk.content?.kind !== 'block' || (lens === 'used by' && kind === 'instrument')) return [];
      const named = nameItem(chunk.content).span;
      const behind = span.start - chunk.content.span.start;
      return [{ kind: lens, of: { kind, name }, span: { start: named.start + behind, end: named.end + behind } }];
    }),
  );
}

/** Phase, hum, resistance and resonance in one line; heavy. `undefined` where the file has no such thing any more. */
export function lensNumbers(analysis: Analysis, { kind, name }: LensSubject): string | undefined {
  if (kind === 'pickup') {
    const values = analysis.pickups.find(({ pickup }) => pickup.name === name)?.estimates();
    if (!values) return undefined;
    const { phase, humDb, resistance20COhm, resonanceHz } = values;
    return joined([
      phaseWords(phase),
      phase === 'single' || !humDb ? undefined : `hum ${numberText(humDb, PICKUP_NUMBERS.humDb)}`,
      resistance20COhm === undefined
        ? undefined
        : marked(numberText(resistance20COhm, PICKUP_NUMBERS.resistance20COhm), resistance20COhm),
      resonanceHz === undefined
        ? undefined
        : `${PICKUP_NUMBERS.resonanceHz.what} ${marked(numberText(resonanceHz, PICKUP_NUMBERS.resonanceHz), resonanceHz)}`,
    ]);
  }
  const positions = analysis.instruments.find(({ instrument }) => instrument.name === name)?.positions();
  if (!positions) return undefined;
  const out = positions.filter(({ phase }) => phase === 'out').map(({ key }) => key);
  return joined([
    positions.length === 1 ? 'one position' : `${positions.length} positions`,
    positions.some(({ phase }) => phase === 'in') || out.length > 0
      ? out.length > 0
        ? `out of phase in ${list(out)}`
        : 'none out of phase'
      : undefined,
    range(positions, 'resistanceOhm'),
    range(positions, 'resonanceHz'),
  ]);
}

const joined = (parts: readonly (string | undefined)[]): string => parts.flatMap((part) => part ?? []).join(' · ');

/** `resonance 3.1 kHz to 6.2 kHz`. */
function range(positions: readonly PositionEstimates[], key: 'resistanceOhm' | 'resonanceHz'): string | undefined {
  const values = positions
    .flatMap((each): Estimate | readonly Estimate[] => each[key] ?? [])
    .sort((a, b) => a.value - b.value);
  const [least, most] = [values[0], values.at(-1)];
  if (!least || !most) return undefined;
  const { what, dimension }: NumberName = POSITION_NUMBERS[key];
  const ends = [least, most].map(({ value, sd }) => printValue({ value, sd, dimension }));
  const text = `${what} ${[...new Set(ends)].join(' to ')}`;
  const measured = values.filter(({ basis }) => basis === 'reading').length;
  if (measured === 0) return text;
  return measured < values.length ? `${text}, measured in part` : `${text}, measured`;
}

/** `files`: names of the other files that name it. */
export const usedByWords = (files: readonly string[]): string =>
  files.length === 0 ? 'named in no other file' : `named in ${list(files)}`;
