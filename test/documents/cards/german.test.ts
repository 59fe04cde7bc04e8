/** Cards in German: nothing of the tool's own words is left in English, and every number has its comma. */
import assert from 'node:assert/strict';
import type { CardSetting } from '../../../server/src/documents/cards/card.ts';
import { languageOf } from '../../../server/src/words/languages/language.ts';
import { leftInEnglish } from '../../support/left-in-english.ts';
import { analysed, cardsOfText, pageText, sampleText } from './card-bench.ts';

const t = languageOf('de');

/** With what it uses. */
const specOf = (sample: string): string => ['shop', 'larkspit-neck', sample].map(sampleText).join('\n');

describe('cards in German', () => {
  for (const sample of ['larkspit', 'foundling'])
    it(`of ${sample} hold no English word of the tool and no decimal point`, async () => {
      for (const card of cardsOfText(analysed(sample), undefined, { t })) {
        const html = await pageText(card);
        assert.match(html, /<html lang="de">/);
        assert.deepEqual(leftInEnglish(html, specOf(sample)), [], card.title);
      }
    });

  it('have the schematic on the sheet wherever the English ones have it', async () => {
    const sheets = async (setting: Partial<CardSetting>) =>
      (await Promise.all(cardsOfText(analysed('larkspit'), ['wiring'], setting).map((card) => pageText(card)))).map(
        (html) => html.includes('class="sideways"'),
      );
    assert.deepEqual(await sheets({ t }), await sheets({}));
  });

  it('of English ones the same look finds hundreds of words', async () => {
    const [card] = cardsOfText(analysed('withen-bridge'), ['hand-over']);
    assert.ok(card && leftInEnglish(await pageText(card), specOf('withen-bridge')).length > 60);
  });

  it('tell an error of the spec in German, too', async () => {
    const text = sampleText('hesk-neck')
      .replace('link orange grey', 'link orange pink')
      .replace('ground pink bare', 'ground grey bare');
    const [card] = cardsOfText(analysed('hesk-neck', text), ['hand-over'], { t });
    assert.ok(card);
    assert.match(await pageText(card), /Die Spezifikation enthält einen Fehler.*<bdi>[^<]* arbeitet gegen Spule /);
  });
});
