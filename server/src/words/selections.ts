import type { Position, Selection } from '../model/instrument.ts';
import { foldSelection, type SelectionPart } from '../model/selection.ts';
import { printValue } from '../quantities/print.ts';
import { ENGLISH, type Language } from './languages/language.ts';

/** How a position joins its pickups, in the trade's words: `bridge slug ∥ middle`, `neck + bridge in series`. */
export const selectionWords = (selection: Selection, t = ENGLISH): string =>
  foldSelection<Words>(selection, {
    part: (part) => alone(partWords(part, t)),
    reversed: ({ inner }) => alone(t('{0} reversed', inner)),
    joined: (of, how) => {
      const inner = of.map((each) => each.inner);
      const text = how === 'series' ? t('{0} in series', inner.join(' + ')) : inner.join(' ∥ ');
      return { text, inner: `(${text})` };
    },
  }).text;

/** What a position is called: as stated, else by what it joins. */
export const positionTitle = ({ title, selection }: Position, t = ENGLISH): string =>
  title ?? (selection === undefined ? '' : selectionWords(selection, t));

/** By itself, and inside of something larger. */
interface Words {
  readonly text: string;
  readonly inner: string;
}

const alone = (text: string): Words => ({ text, inner: text });

function partWords(part: SelectionPart, t: Language): string {
  if (part.kind === 'pickup') return part.slot.name;
  if (part.kind === 'tap') return t('{0} at {1}', part.slot.name, part.lead);
  const through = part.throughOhm?.value.si;
  const half = `${part.slot.name} ${part.coil}`;
  if (through === undefined) return half;
  return t('{0} through {1}', half, printValue({ value: through, dimension: 'resistance', style: t.numbers }));
}
