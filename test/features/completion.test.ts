import assert from 'node:assert/strict';
import { schemas } from '../../grammar/src/schema/index.ts';
import { blockSnippet } from '../../server/src/features/block-snippets.ts';
import { completions } from '../../server/src/features/completion.ts';
import { SINGLE } from '../support/shop.ts';
import { analysed, atCursor } from './analysed.ts';

const labels = (marked: string): readonly string[] => {
  const { analysis, offset } = atCursor(marked);
  return completions(analysis, offset).items.map(({ label }) => label);
};

describe('completion', () => {
  it('between blocks: the kinds of blocks and use', () => {
    const offered = labels(`${SINGLE}\n‸`);
    for (const word of ['use', 'wire', 'bobbin', 'pickup', 'instrument']) assert.ok(offered.includes(word), word);
    assert.ok(!offered.includes('coil'));
  });

  it('in an empty file too', () => {
    assert.ok(labels('‸').includes('pickup'));
  });

  it('in a block: its facts that are not stated yet', () => {
    const offered = labels(SINGLE.replace('    packing 0.66', '    ‸'));
    assert.ok(offered.includes('packing'));
    assert.ok(offered.includes('tap'));
    assert.ok(!offered.includes('turns'), 'turns are stated');
    assert.ok(!offered.includes('spool'), 'the wire is stated, which the spool would stand instead of');
  });

  it('names of the wanted kind from this file and those that it uses', () => {
    assert.deepEqual(labels(SINGLE.replace('bobbin rod-six', 'bobbin ‸')), ['rod-six']);
  });

  it('in the hookup the leads that leave the pickup, and the ends of the coils', () => {
    const offered = labels(SINGLE.replace('hot violet', 'hot ‸'));
    for (const lead of ['violet', 'grey', 'main.start', 'main.finish']) assert.ok(offered.includes(lead), lead);
    assert.ok(!offered.includes('black'), 'nothing brings black out');
  });

  const cabled = SINGLE.replace('strings 6', 'strings 6\n  conductors pink turquoise');

  it('leads that no joint takes yet before those that are joined, as they are brought out', () => {
    const { analysis, offset } = atCursor(cabled.replace('hot violet', 'hot violet ‸'));
    const sorted = completions(analysis, offset).items.toSorted((a, b) => (a.sort < b.sort ? -1 : 1));
    assert.deepEqual(
      sorted.slice(0, 4).map(({ label }) => label),
      ['pink', 'turquoise', 'grey', 'violet'],
    );
  });

  it('behind conductors the colours of the standard that no lead has yet', () => {
    const offered = labels(cabled.replace('conductors pink turquoise', 'conductors pink turquoise ‸'));
    assert.ok(offered.includes('orange') && offered.includes('gold'));
    assert.ok(!offered.includes('violet') && !offered.includes('pink'));
  });

  it('behind a point the ends of that coil', () => {
    assert.deepEqual(labels(SINGLE.replace('hot violet', 'hot main.‸')), ['start', 'finish']);
  });

  it('words of a fact, and units behind a number', () => {
    assert.deepEqual(labels(SINGLE.replace('wound clockwise', 'wound ‸')), ['clockwise', 'counterclockwise']);
    const inTarget = (line: string) => labels(SINGLE.replace('cover none', `target {\n ${line}\n}`));
    assert.ok(inTarget('resistance 5.9 ‸').includes('kohm'));
    // Right behind the number Enter ends the line, and writes no unit that nobody chose.
    assert.deepEqual(inTarget('resistance 5.9‸'), []);
    assert.deepEqual(labels(SINGLE.replace(/turns \S+/, 'counted 5_047‸')), []);
  });

  it('replaces what is being typed', () => {
    const { analysis, offset, text } = atCursor(SINGLE.replace('bobbin rod-six', 'bobbin rod‸-six'));
    const { replace } = completions(analysis, offset);
    assert.equal(text.slice(replace.start, replace.end), 'rod-six');
  });

  it('behind use the specs of the workspace that it does not use yet', () => {
    const specs = ['parts.pickup', 'shop.pickup'];
    for (const [marked, inserted] of [
      ['use "parts.pickup"\nuse "sh‸"\n', 'shop.pickup'],
      ['use "parts.pickup"\nuse "‸\n', 'shop.pickup'],
      ['use "parts.pickup"\nuse ‸\n', '"shop.pickup"'],
    ] as const) {
      const { analysis, offset, text } = atCursor(marked);
      const { items, replace } = completions(analysis, offset, { specs, photos: [], curves: [] });
      assert.deepEqual(
        items.map(({ label, text: written }) => written ?? label),
        [inserted],
        marked,
      );
      assert.doesNotMatch(text.slice(replace.start, replace.end), /"/);
    }
  });

  it('nothing in a comment', () => {
    assert.deepEqual(labels('# what ‸'), []);
  });
});

describe('block snippets', () => {
  const expanded = (keyword: string): string =>
    (
      blockSnippet(
        keyword,
        (kind) => ({ wire: ['plain-42'], bobbin: ['rod-six'], spool: ['RYD-W7'] })[String(kind)] ?? [],
      ) ?? ''
    )
      .replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
      .replace(/\$\{\d+:((?:\\.|[^}])*)\}/g, '$1')
      .replace(/\\(.)/g, '$1')
      .replace('$0', '');

  for (const { keyword, topLevel } of schemas.values()) {
    it(`${keyword}: a whole block that reads`, () => {
      assert.match(expanded(keyword), new RegExp(`^${keyword}`));
      const text = topLevel ? expanded(keyword) : `${topLevelAround(keyword)} x {\n${expanded(keyword)}\n}`;
      const wrong = analysed(`use "parts.pickup"\n${text}\n`).findings.filter(({ code }) =>
        /^(syntax|unit|value)\//.test(code),
      );
      assert.deepEqual(
        wrong.map(({ message }) => message),
        [],
        text,
      );
    });
  }

  it('a new pickup has no finding at all', () => {
    const { findings } = analysed(`use "parts.pickup"\n${expanded('pickup')}\n`);
    assert.deepEqual(
      findings.map(({ message }) => message),
      [],
    );
  });

  function topLevelAround(keyword: string): string {
    return [...schemas.values()].find(({ blocks, topLevel }) => topLevel && blocks.includes(keyword))?.keyword ?? '';
  }
});
