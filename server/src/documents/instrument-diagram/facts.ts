import type { Position } from '../../model/instrument.ts';
import { marked, numberText } from '../../words/number-text.ts';
import { POSITION_NUMBERS } from '../../words/numbers.ts';
import { positionTitle } from '../../words/selections.ts';
import { positionVerdict } from '../position-verdict.ts';
import type { FactsPicture } from './schematic-picture.ts';
import type { Shop } from './shop.ts';

export function factsOf({ analysed, played, t }: Shop, position: Position): FactsPicture {
  const key = position.key.value;
  const title = positionTitle(position, t);
  const estimates = analysed.positions(played).find((each) => each.key === key);
  if (estimates === undefined) return { key, heading: `${key} · ${title}`, rows: [] };
  const { resistanceOhm, resonanceHz, humDb } = estimates;
  const verdict = positionVerdict(estimates, position.onPurpose !== undefined, t);
  const resistance =
    resistanceOhm === undefined ? t('unknown') : numberText(resistanceOhm, POSITION_NUMBERS.resistanceOhm, t);
  return {
    key,
    heading: `${key} · ${title}`,
    rows: [
      { name: t(POSITION_NUMBERS.resistanceOhm.what), value: resistance, number: true },
      ...(resonanceHz === undefined
        ? []
        : [
            {
              name: t(POSITION_NUMBERS.resonanceHz.what),
              value: marked(numberText(resonanceHz, POSITION_NUMBERS.resonanceHz, t), resonanceHz, t),
              number: true,
            },
          ]),
      { name: t('in words'), value: verdict.sentences.map(({ text }) => text).join(' '), number: false },
      ...(humDb === undefined
        ? []
        : [
            { name: t(POSITION_NUMBERS.humDb.what), value: numberText(humDb, POSITION_NUMBERS.humDb, t), number: true },
          ]),
    ],
  };
}
