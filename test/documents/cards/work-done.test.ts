/** What the hand-over card and the winding cards say of the work. */
import assert from 'node:assert/strict';
import type { CardKind } from '../../../server/src/documents/cards/card-kinds.ts';
import { analysedText } from '../../support/sample-files.ts';
import { analysed, cardsOfText, pageText } from './card-bench.ts';

const ofSample = (name: string, kind: CardKind) => cardsOfText(analysed(name), [kind]);

/** The words of the sections of a hand-over card, by their titles. */
async function handOver(name: string): Promise<(title: string) => string> {
  const [card] = ofSample(name, 'hand-over');
  assert.ok(card);
  const sections = (await pageText(card)).split('<section').slice(1);
  return (title) => {
    const found = sections.find((section) => section.includes(`<h2>${title}</h2>`));
    assert.ok(found, title);
    return `<section${found}`
      .replace(/<[^>]*>/g, ' ')
      .replace(/[ \n]+/g, ' ')
      .trim();
  };
}

describe('cards of a pickup that was reworked', () => {
  it('are made of its newest state: the former ones are records', () => {
    assert.deepEqual(
      ofSample('pipkin-neck', 'label').map(({ about }) => about),
      [['pipkin-neck']],
    );
  });

  it('the hand-over card says what came out, what went in, and what that changed', async () => {
    const section = await handOver('pipkin-neck');
    assert.match(section('Work done'), /bar magnet exchanged.*output by the magnets, dB/);
    // What was noted of the work before was handed over with that.
    assert.doesNotMatch(section('Work done'), /open at its inner end/);
    assert.match(section('Parts new'), /bar magnet bar-2$/);
    assert.match(section('Parts kept'), /screw coil: 5\s020 turns.*slug coil: 6\s100 turns/);
    assert.match(section('Old parts returned'), /bar magnet bar-5/);
    assert.doesNotMatch(section('Old parts returned'), /coil/);
    assert.match(section('Pickup'), /Readings after repair of 2026-10-19 at 20\s°C: .*hot to ground 10.23 kohm/);
  });

  it('told in one block, the coil that came out is a part returned, the kept one has no winding card', async () => {
    const section = await handOver('withen-bridge');
    assert.match(section('Work done'), /screw coil wound anew/);
    assert.match(section('Parts new'), /screw coil: 4\s940 turns/);
    assert.match(section('Parts kept'), /slug coil: .*bar magnet bar-5/);
    assert.match(section('Old parts returned'), /screw coil as found/);
    assert.deepEqual(
      ofSample('withen-bridge', 'winding').map(({ about }) => about),
      [['withen-bridge', 'screw']],
    );
  });

  it('a kept coil has none even where its turns were once counted', () => {
    const spec = (slug: string, screw: string) => `use "shop.pickup"
pickup plover {
  coil screw {
    ${screw}
    bobbin screw-six
    wire plain-42
    counted 4_985
    wound clockwise
    start grey
    finish turquoise
  }
  coil slug {
    ${slug}
    bobbin slug-six
    wire poly-44
    counted 7_612
    wound clockwise
    start pink
    finish gold
  }
}
`;
    const wound = (text: string) => cardsOfText(analysedText(text), ['winding']).map(({ about }) => about.join(' '));
    assert.deepEqual(wound(spec('new', 'kept')), ['plover slug']);
    assert.deepEqual(wound(spec('', '')), ['plover screw', 'plover slug']);
  });
});
