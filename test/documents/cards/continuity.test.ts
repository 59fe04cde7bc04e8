/** The continuity card: joints in order, what is joined at the lugs in each position, what must stay silent, how each silent coil is left. */
import assert from 'node:assert/strict';
import { cardsOf } from '../../../server/src/documents/cards/cards.ts';
import { languageOf } from '../../../server/src/words/languages/language.ts';
import { leftInEnglish } from '../../support/left-in-english.ts';
import { analysed, cardsOfText, pageText, SETTING, sampleText } from './card-bench.ts';

const text = (html: string): string =>
  html
    .replace(/^[\s\S]*<body[^>]*>/, '')
    .replace(/<svg[\s\S]*?<\/svg>/g, '')
    .replace(/<\/(?:td|th|p|h2|li)>/g, ' | ')
    .replace(/<[^>]+>/g, '')
    .replace(/\s+/g, ' ');

async function cardOf(sample: string): Promise<string> {
  const [card] = cardsOfText(analysed(sample), ['continuity']);
  assert.ok(card);
  return text(await pageText(card));
}

describe('the continuity card', () => {
  it('tells per position the lugs with hot and with ground, and the ohms between', async () => {
    const card = await cardOf('yarrowby');
    assert.match(card, /\| 2 \| bridge, split, and middle \| a0 a1 a2 b0 b2 b3 b4 \| c0 c2 \| 2\.8\d \|/);
    assert.match(card, /\| 5 \| neck \| a0 a4 a5 b0 \| c0 \|/);
    assert.match(card, /Must stay silent in every position: hot to ground, a2 – a4, c2 – c4\./);
    assert.match(card, /\| 4 \| shorted on ground: neck\.screw; open on ground: bridge\.screw, bridge\.slug \|/);
  });

  it('lists every joint once, jumpers first and grounds last', async () => {
    const card = await cardOf('pennywither');
    const [, joints = ''] = /grounds ?(.*)Lugs that a meter/.exec(card) ?? [];
    // Nets of n terminals are n - 1 joints: 1 + 2 + 1 + 2 + 2 + 5, each ended by a lug or ground; a jumper and the ground lug begin with one.
    assert.equal([...joints.matchAll(/(?:ways|pull)\.[ab]\d|ground/g)].length, 13 + 2);
    assert.match(joints, /^.*?\| ways\.a1 \| pull\.a0 \|/);
  });

  it('has its cautions and the sentence of guidance', async () => {
    const card = await cardOf('yarrowby');
    assert.match(card, /Solder and iron burn: eye protection/);
    assert.match(card, /Common-practice guidance, not legal/);
  });

  it('leaves no English word of the tool in German', async () => {
    const [card] = cardsOfText(analysed('yarrowby'), ['continuity'], { t: languageOf('de') });
    assert.ok(card);
    const spec = ['shop', 'quorl', 'yarrowby', 'parts/switches'].map(sampleText).join('\n');
    assert.deepEqual(leftInEnglish(await pageText(card), spec), []);
  });

  it('is none of an instrument without a switch, and says why where a wiring is not known', () => {
    const made = (name: string, spec?: string) =>
      cardsOf({ analysis: analysed(name, spec), setting: SETTING }, ['continuity']);
    assert.deepEqual(made('quorl'), { cards: [], leftOut: [] });
    assert.deepEqual(made('yarrowby', sampleText('yarrowby').replace('lever.a4', 'lever.x4')).leftOut, [
      { kind: 'continuity', about: 'yarrowby', reason: 'its wiring is not known to the last lug' },
    ]);
  });
});

describe('the wiring card of a wired instrument', () => {
  it('shows the lugs of its switches on a sheet of its own, without the states that stand in its table', async () => {
    for (const sample of ['yarrowby', 'pennywither']) {
      const card = cardsOfText(analysed(sample), ['wiring']).find(({ title }) =>
        /^Wiring: (?:Yarrowby|Pennywither)$/.test(title),
      );
      assert.ok(card);
      const [, sheet = ''] = /class="sideways"([\s\S]*)<\/section>/.exec(await pageText(card)) ?? [];
      assert.match(sheet, /data-part="terminal:[a-z]+\.a0"/, sample);
      assert.doesNotMatch(sheet, /data-part="position:1"/, sample);
    }
  });
});

describe('the wiring card of an instrument whose controls are soldered by their lugs', () => {
  it('says so in place of before or after the selector, by the names that the joints use', async () => {
    const cards = cardsOfText(analysed('tamwick'), ['wiring']);
    const card = cards.at(-1);
    assert.ok(card);
    const told = text(await pageText(card));
    assert.match(told, /volume loud \| where its lugs are soldered \| 500.?kΩ/);
    assert.match(told, /tone cross \| where its lugs are soldered \| 250.?kΩ/);
  });
});
