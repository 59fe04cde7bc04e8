import assert from 'node:assert/strict';
import { documentLinks } from '../../server/src/features/document-links.ts';
import { documentSymbols } from '../../server/src/features/document-symbols.ts';
import { foldingRanges } from '../../server/src/features/folding.ts';
import { formatting } from '../../server/src/features/formatting.ts';
import { semanticTokens } from '../../server/src/features/semantic-tokens.ts';
import { FOLDER } from '../support/check-fixture.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed } from './analysed.ts';

describe('document symbols', () => {
  it('are the blocks with their names and titles, one in the other', () => {
    const [pickup] = documentSymbols(analysed(SINGLE));
    assert.equal(pickup?.name, 'wren');
    assert.equal(pickup.detail, 'pickup · Wren');
    assert.deepEqual(
      pickup.children.map(({ kind, name }) => [kind, name]),
      [
        ['coil', 'main'],
        ['hookup', 'hookup'],
      ],
    );
  });
});

describe('a pickup that another one reworks', () => {
  const text = `${SINGLE}pickup later reworks wren {\n}\n`;

  it('is marked as a record in the outline', () => {
    const analysis = analysed(text);
    assert.deepEqual(
      documentSymbols(analysis).flatMap(({ name, detail }) => (detail.startsWith('pickup') ? [[name, detail]] : [])),
      [
        ['wren', 'pickup · Wren · record'],
        ['later', 'pickup · reworks wren'],
      ],
    );
  });
});

describe('folding', () => {
  it('blocks and runs of comments', () => {
    const text = `# one\n# two\n\n${SINGLE}`;
    const folds = foldingRanges(analysed(text)).map(({ kind, span }) => [kind, text.slice(span.start, span.start + 5)]);
    assert.deepEqual(folds, [
      ['comment', '# one'],
      ['use', 'use "'],
      ['block', 'picku'],
      ['block', 'coil '],
      ['block', 'hooku'],
    ]);
  });
});

describe('document links', () => {
  it('the path behind use, where that file was found', () => {
    const text = `${SINGLE}use "nowhere.pickup"\n`;
    const links = documentLinks(analysed(text)).map(({ span, target }) => [text.slice(span.start, span.end), target]);
    assert.deepEqual(links, [['parts.pickup', `${FOLDER}parts.pickup`]]);
  });
});

describe('formatting', () => {
  it('changes only the lines that differ', () => {
    const text = SINGLE.replace('    turns', '  turns').replace('  strings 6', '  strings   6   ');
    const edits = formatting(analysed(text));
    assert.equal(edits.length, 2);
    const formatted = applyEdits(
      text,
      edits.map(({ span, newText }) => ({ at: span, newText })),
    );
    assert.equal(formatted, SINGLE);
  });

  it('does nothing to a text that is in order, and nothing to one with errors', () => {
    assert.deepEqual(formatting(analysed(SINGLE)), []);
    assert.deepEqual(formatting(analysed(SINGLE.replace('hookup {', '  hookup {').slice(0, -3))), []);
  });
});

describe('semantic tokens', () => {
  const text = SINGLE.replace('cover none', 'cover none\n  target {\n    resistance 5.9 kohm\n  }');

  it('name kinds and units, in order and never over each other', () => {
    const tokens = semanticTokens(analysed(text));
    const written = tokens.map(({ kind, span }) => `${kind} ${text.slice(span.start, span.end)}`);
    for (const wanted of ['pickup wren', 'coil main', 'bobbin rod-six', 'lead violet', 'unit kohm']) {
      assert.ok(written.includes(wanted), `${wanted} in ${written.join(', ')}`);
    }
    for (const [index, { span }] of tokens.entries()) assert.ok(span.start >= (tokens[index - 1]?.span.end ?? 0));
  });

  it('of a part of the file only that part', () => {
    assert.deepEqual(semanticTokens(analysed(text), { start: 0, end: 5 }), []);
  });
});
