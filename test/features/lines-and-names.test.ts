import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { formattingAfter, formattingOf } from '../../server/src/features/formatting.ts';
import { leadColours } from '../../server/src/features/lead-colours.ts';
import { madeFrom, madeFromIt, pieceAt, pieceNamed } from '../../server/src/features/like-hierarchy.ts';
import { linkedEditing } from '../../server/src/features/linked-editing.ts';
import { selectionRanges } from '../../server/src/features/selection-ranges.ts';
import { SINGLE, twoCoils, WITH_SHOP } from '../support/shop.ts';
import { analysed, atCursor } from './analysed.ts';

type Edits = ReturnType<typeof formattingOf>;

const withEdits = (text: string, edits: Edits): string =>
  [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((all, { span, newText }) => all.slice(0, span.start) + newText + all.slice(span.end), text);

describe('colours of leads', () => {
  it('every lead that is called by a colour of IEC 60757, inside a coil too; other names have none', () => {
    const text = twoCoils().replace('start to pink', 'start GD to pink').replaceAll('bare', 'drain');
    const found = leadColours(analysed(text, WITH_SHOP)).map(
      ({ span, colour }) => `${text.slice(span.start, span.end)} ${colour.code}`,
    );
    assert.deepEqual(found.slice(0, 6), ['turquoise TQ', 'orange OG', 'grey GY', 'pink PK', 'GD GD', 'pink PK']);
    assert.ok(found.every((each) => !each.startsWith('drain')));
  });

  it('a striped lead has the colour of its base', () => {
    const [first] = leadColours(analysed(SINGLE.replaceAll('grey', 'red-and-blue')));
    assert.deepEqual([first?.colour.code, first?.colour.base], ['RDBU', 'RD']);
  });
});

describe('a growing selection', () => {
  const grown = (marked: string): readonly string[] => {
    const { analysis, offset, text } = atCursor(marked);
    return selectionRanges(analysis, offset).map(({ start, end }) =>
      text.slice(start, end).replace(/\s+/g, ' ').trim(),
    );
  };

  it('a word, its line, what is inside the braces, the block, and so on outward', () => {
    const spans = grown(SINGLE.replace('hot violet', 'hot vio‸let'));
    assert.deepEqual(spans.slice(0, 4), [
      'violet',
      'hot violet',
      'hot violet ground grey',
      'hookup { hot violet ground grey }',
    ]);
    assert.match(spans[5] ?? '', /^pickup wren/);
    assert.match(spans.at(-1) ?? '', /^use /);
  });

  it('one part of a path before the path, a title before its quotes', () => {
    assert.deepEqual(grown(SINGLE.replace('hot violet', 'hot main.fin‸ish')).slice(0, 2), ['finish', 'main.finish']);
    assert.deepEqual(grown(SINGLE.replace('"Wren"', '"Wr‸en"')).slice(0, 2), ['Wren', '"Wren"']);
  });
});

describe('the layout of some lines', () => {
  const UGLY = SINGLE.replace('    turns 7_700', '   turns   7_700').replace('    hot violet', 'hot  violet');

  it('only the lines that are touched, whatever is wrong in another block', () => {
    const text = `${UGLY}\nwire odd {\n  gauge 42 AWG oops`;
    const start = text.indexOf('turns');
    assert.equal(
      withEdits(text, formattingOf(analysed(text), { start, end: start + 1 })),
      text.replace('   turns   7_700', '    turns 7_700'),
    );
  });

  it('behind a brace the block that it closes', () => {
    const { analysis, offset, text } = atCursor(UGLY.replace(/\n {2}\}\n\}\n$/, '\n  }‸\n}\n'));
    assert.equal(
      withEdits(text, formattingAfter(analysis, offset, '}')),
      text.replace('hot  violet', '    hot violet'),
    );
  });

  it('behind the end of a line that line; the empty one that was begun stays', () => {
    const { analysis, offset, text } = atCursor(UGLY.replace('turns   7_700\n', 'turns   7_700\n    ‸\n'));
    assert.equal(
      withEdits(text, formattingAfter(analysis, offset, '\n')),
      text.replace('   turns   7_700', '    turns 7_700'),
    );
  });

  it('a block with a fault of syntax is left as it is', () => {
    const text = UGLY.replace('packing 0.66', 'packing 0.66 0.7');
    assert.deepEqual(formattingOf(analysed(text), { start: 0, end: text.length }), []);
  });
});

describe('names that are typed together', () => {
  const linked = (marked: string): readonly string[] | undefined => {
    const { analysis, offset, text } = atCursor(marked, WITH_SHOP);
    return linkedEditing(analysis, offset)?.spans.map(({ start, end }) => text.slice(start, end));
  };

  it('a lead where it is brought out and wherever it is joined', () =>
    assert.deepEqual(linked(SINGLE.replace('hot violet', 'hot vio‸let')), ['violet', 'violet']));

  it('not where one of them is written by its letters, which would stay behind', () =>
    assert.equal(linked(SINGLE.replace('hot violet', 'hot V‸T')), undefined));

  it('not a part of the shelf: other files name it too', () =>
    assert.equal(linked(SINGLE.replace('bobbin rod-six', 'bobbin rod-‸six')), undefined));
});

describe('what a piece is made from', () => {
  const named = (analysis: Analysis, marked: string) => pieceNamed(analysis, marked.indexOf('‸'));

  it('a coil that is like another, and the other way round', () => {
    const marked = twoCoils().replace('like screw', 'like scr‸ew');
    const { analysis } = atCursor(marked, WITH_SHOP);
    const screw = named(analysis, marked);
    assert.ok(screw);
    assert.equal(pieceAt(analysis, screw)?.name, 'screw');
    assert.equal(madeFrom(analysis, screw), undefined);
    const [slug] = madeFromIt(analysis, screw);
    assert.deepEqual([slug?.name, slug?.detail], ['slug', 'like screw']);
    assert.deepEqual(slug && madeFrom(analysis, slug.nameSpan), screw);
  });

  it('a lead is made from nothing', () => {
    const marked = SINGLE.replace('hot violet', 'hot vio‸let');
    assert.equal(named(atCursor(marked).analysis, marked), undefined);
  });
});
