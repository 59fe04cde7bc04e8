import type { Analysis } from '../analysis/analysis-types.ts';
import { changedParts } from '../comparison/changed-parts.ts';
import { type FactChange, factsOf, type Side } from '../comparison/compare-facts.ts';
import { instrumentParts } from '../features/instrument-parts.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Language } from '../words/languages/language.ts';
import type { ChangedPart } from './bench-view-protocol.ts';
import type { Subject } from './protocol-parts.ts';

/** Each part of the subject's drawing that a change writes, with what the other state says of it. */
export function changedOnDrawing(
  side: Side,
  changes: readonly FactChange[],
  subject: Subject,
  analysis: Analysis,
  t: Language,
): readonly ChangedPart[] {
  const found = new Map<string, Set<string>>();
  for (const change of changes) {
    const parts =
      subject.kind === 'pickup'
        ? changedParts([change], `pickup ${subject.name}`, side)
        : changedOfInstrument(change, side, subject.name, analysis);
    for (const part of parts) found.set(part, (found.get(part) ?? new Set()).add(wordsOf(change, side, t)));
  }
  return [...found].map(([part, words]) => ({ part, words: [...words].join('; ') }));
}

function wordsOf(change: FactChange, side: Side, t: Language): string {
  if (change.kind !== 'fact changed') return t(side === 'after' ? 'new' : 'gone');
  return side === 'after' ? t('was {0}', change.before.text) : t('now {0}', change.after.text);
}

/** On a schematic: positions, controls and slots by their lines; of a pickup that is fitted, its coil, else the whole pickup. */
function changedOfInstrument(change: FactChange, side: Side, name: string, analysis: Analysis): readonly string[] {
  const [block = '', ...inner] = change.path;
  const analysed = analysis.instruments.find(({ instrument }) => instrument.name === name);
  if (analysed === undefined) return [];
  if (!block.startsWith('instrument ')) {
    const coil = inner.find((label) => label.startsWith('coil '))?.slice('coil '.length);
    return slotsHolding(analysed.instrument, block).map((slot) =>
      coil === undefined ? `pickup:${slot}` : `coil:${slot}.${coil}`,
    );
  }
  if (block !== `instrument ${name}`) return [];
  const parts = instrumentParts(analysed);
  return factsOf(change, side).flatMap(({ uri, span }) => {
    const around = parts.flatMap(({ id, place }) => {
      const at = analysis.locate(place);
      return at && at.uri === uri && at.start < span.end && span.start < at.end
        ? [{ id, length: at.end - at.start }]
        : [];
    });
    const smallest = around.sort((a, b) => a.length - b.length)[0];
    return smallest ? [smallest.id] : [];
  });
}

const slotsHolding = ({ slots }: Instrument, block: string): readonly string[] =>
  slots.filter(({ pickup }) => pickup !== undefined && block === `pickup ${pickup.name}`).map(({ name }) => name);
