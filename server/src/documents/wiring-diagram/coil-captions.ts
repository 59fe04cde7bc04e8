import type { WindingEstimates } from '../../estimates/coil-winding.ts';
import type { Coil } from '../../model/coil.ts';
import { printQuantity } from '../../quantities/print.ts';
import { polesShort, polesWords, woundWords } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { gaugeWords } from '../../words/parts.ts';
import type { Caption, CoilPicture } from './picture.ts';

interface Known {
  readonly wound: CoilPicture['wound'];
  readonly polarity: CoilPicture['poles']['polarity'];
  readonly endsTraced: boolean;
  readonly foil: string | undefined;
  readonly t: Language;
}

/** What stands beside a coil, in lines and in one line, and what is read out for it. */
export function coilCaptions(
  coil: Coil,
  winding: WindingEstimates | undefined,
  { wound, polarity, endsTraced, foil, t }: Known,
): Pick<CoilPicture, 'captions' | 'caption' | 'description'> {
  const name = t('{0} coil', coil.name);
  const wire = wireWords(coil, t);
  const turns =
    winding?.turns === undefined
      ? t('turns unknown')
      : printQuantity({ ...winding.turns, dimension: 'turns', digits: 6, style: t.numbers });
  const resistance =
    winding?.resistance20COhm &&
    printQuantity({ ...winding.resistance20COhm, dimension: 'resistance', style: t.numbers });
  const length =
    winding?.wireLengthM && printQuantity({ ...winding.wireLengthM, dimension: 'length', unit: 'm', style: t.numbers });
  const direction = woundWords(wound, t);
  const line = (text: string | undefined, weight: Caption['weight']): readonly Caption[] =>
    text === undefined || text === '' ? [] : [{ text, weight }];
  const captions = [
    ...line(name, 'heading'),
    ...line(wire, 'quiet'),
    ...line(turns, 'number'),
    ...line(winding?.turnsFromReading === true ? t('turns from its reading') : undefined, 'quiet'),
    ...line(resistance || undefined, 'number'),
    ...line(length === undefined ? undefined : t('{0} of wire', length), 'plain'),
    ...line(direction, 'plain'),
    ...line(endsTraced ? undefined : t('inner end untraced'), 'quiet'),
    // Where it goes beyond its lead has no room here.
    ...line(foil?.split(',')[0], 'quiet'),
  ];
  // A fact stays on one line: `poles N up`.
  const short = [wire, turns, direction, polesShort(polarity, t)].map((text) => text.replaceAll(' ', '\u00A0'));
  const rest = [...short, foil].filter((text) => text).join(' · ');
  const description = [name, wire, turns, resistance, direction, polesWords(polarity, t), foil]
    .filter((text) => text)
    .join(', ');
  return { captions, caption: { name, rest }, description };
}

function wireWords({ wire, spool }: Coil, t: Language): string {
  const gauge = wire?.gaugeAwg === undefined ? undefined : gaugeWords(wire.gaugeAwg.value);
  const diameter =
    wire?.bareDiameter && printQuantity({ value: wire.bareDiameter.value.si, dimension: 'length', style: t.numbers });
  return [gauge ?? diameter, spool?.name].filter((text) => text !== undefined).join(', ');
}
