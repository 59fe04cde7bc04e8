import type { Position, Selection } from '../model/instrument.ts';
import { foldSelection, type SelectionPart } from '../model/selection.ts';
import { printValue } from '../quantities/print.ts';

/** How a position joins its pickups, in the trade's words: `bridge slug ∥ middle`, `neck + bridge in series`. */
export const selectionWords = (selection: Selection): string =>
  foldSelection<Words>(selection, {
    part: (part) => ({ text: partWords(part), inner: partWords(part) }),
    reversed: ({ inner }) => ({ text: `${inner} reversed`, inner: `${inner} reversed` }),
    joined: (of, how) => {
      const inner = of.map((each) => each.inner);
      const text = how === 'series' ? `${inner.join(' + ')} in series` : inner.join(' ∥ ');
      return { text, inner: `(${text})` };
    },
  }).text;

/** What a position is called: as stated, else by what it joins. */
export const positionTitle = ({ title, selection }: Position): string =>
  title ?? (selection === undefined ? '' : selectionWords(selection));

/** By itself, and inside of something larger. */
interface Words {
  readonly text: string;
  readonly inner: string;
}

function partWords(part: SelectionPart): string {
  if (part.kind === 'pickup') return part.slot.name;
  if (part.kind === 'tap') return `${part.slot.name} at ${part.lead}`;
  const through = part.throughOhm?.value.si;
  const rest = through === undefined ? '' : ` through ${printValue({ value: through, dimension: 'resistance' })}`;
  return `${part.slot.name} ${part.coil}${rest}`;
}
