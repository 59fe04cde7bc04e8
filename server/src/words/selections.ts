import type { Position, Selection } from '../model/instrument.ts';
import { foldSelection, type NetsSelection, type SelectionPart } from '../model/selection.ts';
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
    nets: (nets) => alone(netsWords(nets, t)),
  }).text;

/** What is neither in series nor side by side, by the nets that each lies between: `bridge slug hot–lever.a1, 4.7 kΩ lever.a1–ground`. */
function netsWords({ fault, parts, components }: NetsSelection, t: Language): string {
  if (fault) return t('silent');
  const heard = [
    ...parts.map(({ part, coil, ends }) => ({ name: `${part.slot.name} ${coil}`, ends })),
    ...components.flatMap(({ value, ends, isHeard }) =>
      isHeard ? [{ name: printValue({ value: value.si, dimension: value.dimension, style: t.numbers }), ends }] : [],
    ),
  ];
  return heard.map(({ name, ends }) => `${name} ${ends.map((net) => t.word(net)).join('–')}`).join(', ');
}

/** What a position is called: as stated, else by what it joins; its nets are too long for a title. */
export function positionTitle({ title, selection }: Position, t = ENGLISH): string {
  if (title !== undefined || selection === undefined) return title ?? '';
  const isByNets = selection.kind === 'nets' && !selection.words && !selection.fault;
  return isByNets ? t('neither in series nor in parallel') : selectionWords(selection, t);
}

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
