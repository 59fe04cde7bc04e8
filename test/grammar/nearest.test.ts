import assert from 'node:assert/strict';
import { editDistance, nearest } from '../../grammar/src/nearest.ts';

describe('the nearest word', () => {
  it('counts insertions, deletions, replacements and exchanged neighbours', () => {
    assert.equal(editDistance('turnz', 'turns'), 1);
    assert.equal(editDistance('tunrs', 'turns'), 1);
    assert.equal(editDistance('turn', 'turns'), 1);
    assert.equal(editDistance('turnns', 'turns'), 1);
    // Each pair is exchanged once and not edited again: 3, where an unrestricted count gives 2.
    assert.equal(editDistance('ca', 'abc'), 3);
    assert.equal(editDistance('', 'abc'), 3);
  });

  it('is found within a distance that grows with the word, whatever the case of its letters', () => {
    assert.equal(nearest('tunrs', ['wound', 'turns']), 'turns');
    assert.equal(nearest('TURNS', ['turns']), 'turns');
    assert.equal(nearest('to', ['at', 'two']), 'two');
    assert.equal(nearest('abc', ['xyz']), undefined);
    assert.equal(nearest('counterclokwize', ['clockwise', 'counterclockwise']), 'counterclockwise');
  });

  it('is never the word itself, and never one of which nothing is left', () => {
    assert.equal(nearest('turns', ['turns']), undefined);
    assert.equal(nearest('a', ['b']), undefined);
  });

  it('is never another figure, nor another of the letters that tell names apart', () => {
    assert.equal(nearest('alnico-4', ['alnico-5']), undefined);
    assert.equal(nearest('w43', ['w42']), undefined);
    assert.equal(nearest('rod-n', ['rod-s']), undefined);
    assert.equal(nearest('w-42', ['w42']), 'w42');
  });

  it('takes the first of equals', () => assert.equal(nearest('cat', ['bat', 'hat']), 'bat'));
});
