import type { Position } from '../../model/instrument.ts';
import { numberText } from '../../words/number-text.ts';
import { POSITION_NUMBERS } from '../../words/numbers.ts';
import { positionTitle } from '../../words/selections.ts';
import { positionVerdict } from '../position-verdict.ts';
import type { FactsPicture } from './schematic-picture.ts';
import type { Shop } from './shop.ts';

export function factsOf({ analysed, played }: Shop, position: Position): FactsPicture {
  const key = position.key.value;
  const title = positionTitle(position);
  const estimates = analysed.positions(played).find((each) => each.key === key);
  if (estimates === undefined) return { key, heading: `${key} · ${title}`, rows: [] };
  const { resistanceOhm, resonanceHz, humDb } = estimates;
  const verdict = positionVerdict(estimates, position.onPurpose !== undefined);
  const resistance =
    resistanceOhm === undefined ? 'unknown' : numberText(resistanceOhm, POSITION_NUMBERS.resistanceOhm);
  return {
    key,
    heading: `${key} · ${title}`,
    rows: [
      { name: POSITION_NUMBERS.resistanceOhm.what, value: resistance, number: true },
      ...(resonanceHz === undefined
        ? []
        : [
            {
              name: POSITION_NUMBERS.resonanceHz.what,
              value: numberText(resonanceHz, POSITION_NUMBERS.resonanceHz),
              number: true,
            },
          ]),
      { name: 'in words', value: verdict.sentences.map(({ text }) => text).join(' '), number: false },
      ...(humDb === undefined
        ? []
        : [{ name: POSITION_NUMBERS.humDb.what, value: numberText(humDb, POSITION_NUMBERS.humDb), number: true }]),
    ],
  };
}
