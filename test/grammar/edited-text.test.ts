import assert from 'node:assert/strict';
import { editedText } from '../../grammar/src/edited-text.ts';

describe('a text with edits made', () => {
  const edit = (start: number, end: number, newText: string) => ({ start, end, newText });

  it('whatever their order, each stands where it was meant', () => {
    assert.equal(editedText('link red green', [edit(5, 8, 'black'), edit(9, 14, 'white')]), 'link black white');
    assert.equal(editedText('link red green', [edit(9, 14, 'white'), edit(5, 8, 'black')]), 'link black white');
  });

  it('of two at one place the first stands first', () => {
    assert.equal(editedText('ab', [edit(1, 1, 'x'), edit(1, 1, 'y')]), 'axyb');
  });

  it('two that overlap are none', () => {
    assert.equal(editedText('link red', [edit(0, 6, ''), edit(5, 8, 'black')]), undefined);
  });
});
