import type { Analysis, InstrumentAnalysis, Played } from '../../analysis/analysis-types.ts';
import { FULL_UP, potWordsInShort } from '../../estimates/positions.ts';
import { benchRoomC } from '../../model/bench.ts';
import { printNumber } from '../../quantities/print.ts';
import { titleOf } from '../../words/parts.ts';
import { quickOfBench } from '../response-plot/from-model.ts';
import { onePosition } from './one-position.ts';
import type { InstrumentPicture, Schematic } from './schematic-picture.ts';
import type { Shop } from './shop.ts';
import { contactsOf } from './switching.ts';
import { withContacts } from './with-contacts.ts';

export interface InstrumentOptions {
  readonly played?: Played;
  /** Key of the position that is emphasised; the first unless given. */
  readonly live?: string | undefined;
}

/**
 * The schematic of an instrument. Where contacts to the output and to ground make every position, one drawing shows the selector
 * whole; else each position is drawn by itself: the one asked for, or all.
 */
export function instrumentPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { played = FULL_UP, live }: InstrumentOptions = {},
): InstrumentPicture {
  const { instrument } = analysed;
  const quickOf = quickOfBench(analysis);
  const shop: Shop = { instrument, quickOf, analysed, played };
  const contacts = contactsOf(instrument, ({ slot }) => slot.pickup && quickOf(slot.pickup).netlist);
  const asked = instrument.positions.find(({ key }) => key.value === live);
  const first = asked ?? instrument.positions[0];
  const sections =
    contacts !== undefined
      ? [withContacts(shop, contacts, first)]
      : (asked === undefined ? instrument.positions : [asked]).map((position) => onePosition(shop, position));
  const title = titleOf(instrument);
  const position = contacts === undefined ? asked : first;
  return {
    id: `instrument-${instrument.name}`,
    title,
    subtitle: `instrument, ${position === undefined ? 'each selector position by itself' : `selector in position ${position.key.value}`}`,
    aside: [`${printNumber(benchRoomC(analysis.bench), 0)}\u202F°C · ${potWordsInShort(instrument, played)}`],
    name: `Schematic of ${title}`,
    description: sections.map(spoken).join(' '),
    sections,
  };
}

function spoken({ facts, pickups }: Schematic): string {
  const live = pickups.flatMap(({ coils }) => coils.filter(({ live }) => live).map(({ id }) => id.replace('.', ' ')));
  const position = facts === undefined ? '' : `Position ${facts.heading.replace(' · ', ', ')}: `;
  const sounds =
    live.length === 0 ? 'nothing sounds' : `${live.join(' and ')} ${live.length === 1 ? 'sounds' : 'sound'}`;
  const numbers = (facts?.rows ?? []).map(({ name, value }) => `${name} ${value}`).join(', ');
  return `${position}${sounds}${numbers === '' ? '' : `; ${numbers}`}.`;
}
