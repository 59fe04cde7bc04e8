import type { Position } from '../../model/instrument.ts';
import { printQuantity } from '../../quantities/print.ts';
import { levelWords } from '../level-words.ts';
import { positionVerdict } from '../position-verdict.ts';
import { frequencyText } from '../response-plot/response-plot.ts';
import { selectionWords } from '../selection-words.ts';
import type { FactsPicture } from './schematic-picture.ts';
import type { Shop } from './shop.ts';

export function factsOf({ analysed, pots }: Shop, position: Position): FactsPicture {
  const key = position.key.value;
  const title = position.title ?? (position.selection === undefined ? '' : selectionWords(position.selection));
  const estimates = analysed.positions(pots).find((each) => each.key === key);
  if (estimates === undefined) return { key, heading: `${key} · ${title}`, rows: [] };
  const { resistanceOhm, resonanceHz, humDb } = estimates;
  const verdict = positionVerdict(estimates, position.onPurpose !== undefined);
  const resistance =
    resistanceOhm === null
      ? 'open'
      : resistanceOhm === undefined
        ? 'unknown'
        : printQuantity({ value: resistanceOhm.value, sd: resistanceOhm.sd, dimension: 'resistance' });
  const hum = humDb && levelWords(humDb);
  return {
    key,
    heading: `${key} · ${title}`,
    rows: [
      { name: 'at the jack', value: resistance, number: true },
      ...(resonanceHz === undefined ? [] : [{ name: 'resonance', value: frequencyText(resonanceHz), number: true }]),
      { name: 'in words', value: verdict.sentences.map(({ text }) => text).join(' '), number: false },
      ...(hum === undefined
        ? []
        : [
            {
              name: 'hum, its strongest coil is 0',
              value: hum.orLower ? hum.number.replace(' or', '\u202FdB or') : `${hum.number}\u202FdB`,
              number: true,
            },
          ]),
    ],
  };
}
