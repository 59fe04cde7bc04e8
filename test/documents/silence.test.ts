/** Silence is a word wherever a level is told: never a number of hundreds of decibels, never an empty cell, never "unknown". */
import assert from 'node:assert/strict';
import { compareStates } from '../../server/src/comparison/comparison.ts';
import { numberRows } from '../../server/src/comparison/number-rows.ts';
import { positionNumbers } from '../../server/src/comparison/numbers-table.ts';
import { stateOf } from '../../server/src/comparison/state-of.ts';
import { positionsPicture, positionsSheet, positionsTable } from '../../server/src/documents/positions-sheet.ts';
import { noResponseWords, positionResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { FULL_UP } from '../../server/src/estimates/positions.ts';
import { numberParts, numberText } from '../../server/src/words/number-text.ts';
import { POSITION_NUMBERS } from '../../server/src/words/numbers.ts';
import { analysedSample } from '../support/sample-files.ts';
import { analysed, cardsOfText, pageText, sampleText } from './cards/card-bench.ts';
import { assertLegibleDrawing } from './plots/legible.ts';
import { elementsOf } from './svg-reading.ts';

/** The neck pickup of position 5 taken at the lead that lies on its ground. */
const shorted = (text: string) => text.replace(/^( {4}5 "[^"]*") .*$/m, '$1 neck.pink');

const analysis = analysedSample('quorl.pickup', shorted);
const [instrument] = analysis.instruments;
const [whole] = analysedSample('quorl.pickup').instruments;
assert.ok(instrument && whole);
const off = { ...FULL_UP, volume: 0 };

describe('silence', () => {
  it('is a verdict of its own of a shorted position, which no kick settles', () => {
    const [estimates] = instrument.positions().slice(-1);
    assert.deepEqual([estimates?.phase, estimates?.levelDb], ['silent', null]);
  });

  it('is a word as a level, alone and in a column of decibels', () => {
    const nothing = { value: -120, sd: 0 };
    assert.equal(numberText(nothing, POSITION_NUMBERS.humDb), 'silent');
    assert.deepEqual(numberParts(nothing, POSITION_NUMBERS.signalDb), { number: 'silent', unit: '' });
    assert.match(numberText({ value: -120, sd: 88 }, POSITION_NUMBERS.humDb), /^−32\sdB or lower$/);
    assert.equal(numberText(null, POSITION_NUMBERS.levelDb), 'silent');
  });

  for (const width of ['wide', 'narrow'] as const)
    it(`stands in the sheet of positions, ${width}, for response, string and hum`, () => {
      const picture = positionsPicture(analysis, instrument);
      assert.ok(picture);
      const rows = elementsOf(assertLegibleDrawing(positionsSheet(picture, width)));
      const row = rows.find(({ attributes }) => attributes['data-part'] === 'position:5');
      const words = elementsOf(row ?? assert.fail()).flatMap(({ text }) => (text === '' ? [] : [text]));
      assert.equal(words.filter((each) => each === 'silent').length, 3, words.join(' | '));
      assert.match(words.join(' '), /Silent: hot and ground are joined\./);
      assert.doesNotMatch(words.join(' '), /unknown|no peak|-?[−-]\d\d/);
    });

  it('stands in the text form of every position with the volume down', () => {
    const picture = positionsPicture(analysis, instrument, { played: off });
    assert.ok(picture);
    for (const row of positionsTable(picture).rows) assert.deepEqual(row.slice(2, 5), ['silent', 'silent', 'silent']);
  });

  it('is why there is no response to draw, where everything else is known', () => {
    const [last] = instrument.positions().slice(-1);
    assert.equal(positionResponsePicture({ analysis, instrument }, '5'), undefined);
    assert.match(noResponseWords(last), /^Silent: /);
    assert.match(noResponseWords(undefined), /a coil lacks its turns/);
  });

  it('is that of a position in which the wiring leaves hot in the air, too', () => {
    const [wired] = analysedSample('mistakes/switch-position-differs-joint.pickup').instruments;
    const last = wired?.positions().at(-1);
    assert.deepEqual([last?.key, last?.phase, last?.levelDb], ['5', 'silent', null]);
    assert.match(noResponseWords(last), /^Silent: /);
  });

  it('stands among the numbers of the view, in both of two states', () => {
    const rows = (now: typeof instrument, before?: typeof instrument) =>
      (positionNumbers(now, '5', { before })?.rows ?? []).map(
        (each) => `${each.name}: ${each.before ?? ''} > ${each.now}`,
      );
    assert.ok(rows(instrument).includes('phase:  > silent'), rows(instrument).join('\n'));
    assert.ok(rows(instrument).includes('level at 100\u202FHz:  > silent'), rows(instrument).join('\n'));
    assert.ok(
      rows(whole, instrument).some((row) => /^level at 100\sHz, dB: silent > [+−]?\d/.test(row)),
      rows(whole, instrument).join('\n'),
    );
  });

  it('stands in a comparison, before and after', () => {
    const comparison = compareStates(stateOf(analysedSample('quorl.pickup')), stateOf(analysis), FULL_UP);
    const level = numberRows(comparison).find(({ what, path }) => /^level/.test(what) && path.join().includes('5'));
    assert.match(`${level?.before} > ${level?.after}`, /^[+−]?\d\S*\sdB > silent$/);
    const phase = numberRows(comparison).find(({ what }) => what === 'phase');
    assert.equal(phase?.after, 'silent');
  });

  it('stands on the cards of the instrument', async () => {
    const cards = cardsOfText(analysed('quorl', shorted(sampleText('quorl'))));
    const pages = await Promise.all(cards.map((card) => pageText(card)));
    const rows = pages.flatMap((page) => page.split('<tr').filter((row) => /<b>5<\/b>/.test(row)));
    assert.ok(rows.length > 0);
    assert.ok(
      rows.some((row) => (row.match(/>silent</g) ?? []).length === 2),
      rows.join('\n'),
    );
    for (const page of pages) assert.doesNotMatch(page, /[−-][123]\d\d(?:\.\d)?(?:\s| )?dB/);
  });
});
