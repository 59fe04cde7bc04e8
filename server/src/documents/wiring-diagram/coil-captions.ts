import type { WindingEstimates } from '../../estimates/coil-winding.ts';
import type { Coil } from '../../model/coil.ts';
import { printQuantity } from '../../quantities/print.ts';
import { polesShort, polesWords, woundWords } from '../../words/directions.ts';
import { gaugeWords } from '../../words/parts.ts';
import type { Caption, CoilPicture } from './picture.ts';

interface Known {
  readonly wound: CoilPicture['wound'];
  readonly polarity: CoilPicture['poles']['polarity'];
  readonly endsTraced: boolean;
  readonly foil: string | undefined;
}

/** What stands beside a coil, in lines and in one line, and what is read out for it. */
export function coilCaptions(
  coil: Coil,
  winding: WindingEstimates | undefined,
  { wound, polarity, endsTraced, foil }: Known,
): Pick<CoilPicture, 'captions' | 'caption' | 'description'> {
  const name = `${coil.name} coil`;
  const wire = wireWords(coil);
  const turns =
    winding?.turns === undefined ? 'turns unknown' : printQuantity({ ...winding.turns, dimension: 'turns', digits: 6 });
  const resistance =
    winding?.resistance20COhm && printQuantity({ ...winding.resistance20COhm, dimension: 'resistance' });
  const length = winding?.wireLengthM && printQuantity({ ...winding.wireLengthM, dimension: 'length', unit: 'm' });
  const direction = woundWords(wound);
  const line = (text: string | undefined, weight: Caption['weight']): readonly Caption[] =>
    text === undefined || text === '' ? [] : [{ text, weight }];
  const captions = [
    ...line(name, 'heading'),
    ...line(wire, 'quiet'),
    ...line(turns, 'number'),
    ...line(winding?.turnsFromReading === true ? 'turns from its reading' : undefined, 'quiet'),
    ...line(resistance || undefined, 'number'),
    ...line(length === undefined ? undefined : `${length} of wire`, 'plain'),
    ...line(direction, 'plain'),
    ...line(endsTraced ? undefined : 'inner end untraced', 'quiet'),
    // Where it goes beyond its lead has no room here.
    ...line(foil?.split(',')[0], 'quiet'),
  ];
  const rest = [wire, turns, direction, polesShort(polarity), foil].filter((text) => text).join(' · ');
  const description = [name, wire, turns, resistance, direction, polesWords(polarity), foil]
    .filter((text) => text)
    .join(', ');
  return { captions, caption: { name, rest }, description };
}

function wireWords({ wire, spool }: Coil): string {
  const gauge = wire?.gaugeAwg === undefined ? undefined : gaugeWords(wire.gaugeAwg.value);
  const diameter = wire?.bareDiameter && printQuantity({ value: wire.bareDiameter.value.si, dimension: 'length' });
  return [gauge ?? diameter, spool?.name].filter((text) => text !== undefined).join(', ');
}
