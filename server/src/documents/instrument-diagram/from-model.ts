import type { Analysis, InstrumentAnalysis, Played } from '../../analysis/analysis-types.ts';
import { FULL_UP } from '../../estimates/positions.ts';
import { benchRoomC } from '../../model/bench.ts';
import { printNumber } from '../../quantities/print.ts';
import { ENGLISH, type Language } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { potSettingWords } from '../../words/setting-words.ts';
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
  readonly t?: Language;
}

/**
 * The schematic of an instrument. Where contacts to the output and to ground make every position, one drawing shows the selector
 * whole; else each position is drawn by itself: the one asked for, or all.
 */
export function instrumentPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { played = FULL_UP, live, t = ENGLISH }: InstrumentOptions = {},
): InstrumentPicture {
  const { instrument } = analysed;
  const quickOf = quickOfBench(analysis);
  const shop: Shop = { instrument, quickOf, analysed, played, t };
  const contacts = contactsOf(instrument, ({ slot }) => slot.pickup && quickOf(slot.pickup).netlist);
  const asked = instrument.positions.find(({ key }) => key.value === live);
  const first = asked ?? instrument.positions[0];
  const sections =
    contacts !== undefined
      ? [withContacts(shop, contacts, first)]
      : (asked === undefined ? instrument.positions : [asked]).map((position) => onePosition(shop, position));
  const title = titleOf(instrument);
  const position = contacts === undefined ? asked : first;
  const selector =
    position === undefined ? t('each selector position by itself') : t('selector in position {0}', position.key.value);
  return {
    t,
    id: `instrument-${instrument.name}`,
    title,
    subtitle: t('instrument, {0}', selector),
    aside: [`${printNumber(benchRoomC(analysis.bench), 0)}\u202F°C · ${potSettingWords(instrument, played, t)}`],
    name: t('Schematic of {0}', title),
    description: sections.map((section) => spoken(section, t)).join(' '),
    sections,
  };
}

function spoken({ facts, pickups }: Schematic, t: Language): string {
  const live = pickups.flatMap(({ coils }) =>
    coils.filter(({ live, symbol }) => live && !symbol).map(({ id }) => id.replace('.', ' ')),
  );
  const position = facts === undefined ? '' : `${t('Position {0}', facts.heading.replace(' · ', ', '))}: `;
  const sounds =
    live.length === 0
      ? t('nothing sounds')
      : t(live.length === 1 ? '{0} sounds' : '{0} sound', live.join(` ${t('and')} `));
  const numbers = (facts?.rows ?? []).map(({ name, value }) => `${name} ${value}`).join(', ');
  return `${position}${sounds}${numbers === '' ? '' : `; ${numbers}`}`.replace(/\.?$/, '.');
}
