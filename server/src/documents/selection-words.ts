import type { Selection } from '../model/instrument.ts';
import { printValue } from '../quantities/print.ts';

/** How a position joins its pickups, in the trade's words: `bridge slug ∥ middle`, `neck + bridge in series`. */
export function selectionWords(selection: Selection): string {
  switch (selection.kind) {
    case 'pickup':
      return selection.slot.name;
    case 'coil': {
      const through = selection.throughOhm?.value.si;
      const rest = through === undefined ? '' : ` through ${printValue({ value: through, dimension: 'resistance' })}`;
      return `${selection.slot.name} ${selection.coil}${rest}`;
    }
    case 'tap':
      return `${selection.slot.name} at ${selection.lead}`;
    case 'reversed':
      return `${inner(selection.of)} reversed`;
    case 'series':
      return `${selection.of.map(inner).join(' + ')} in series`;
    case 'parallel':
      return selection.of.map(inner).join(' ∥ ');
  }
}

function inner(selection: Selection): string {
  const words = selectionWords(selection);
  return selection.kind === 'series' || selection.kind === 'parallel' ? `(${words})` : words;
}
